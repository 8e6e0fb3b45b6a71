using System.Globalization;
using Lightkeel.Numerics.Optimisation;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Search;

/// <summary>Asks an optimiser, evaluates, tells, until the evaluations are used up or a stop rule ends it.</summary>
internal sealed class SearchExploration
{
    private readonly SearchProblem _problem;
    private readonly SearchLedger _ledger;
    private readonly StudyContext _context;
    private readonly MethodDesign _method;

    public SearchExploration(SearchProblem problem, SearchLedger ledger, StudyContext context)
    {
        (_problem, _ledger, _context) = (problem, ledger, context);
        _method = problem.File.Method;
        Population = _method.Population > 0 ? _method.Population : UsualPopulation(problem.Variables.Count);
        Front = new(problem.Aims, Math.Max(Population, 20));
        Volume = new(problem.Aims);
    }

    public int Population { get; }

    public SearchFront Front { get; }

    public FrontVolume Volume { get; }

    /// <summary>Why it ended.</summary>
    public string EndReason { get; private set; } = "";

    public bool WasStopped { get; private set; }

    /// <summary>Restarts of an optimiser that has them.</summary>
    public int Restarts { get; private set; }

    public void Run()
    {
        IAskTell optimiser = OptimiserOf();
        int still = 0;
        while (true)
        {
            IReadOnlyList<double[]> asked = optimiser.Ask();
            if (asked.Count == 0)
            {
                EndReason = optimiser.EndReason ?? "the optimiser ended";
                break;
            }
            if (_ledger.Findings.Count > 0 && _ledger.Findings.Count + asked.Count > _method.Evaluations)
            {
                EndReason = string.Create(
                    CultureInfo.InvariantCulture,
                    $"all {_method.Evaluations} evaluations were used"
                );
                break;
            }
            long before = Front.Changes;
            if (!Generation(optimiser, asked))
            {
                (WasStopped, EndReason) = (true, "it was stopped");
                break;
            }
            still = Front.Changes > before ? 0 : still + 1;
            if (_method.Stall > 0 && still >= _method.Stall)
            {
                EndReason = string.Create(
                    CultureInfo.InvariantCulture,
                    $"{still} generations in a row brought nothing"
                );
                break;
            }
        }
        Restarts = optimiser is BipopCmaEs cma ? cma.Restarts : 0;
    }

    private bool Generation(IAskTell optimiser, IReadOnlyList<double[]> asked)
    {
        if (_ledger.Evaluate(asked) is not { } found)
        {
            return false;
        }
        int first = _ledger.Findings.Count - found.Length;
        Outcome[] outcomes = new Outcome[found.Length];
        for (int i = 0; i < found.Length; i++)
        {
            double[] place = _ledger.Places[first + i];
            int kind = _problem.KindOf(place);
            outcomes[i] = found[i].Outcome(_problem.Aims, kind);
            if (found[i].Status == SearchStatus.Feasible)
            {
                Front.Add(new(place, found[i].Aims, kind));
            }
        }
        optimiser.Tell(outcomes);
        IReadOnlyList<SearchCandidate> front = Front.All();
        Volume.Note(_ledger.Findings.Count, [.. front.Select(Front.Costs)]);
        _context.Progress.Report("evaluations", _ledger.Findings.Count, _method.Evaluations);
        _context.Progress.ReportNote("evaluations", NoteOf(front));
        return true;
    }

    private string NoteOf(IReadOnlyList<SearchCandidate> front)
    {
        string size = string.Create(CultureInfo.InvariantCulture, $"front {front.Count}");
        return Volume.History[^1].Volume is { } volume
                ? string.Create(CultureInfo.InvariantCulture, $"{size}, hypervolume {volume:G6}")
            : front.Count > 0 && _problem.Aims.Count == 1
                ? string.Create(CultureInfo.InvariantCulture, $"best {front[0].Aims[0]:G8}")
            : size;
    }

    private IAskTell OptimiserOf()
    {
        SearchVariable[] genes = [.. _problem.Variables.Select(v => v.Gene)];
        SearchDraws draws = new(_context.Seed);
        double[]? own = OwnGenes(_problem);
        if (_method.Kind == SearchMethodKind.CmaEs)
        {
            double[] start = own ?? [.. genes.Select(_ => 0.5)];
            return new BipopCmaEs(genes, start, 0.3, draws, _method.Population);
        }
        return new Evolution(
            genes,
            new()
            {
                Population = Population,
                Kind =
                    _method.Kind == SearchMethodKind.NsgaIII
                    || (_method.Kind == SearchMethodKind.Hybrid && _problem.Aims.Count > 3)
                        ? EvolutionKind.NsgaIII
                        : EvolutionKind.NsgaII,
                Seeds = own is null ? [] : [own],
            },
            draws
        );
    }

    /// <summary>The genes of the design itself; null where it lies outside the bounds or has choices or profiles in their place.</summary>
    public static double[]? OwnGenes(SearchProblem problem)
    {
        if (problem.Variables.Any(v => v.IsChoice) || problem.Profiles.Count > 0)
        {
            return null;
        }
        double[] genes = new double[problem.Variables.Count];
        for (int i = 0; i < genes.Length; i++)
        {
            SearchNumber variable = problem.Variables[i];
            DesignNumber? number = problem.Design.Document.Numbers.FirstOrDefault(n => n.Path == variable.Name);
            if (number is null || number.SiValue < variable.Lower || number.SiValue > variable.Upper)
            {
                return null;
            }
            genes[i] = variable.GeneOf(number.SiValue);
        }
        return genes;
    }

    private static int UsualPopulation(int variables) => Math.Clamp(20 * variables / 2 * 2, 40, 200);
}
