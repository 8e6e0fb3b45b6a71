using Lightkeel.Numerics.Optimisation;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models.Quantities;

namespace Lightkeel.Studies.Search;

/// <summary>What a run came to, before it is written down.</summary>
internal sealed record SearchYield
{
    public required SearchProblem Problem { get; init; }

    public required SearchLedger Ledger { get; init; }

    public required FrontVolume Volume { get; init; }

    /// <summary>Verified members: those of the front first, by the first aim, then others that are the best of their kind.</summary>
    public required IReadOnlyList<VerifiedMember> Members { get; init; }

    /// <summary>How many of them are on the front.</summary>
    public required int OnFront { get; init; }

    /// <summary>The best of each kind, among the members.</summary>
    public required IReadOnlyList<VerifiedMember> Concepts { get; init; }

    public VerifiedMember? Best { get; init; }

    public required string EndReason { get; init; }

    public required bool WasStopped { get; init; }

    public SearchPolishReport? Polish { get; init; }

    public required SearchVerificationReport Verification { get; init; }
}

/// <summary>Runs a search: explore, polish, verify.</summary>
internal sealed class SearchRun
{
    // Differences of quantities want forces this exact.
    private const double PolishAccuracy = 1e-9;
    private const int OfEachKind = 3;
    private readonly SearchProblem _problem;
    private readonly StudyContext _context;
    private readonly MethodDesign _method;
    private readonly SearchExploration _exploration;
    private readonly SearchLedger _ledger;
    private SearchPolishReport? _polish;
    private bool _stopped;

    public SearchRun(SearchProblem problem, StudyContext context)
    {
        (_problem, _context, _method) = (problem, context, problem.File.Method);
        MeasurementSettings coarse = new(_method.ExploreAccuracy, _method.Engine, EscapeCells: 64, RideTolerance: 1e-6)
        {
            IsQuick = true,
            Cancellation = context.Cancellation,
        };
        _ledger = new(problem, new(problem, coarse, context.Seed), context);
        _exploration = new(problem, _ledger, context);
    }

    public SearchYield Run()
    {
        bool gradient = _method.Kind == SearchMethodKind.Gradient;
        string end;
        if (gradient)
        {
            end = Begin();
        }
        else
        {
            _exploration.Run();
            (end, _stopped) = (_exploration.EndReason, _exploration.WasStopped);
        }
        IReadOnlyList<SearchCandidate> members = Members();
        if (!_stopped && members.Count > 0 && (gradient || _method.Kind == SearchMethodKind.Hybrid))
        {
            members = Polished(members, gradient);
        }
        (SearchVerificationReport report, IReadOnlyList<VerifiedMember> verified) = Verified(members);
        _ledger.Close();
        return YieldOf(end, report, verified);
    }

    // A descent begins at the design itself, or in the middle of the bounds.
    private string Begin()
    {
        double[] start = SearchExploration.OwnGenes(_problem) ?? [.. _problem.Variables.Select(_ => 0.5)];
        if (_ledger.Evaluate([start]) is not { } found)
        {
            _stopped = true;
            return "it was stopped";
        }
        if (found[0].Status != SearchStatus.Feasible)
        {
            return "the design that the descent begins from breaks a limit or lacks an aim";
        }
        _exploration.Front.Add(new(_ledger.Places[0], found[0].Aims, 0));
        return "the descent began from the design itself";
    }

    private SearchCandidate[] Members()
    {
        SearchFront front = _exploration.Front;
        List<SearchCandidate> members = [.. front.Spread(front.All(), _exploration.Population)];
        foreach (int kind in front.Kinds.Where(_ => front.Kinds.Count > 1))
        {
            IReadOnlyList<SearchCandidate> own = front.OfKind(kind);
            members.AddRange(front.Spread(own, OfEachKind));
            members.Add(front.Knee(own));
        }
        return [.. members.Distinct(ReferenceEqualityComparer.Instance).Cast<SearchCandidate>()];
    }

    private IReadOnlyList<SearchCandidate> Polished(IReadOnlyList<SearchCandidate> members, bool gradient)
    {
        SearchFront front = _exploration.Front;
        MeasurementSettings fine = new(Math.Min(PolishAccuracy, _context.Accuracy), _method.Engine, RideTolerance: 1e-9)
        {
            IsQuick = true,
            Cancellation = _context.Cancellation,
        };
        SearchPolish polish = new(_problem, new(_problem, fine, _context.Seed), Scale(members), _context);
        int most = _problem.Aims.Count == 1 ? Math.Min(1, _method.PolishMembers) : _method.PolishMembers;
        SearchCandidate[] chosen =
        [
            .. front
                .Spread(front.Nondominated(members), Math.Max(1, most))
                .Concat(front.Kinds.Count > 1 ? front.Kinds.Select(k => front.Knee(front.OfKind(k))) : [])
                .Distinct(ReferenceEqualityComparer.Instance)
                .Cast<SearchCandidate>()
                .Where(_ => most > 0 || gradient),
        ];
        int steps = gradient
            ? Math.Max(1, _method.Evaluations / (2 * _problem.Variables.Count + 1))
            : _method.PolishSteps;
        if (polish.Run(chosen, steps) is not { } found)
        {
            _stopped = true;
            return members;
        }
        SearchCandidate[] better = [.. found.OfType<SearchCandidate>()];
        _polish = new(
            chosen.Length,
            better.Length,
            polish.Gradients,
            polish.Measurements,
            [.. polish.Endings.Select(e => new SearchCountOf(e.Key, e.Value))]
        );
        return [.. members, .. better];
    }

    // Over what range each aim counts as much as the others.
    private double[] Scale(IReadOnlyList<SearchCandidate> members) =>
        [
            .. _problem.Aims.Select(
                (_, k) =>
                {
                    double most = members.Max(m => m.Aims[k]);
                    double range = most - members.Min(m => m.Aims[k]);
                    return range > 0 && _problem.Aims.Count > 1 ? range : Math.Max(Math.Abs(most), 1e-300);
                }
            ),
        ];

    private (SearchVerificationReport, IReadOnlyList<VerifiedMember>) Verified(IReadOnlyList<SearchCandidate> members)
    {
        double accuracy = Math.Min(_context.Accuracy, 0.01 * _method.ExploreAccuracy);
        // A run that was stopped still says what it found: members are few.
        StudyContext context = _stopped ? _context with { Cancellation = CancellationToken.None } : _context;
        MeasurementSettings exact = new(accuracy) { Cancellation = context.Cancellation };
        SearchVerification verification = new(_problem, new(_problem, exact, _context.Seed), context);
        (int verified, List<VerifiedMember> kept) = InRounds(verification, members);
        return (
            new(
                verified,
                kept.Count,
                [.. verification.Dropped.Select(d => new SearchCountOf(d.Key, d.Value))],
                accuracy,
                kept.Select(m => m.AimChange).DefaultIfEmpty(0).Max(),
                _method.WithRide
            ),
            kept
        );
    }

    // Of each kind only those that no other of it beats are worth verifying; where one of them does not hold, such as a member that
    // was polished over the edge, those that it beat come back.
    private (int Verified, List<VerifiedMember> Kept) InRounds(
        SearchVerification verification,
        IReadOnlyList<SearchCandidate> members
    )
    {
        SearchFront front = _exploration.Front;
        HashSet<SearchCandidate> open = new(members, ReferenceEqualityComparer.Instance);
        List<VerifiedMember> kept = [];
        int verified = 0;
        while (open.Count > 0)
        {
            IEnumerable<SearchCandidate> all = [.. members.Where(open.Contains), .. kept.Select(m => m.Candidate)];
            SearchCandidate[] left =
            [
                .. all.GroupBy(m => m.Kind)
                    .OrderBy(g => g.Key)
                    .SelectMany(g => front.Nondominated(g))
                    .Where(open.Contains),
            ];
            if (left.Length == 0)
            {
                break;
            }
            if (verification.Run(left) is not { } found)
            {
                // Stopped in between: nothing is reported that was not verified.
                _stopped = true;
                break;
            }
            verified += left.Length;
            open.ExceptWith(left);
            kept.AddRange(found.OfType<VerifiedMember>());
            if (found.All(m => m is not null))
            {
                break;
            }
        }
        return (verified, kept);
    }

    private SearchYield YieldOf(string end, SearchVerificationReport report, IReadOnlyList<VerifiedMember> verified)
    {
        SearchFront front = _exploration.Front;
        Dictionary<SearchCandidate, VerifiedMember> of = new(ReferenceEqualityComparer.Instance);
        foreach (VerifiedMember member in verified)
        {
            of[member.Candidate] = member;
        }
        IReadOnlyList<SearchCandidate> best = front.Nondominated(of.Keys);
        VerifiedMember[] onFront = [.. best.Select(c => of[c])];
        int[] kinds = [.. verified.Select(m => m.Candidate.Kind).Distinct().Order()];
        VerifiedMember[] concepts = _problem.Variables.Any(v => v.IsChoice)
            ? [.. kinds.Select(k => of[front.Knee(Candidates(onFront, verified, front, k))])]
            : [];
        return new()
        {
            Problem = _problem,
            Ledger = _ledger,
            Volume = _exploration.Volume,
            Members = [.. onFront, .. concepts.Except(onFront)],
            OnFront = onFront.Length,
            Concepts = concepts,
            Best = best.Count > 0 ? of[front.Knee(best)] : null,
            EndReason = end,
            WasStopped = _stopped,
            Polish = _polish,
            Verification = report,
        };
    }

    // Those of a kind on the front, or where there are none those that no other of the kind beats.
    private static IReadOnlyList<SearchCandidate> Candidates(
        VerifiedMember[] onFront,
        IReadOnlyList<VerifiedMember> verified,
        SearchFront front,
        int kind
    )
    {
        SearchCandidate[] own = [.. onFront.Select(m => m.Candidate).Where(c => c.Kind == kind)];
        return own.Length > 0 ? own : front.Nondominated(verified.Select(m => m.Candidate).Where(c => c.Kind == kind));
    }
}
