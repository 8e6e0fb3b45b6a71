using System.Globalization;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Search;

/// <summary>Everything that was evaluated, in order: kept in the archive, recalled from it, and never computed twice.</summary>
/// <remarks>
/// Optimisers ask the same questions when they are told the same answers, so evaluation number i of a search is a place that
/// follows from the evaluations before it; its answer is item i of a campaign.
/// </remarks>
internal sealed class SearchLedger
{
    /// <summary>Raise it with every change that moves a bit of an evaluation or of what is asked next.</summary>
    private const int ResultVersion = 1;

    private static readonly SearchStatus[] Statuses = Enum.GetValues<SearchStatus>();
    private readonly SearchProblem _problem;
    private readonly StudyContext _context;
    private readonly RowLayout _layout;
    private readonly IPieceStore _store;
    private readonly Dictionary<long, ItemRange> _stored = [];
    private readonly Dictionary<string, int> _known = new(StringComparer.Ordinal);
    private readonly SearchEvaluator _evaluator;
    private bool _writes;

    public SearchLedger(SearchProblem problem, SearchEvaluator evaluator, StudyContext context)
    {
        (_problem, _evaluator, _context) = (problem, evaluator, context);
        if (context.Campaigns is SplitHome)
        {
            throw new InputRefusedException(
                "search",
                "a search cannot be split into shares: every generation follows from all before it",
                "run it on one machine with as many --threads as it has; stopped, it goes on from its archive"
            );
        }
        _layout = new([
            .. problem.Variables.Select((_, i) => RowColumn.Number(FormattableString.Invariant($"gene_{i}"))),
            .. problem.Aims.Select((_, i) => RowColumn.Number(FormattableString.Invariant($"aim_{i}"))),
            RowColumn.Number("violation"),
            RowColumn.Word("status", [.. Statuses.Select(s => s.ToString())]),
        ]);
        _store = context.Campaigns.Open(PlanOf(problem.File.Method.Evaluations));
        foreach (ItemRange range in _store.Stored())
        {
            _stored[range.First] = range;
        }
    }

    /// <summary>Places that were looked at, in order.</summary>
    public List<double[]> Places { get; } = [];

    /// <summary>What they came to.</summary>
    public List<SearchFinding> Findings { get; } = [];

    /// <summary>Evaluations recalled from the archive.</summary>
    public long Recalled { get; private set; }

    /// <summary>Evaluations answered by an earlier one of the same design.</summary>
    public long Duplicates { get; private set; }

    /// <summary>Where the archive is; null for memory.</summary>
    public string? Archive => _store.Place;

    /// <summary>Told the host at the end.</summary>
    public void Close() =>
        _context.Campaigns.Computed(
            PlanOf(Findings.Count),
            _store,
            new([new(0, Math.Max(1, Findings.Count))], Findings.Count),
            Recalled
        );

    /// <summary>Evaluates places; null where the run was asked to stop.</summary>
    public SearchFinding[]? Evaluate(IReadOnlyList<double[]> genes)
    {
        double[][] places = [.. genes.Select(_problem.Canonical)];
        long first = Findings.Count;
        SearchFinding[]? found = Recall(first, places) ?? Compute(first, places);
        if (found is null)
        {
            return null;
        }
        for (int i = 0; i < places.Length; i++)
        {
            _known.TryAdd(KeyOf(places[i]), (int)first + i);
            Places.Add(places[i]);
            Findings.Add(found[i]);
        }
        return found;
    }

    private SearchFinding[]? Recall(long first, double[][] places)
    {
        if (!_stored.TryGetValue(first, out ItemRange range) || range.Count != places.Length)
        {
            return null;
        }
        ReadOnlyMemory<byte> rows = _store.Get(range);
        SearchFinding[] found = new SearchFinding[places.Length];
        for (int i = 0; i < found.Length; i++)
        {
            ReadOnlySpan<byte> row = rows.Span.Slice(i * _layout.Bytes, _layout.Bytes);
            for (int g = 0; g < places[i].Length; g++)
            {
                if (_layout.Number(row, g) != places[i][g])
                {
                    return null;
                }
            }
            found[i] = ReadRow(row);
        }
        Recalled += found.Length;
        return found;
    }

    private SearchFinding[]? Compute(long first, double[][] places)
    {
        SearchFinding?[] found = new SearchFinding?[places.Length];
        int[] source = new int[places.Length];
        Dictionary<string, int> own = new(StringComparer.Ordinal);
        for (int i = 0; i < places.Length; i++)
        {
            string key = KeyOf(places[i]);
            source[i] = i;
            if (_known.TryGetValue(key, out int before))
            {
                found[i] = Findings[before];
                Duplicates++;
            }
            else if (!own.TryAdd(key, i))
            {
                source[i] = own[key];
                Duplicates++;
            }
        }
        int[] work = [.. Enumerable.Range(0, places.Length).Where(i => found[i] is null && source[i] == i)];
        try
        {
            Parallel.ForEach(
                work,
                new ParallelOptions
                {
                    MaxDegreeOfParallelism = _context.Threads,
                    CancellationToken = _context.Cancellation,
                },
                i => found[i] = _evaluator.At(places[i])
            );
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        SearchFinding[] all = [.. Enumerable.Range(0, places.Length).Select(i => found[source[i]]!)];
        Store(first, places, all);
        return all;
    }

    private void Store(long first, double[][] places, SearchFinding[] found)
    {
        if (_stored.ContainsKey(first))
        {
            // Another run cut its generations elsewhere; what it stored stays.
            return;
        }
        if (!_writes)
        {
            _store.BeginRun();
            _writes = true;
        }
        byte[] rows = new byte[places.Length * _layout.Bytes];
        for (int i = 0; i < places.Length; i++)
        {
            Span<byte> row = rows.AsSpan(i * _layout.Bytes, _layout.Bytes);
            int column = 0;
            foreach (double g in places[i])
            {
                _layout.Put(row, column++, g);
            }
            foreach (double a in found[i].Aims)
            {
                _layout.Put(row, column++, a);
            }
            _layout.Put(row, column++, found[i].Violation);
            _layout.PutWord(row, column, Array.IndexOf(Statuses, found[i].Status));
        }
        ItemRange range = new(first, places.Length);
        _store.Put([new Piece(range, rows)]);
        _stored[first] = range;
    }

    private SearchFinding ReadRow(ReadOnlySpan<byte> row)
    {
        int column = _problem.Variables.Count;
        double[] aims = new double[_problem.Aims.Count];
        for (int k = 0; k < aims.Length; k++)
        {
            aims[k] = _layout.Number(row, column++);
        }
        double violation = _layout.Number(row, column++);
        return new(Statuses[_layout.Word(row, column)], aims, violation);
    }

    private CampaignPlan PlanOf(long items)
    {
        MethodDesign method = _problem.File.Method;
        return new(
            new()
            {
                Study = "search",
                ResultVersion = ResultVersion,
                DesignSha256 = _problem.Design.Sha256,
                SideFiles = [.. _problem.Design.Document.SideFiles.Select(f => (f.Name, f.Sha256))],
                Settings =
                [
                    ("study", StudyKey()),
                    ("accuracy", Text(_evaluator.Settings.Accuracy)),
                    ("population", Text(method.Population)),
                    ("kind", method.Kind.ToString()),
                    ("engine", method.Engine),
                ],
                Seed = _context.Seed,
                Accuracy = _context.Accuracy,
                Layout = _layout,
            },
            items,
            Block: 1_000_000
        )
        {
            Stage = "evaluations",
            Title = _problem.Title,
            DesignText = _problem.Design.Document.Text,
            DesignFile = _problem.Source,
        };
    }

    // What the evaluations depend on beside the design: not how many there may be, nor when to stop.
    private string StudyKey()
    {
        IEnumerable<string> variables = _problem.Variables.Select(
            (v, i) =>
                $"{v.Name}|{Text(v.Lower)}|{Text(v.Upper)}|{v.IsLogarithmic}|{v.IsWhole}|{string.Join(',', v.Words)}|{v.When?.Variable}:{string.Join(',', v.When?.Choices ?? [])}|{string.Join(';', _problem.ChoiceChanges[i].Select(c => string.Join('&', c)))}"
        );
        IEnumerable<string> profiles = _problem.Profiles.Select(p => p.ToString());
        IEnumerable<string> aims = _problem.Aims.Select(a => $"{a.IsMaximised}|{a.Metric.Name}");
        IEnumerable<string> limits = _problem.Limits.Select(l => $"{l.Metric.Name}|{Text(l.Least)}|{Text(l.Most)}");
        IEnumerable<string> scatters = _problem.Scatters.Select(s =>
            $"{s.Path}|{s.Law}|{_problem.File.Method.Samples}"
        );
        return string.Join('\n', variables.Concat(profiles).Concat(aims).Concat(limits).Concat(scatters));
    }

    private static string Text<T>(T? value) => string.Format(CultureInfo.InvariantCulture, "{0}", value);

    private static string KeyOf(double[] place)
    {
        return string.Join(
            ',',
            place.Select(g => BitConverter.DoubleToInt64Bits(g).ToString("x", CultureInfo.InvariantCulture))
        );
    }
}
