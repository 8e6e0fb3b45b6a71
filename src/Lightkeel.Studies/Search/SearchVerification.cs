using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models.Quantities;

namespace Lightkeel.Studies.Search;

/// <summary>A member as its written file alone gives it, measured finely.</summary>
/// <param name="Candidate">The member, its aims as verified.</param>
/// <param name="Limits">Values of the limits, SI, in their order.</param>
/// <param name="Toml">Text of its design file.</param>
/// <param name="Engine">Engine that gave the light pressure.</param>
/// <param name="Ride">How its ride ended; null when none was flown.</param>
/// <param name="AimChange">Largest change of an aim from what the search had, over its size.</param>
internal sealed record VerifiedMember(
    SearchCandidate Candidate,
    double[] Limits,
    string Toml,
    string Engine,
    string? Ride,
    double AimChange
);

/// <summary>Reads every member back from its file text, measures it more finely, and drops what does not hold.</summary>
/// <param name="problem">The problem.</param>
/// <param name="evaluator">Measures finely.</param>
/// <param name="context">Threads, cancellation.</param>
internal sealed class SearchVerification(SearchProblem problem, SearchEvaluator evaluator, StudyContext context)
{
    // What rounding may break of a limit.
    private const double Rounding = 1e-9;

    /// <summary>Members that were dropped, by reason.</summary>
    public SortedDictionary<string, int> Dropped { get; } = new(StringComparer.Ordinal);

    /// <summary>Verifies members; null entries were dropped; null as a whole when stopped.</summary>
    public VerifiedMember?[]? Run(IReadOnlyList<SearchCandidate> members)
    {
        (VerifiedMember? Member, string? Reason)[] found = new (VerifiedMember?, string?)[members.Count];
        int done = 0;
        try
        {
            Parallel.For(
                0,
                members.Count,
                new ParallelOptions
                {
                    MaxDegreeOfParallelism = context.Threads,
                    CancellationToken = context.Cancellation,
                },
                i =>
                {
                    found[i] = Verify(members[i]);
                    context.Progress.Report("members verified", Interlocked.Increment(ref done), members.Count);
                }
            );
        }
        catch (OperationCanceledException)
        {
            return null;
        }
        foreach ((_, string? reason) in found)
        {
            if (reason is not null)
            {
                Dropped[reason] = Dropped.GetValueOrDefault(reason) + 1;
            }
        }
        return [.. found.Select(f => f.Member)];
    }

    private (VerifiedMember?, string?) Verify(SearchCandidate candidate)
    {
        string toml = SearchMemberFile.TextOf(problem, candidate);
        try
        {
            DesignDocument document = DesignDocument.Parse(
                toml,
                "member.toml",
                new() { Folder = SearchMemberFile.FolderOf(problem), AllowOutsideFiles = true }
            );
            (double?[] aims, double?[] limits) = evaluator.All(document, out DesignMeasurement measured);
            if (aims.Any(a => a is null) || limits.Any(l => l is null))
            {
                return (null, "a quantity does not exist");
            }
            for (int i = 0; i < limits.Length; i++)
            {
                if (problem.Limits[i].Violation(limits[i]!.Value) > Rounding)
                {
                    return (null, "a limit does not hold: " + problem.Limits[i].Text);
                }
            }
            (string? ride, string? lost) = problem.File.Method.WithRide ? Flown(measured) : (null, null);
            if (lost is not null)
            {
                return (null, lost);
            }
            double[] values = [.. aims.Select(a => a!.Value)];
            double change = values
                .Select((v, k) => Math.Abs(v - candidate.Aims[k]) / Math.Max(Math.Abs(v), 1e-300))
                .Max();
            VerifiedMember member = new(
                candidate with
                {
                    Aims = values,
                },
                [.. limits.Select(l => l!.Value)],
                toml,
                measured.EngineName ?? "none",
                ride,
                change
            );
            return (member, null);
        }
        catch (Exception e) when (e is DesignFaultException or InputRefusedException)
        {
            return (null, "its file is refused");
        }
    }

    private static (string? Ride, string? Lost) Flown(DesignMeasurement measured)
    {
        Measured<RideResult> ride = measured.Ride;
        return !ride.Exists ? (null, "its ride cannot be flown to the end")
            : ride.Value.Outcome.Ending == RideEnding.Held ? ("held", null)
            : (null, "its ride is lost");
    }
}
