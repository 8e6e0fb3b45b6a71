using Lightkeel.Numerics.Optimisation;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Search;

/// <summary>Improves designs by gradients: every aim at once where there are several, limits kept.</summary>
/// <remarks>
/// What falls is a smooth maximum over the aims of the change from the member, each over the range of the front, so that a
/// design below zero is better in every aim; broken limits cost the square of what breaks them, a little inside the limit
/// already. Gradients are central differences of the measured quantities: two measurements a variable.
/// </remarks>
internal sealed class SearchPolish
{
    private const double Sharpness = 20;
    private const double Weight = 1e4;
    private const double Inside = 1e-3;
    private const double Step = 1e-4;
    private readonly SearchProblem _problem;
    private readonly SearchEvaluator _evaluator;
    private readonly StudyContext _context;
    private readonly double[] _scale;

    /// <summary>Prepares.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="evaluator">Measures finely enough for differences.</param>
    /// <param name="scale">Range of each aim that counts as much as that of the others.</param>
    /// <param name="context">Threads, progress, cancellation.</param>
    public SearchPolish(SearchProblem problem, SearchEvaluator evaluator, double[] scale, StudyContext context) =>
        (_problem, _evaluator, _scale, _context) = (problem, evaluator, scale, context);

    /// <summary>Measurements so far.</summary>
    public long Measurements { get; private set; }

    /// <summary>Gradients so far.</summary>
    public long Gradients { get; private set; }

    /// <summary>Why the descents ended, in words, with how many.</summary>
    public SortedDictionary<string, int> Endings { get; } = new(StringComparer.Ordinal);

    /// <summary>Polishes members side by side.</summary>
    /// <param name="members">The members.</param>
    /// <param name="steps">Most gradients for each.</param>
    /// <returns>For every member the polished design, or null where nothing better was found; null as a whole when stopped.</returns>
    public SearchCandidate?[]? Run(IReadOnlyList<SearchCandidate> members, int steps)
    {
        Descent[] descents = [.. members.Select(m => new Descent(_problem, m))];
        for (int step = 0; step < steps && descents.Any(d => d.Search.EndReason is null); step++)
        {
            Descent[] going = [.. descents.Where(d => d.Search.EndReason is null)];
            double[][] places = [.. going.SelectMany(d => d.Stencil(Step))];
            if (Measure(places) is not { } all)
            {
                return null;
            }
            int at = 0;
            foreach (Descent d in going)
            {
                at = Tell(d, all, at);
                Gradients++;
            }
            _context.Progress.Report("gradients", (long)(step + 1) * descents.Length, (long)steps * descents.Length);
        }
        foreach (Descent d in descents)
        {
            string why = d.Search.EndReason ?? "all gradients were used";
            Endings[why] = Endings.GetValueOrDefault(why) + 1;
        }
        return Accepted(descents);
    }

    private SearchCandidate?[]? Accepted(Descent[] descents)
    {
        SearchFinding[] found = new SearchFinding[descents.Length];
        try
        {
            Parallel.For(
                0,
                descents.Length,
                new ParallelOptions
                {
                    MaxDegreeOfParallelism = _context.Threads,
                    CancellationToken = _context.Cancellation,
                },
                i => found[i] = _evaluator.At(descents[i].PlaceOf(descents[i].Search.Place))
            );
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        Measurements += descents.Length;
        return
        [
            .. descents.Select(
                (d, i) =>
                {
                    SearchCandidate polished = d.Member with
                    {
                        Genes = d.PlaceOf(d.Search.Place),
                        Aims = found[i].Aims,
                    };
                    return found[i].Status == SearchStatus.Feasible && IsBetter(polished, d.Member) ? polished : null;
                }
            ),
        ];
    }

    private bool IsBetter(SearchCandidate a, SearchCandidate b)
    {
        Outcome after = new([.. a.Aims.Select((v, k) => _problem.Aims[k].Cost(v))]);
        return after.Dominates(new([.. b.Aims.Select((v, k) => _problem.Aims[k].Cost(v))]));
    }

    private (double?[] Aims, double?[] Limits)[]? Measure(double[][] places)
    {
        (double?[], double?[])[] found = new (double?[], double?[])[places.Length];
        try
        {
            Parallel.For(
                0,
                places.Length,
                new ParallelOptions
                {
                    MaxDegreeOfParallelism = _context.Threads,
                    CancellationToken = _context.Cancellation,
                },
                i => found[i] = _evaluator.All(places[i])
            );
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        Measurements += places.Length;
        return found;
    }

    private int Tell(Descent d, (double?[] Aims, double?[] Limits)[] all, int at)
    {
        double value = Merit(d.Member, all[at++]);
        double[] gradient = new double[d.Free.Count];
        for (int i = 0; i < gradient.Length; i++)
        {
            double above = Merit(d.Member, all[at++]);
            double below = Merit(d.Member, all[at++]);
            gradient[i] = (above - below) / d.Widths[i];
        }
        d.Search.Tell(value, gradient);
        return at;
    }

    // Infinite where an aim does not exist.
    private double Merit(SearchCandidate from, (double?[] Aims, double?[] Limits) found)
    {
        double penalty = 0;
        for (int i = 0; i < found.Limits.Length; i++)
        {
            if (found.Limits[i] is not { } limited)
            {
                return double.PositiveInfinity;
            }
            penalty += Weight * Math.Pow(Broken(_problem.Limits[i], limited), 2);
        }
        double[] changes = new double[found.Aims.Length];
        for (int k = 0; k < changes.Length; k++)
        {
            if (found.Aims[k] is not { } value)
            {
                return double.PositiveInfinity;
            }
            changes[k] = (_problem.Aims[k].Cost(value) - _problem.Aims[k].Cost(from.Aims[k])) / _scale[k];
        }
        double most = changes.Max();
        double sum = changes.Sum(c => Math.Exp(Sharpness * (c - most)));
        return most + Math.Log(sum) / Sharpness + penalty;
    }

    // By how much a limit drawn a little inside is broken.
    private static double Broken(SearchLimit limit, double value)
    {
        double below = limit.Least is { } least ? (least - value) / Size(least) + Inside : 0;
        double above = limit.Most is { } most ? (value - most) / Size(most) + Inside : 0;
        return Math.Max(0, Math.Max(below, above));
    }

    private static double Size(double limit) => limit == 0 ? 1 : Math.Abs(limit);

    /// <summary>The descent of one member over the real numbers that exist for it.</summary>
    private sealed class Descent
    {
        public Descent(SearchProblem problem, SearchCandidate member)
        {
            Member = member;
            Free =
            [
                .. Enumerable
                    .Range(0, problem.Variables.Count)
                    .Where(i =>
                        problem.Variables[i].Gene.Kind == SearchVariableKind.Real
                        && problem.Variables[i].IsActive(member.Genes)
                    ),
            ];
            Search = new(
                [.. Free.Select(i => member.Genes[i])],
                [.. Free.Select(_ => 0.0)],
                [.. Free.Select(_ => 1.0)],
                1e-7,
                1e-9
            );
            Widths = new double[Free.Count];
        }

        public SearchCandidate Member { get; }

        public IReadOnlyList<int> Free { get; }

        public BoundedLbfgs Search { get; }

        /// <summary>Distance between the two places of each difference of the last stencil.</summary>
        public double[] Widths { get; }

        public double[] PlaceOf(double[] free)
        {
            double[] place = [.. Member.Genes];
            for (int i = 0; i < free.Length; i++)
            {
                place[Free[i]] = free[i];
            }
            return place;
        }

        /// <summary>The place itself, then two places for each variable.</summary>
        public IEnumerable<double[]> Stencil(double step)
        {
            double[] here = [.. Search.Ask()];
            yield return PlaceOf(here);
            for (int i = 0; i < here.Length; i++)
            {
                double own = here[i];
                (double above, double below) = (Math.Min(1, own + step), Math.Max(0, own - step));
                Widths[i] = above - below;
                here[i] = above;
                yield return PlaceOf(here);
                here[i] = below;
                yield return PlaceOf(here);
                here[i] = own;
            }
        }
    }
}
