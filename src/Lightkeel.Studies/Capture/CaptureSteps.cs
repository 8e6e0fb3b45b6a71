using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>
/// The steps of a capture, each a campaign: the starts of the coarse lattice, those of every level that splits it, the points of
/// the boundary, and those flown again. Which items a step has follows from the results of the steps before.
/// </summary>
internal sealed class CaptureSteps(
    CaptureInput input,
    DesignAxis x,
    DesignAxis y,
    CaptureRides rides,
    StudyContext context
)
{
    /// <summary>Raise it with every change that moves a bit of a fate or of a boundary.</summary>
    private const int ResultVersion = 1;

    /// <summary>Column of the number of rides behind an item.</summary>
    public const string Rides = "rides";

    // Columns of a start, in their order.
    private const int X = 0;
    private const int Y = 1;
    private const int Outcome = 2;
    private const int End = 3;

    private static readonly StartEnding[] Endings =
    [
        .. Enum.GetValues<StartEnding>().Where(e => e != StartEnding.NotReached),
    ];

    private static readonly RowLayout Starts = new(
        RowColumn.Number("x"),
        RowColumn.Number("y"),
        RowColumn.Word("outcome", [.. Endings.Select(CaptureWords.Of)]),
        RowColumn.Number("end_s")
    );

    /// <summary>Flies starts of a level; those that were not reached before a stop say so.</summary>
    /// <param name="level">The level.</param>
    /// <param name="batch">Which batch of the level.</param>
    /// <param name="starts">Values of the two fields.</param>
    /// <param name="fly">Flies one; called from many threads at once.</param>
    public IReadOnlyList<StartFate> Fly(
        int level,
        int batch,
        IReadOnlyList<(double X, double Y)> starts,
        Func<double, double, StartFate> fly
    )
    {
        string stage = level == 0 ? "starts" : FormattableString.Invariant($"starts on the boundary, level {level}");
        string step = FormattableString.Invariant($"level {level}, batch {batch}");
        Campaign campaign = new(
            PlanOf(stage, [("step", step)], starts.Count, Starts),
            (item, row) => Write(row, starts[(int)item], fly(starts[(int)item].X, starts[(int)item].Y))
        )
        {
            Failure = row => Read(row).Ending == StartEnding.NotComputable ? "not-computable" : null,
        };
        CampaignResults results = context.Complete(campaign);
        StartFate[] fates = new StartFate[starts.Count];
        foreach ((long item, StartFate fate) in results.Items((item, row) => (item, Read(row))))
        {
            fates[item] = fate;
        }
        rides.Count(results.Present);
        return fates;
    }

    /// <summary>Flies one start that belongs to no list; true when it is held.</summary>
    /// <exception cref="OperationCanceledException">The run was asked to stop.</exception>
    public bool Fly(RideStart start)
    {
        StartFate fate = rides.Fly(start);
        return fate.Ending == StartEnding.NotReached
            ? throw new OperationCanceledException(context.Cancellation)
            : fate.IsHeld;
    }

    /// <summary>Computes a step behind the lattice, whose items are a few numbers, the last of them how many rides they took.</summary>
    /// <param name="stage">What the items are called.</param>
    /// <param name="step">Which step.</param>
    /// <param name="items">How many.</param>
    /// <param name="work">Computes one.</param>
    /// <param name="headers">Their numbers.</param>
    /// <exception cref="OperationCanceledException">The run was asked to stop.</exception>
    public IReadOnlyList<double[]> Complete(
        string stage,
        string step,
        int items,
        NumberWork work,
        params IReadOnlyList<string> headers
    )
    {
        if (items == 0)
        {
            return [];
        }
        (string, string)[] settings = [("step", step), .. FinerSettingsOf(input)];
        CampaignPlan plan = PlanOf(stage, settings, items, NumberItems.Layout(headers));
        CampaignResults results = context.Complete(NumberItems.Of(plan, work));
        IReadOnlyList<double[]> found = NumberItems.Read(results);
        rides.Count((long)found.Sum(f => f[^1]));
        return results.IsComplete ? found : throw new OperationCanceledException(context.Cancellation);
    }

    /// <summary>Settings that every start depends on.</summary>
    internal static IReadOnlyList<(string Name, string Value)> SettingsOf(
        CaptureInput input,
        DesignAxis x,
        DesignAxis y
    ) =>
        [
            (nameof(CaptureInput.X), x.ToText()),
            (nameof(CaptureInput.Y), y.ToText()),
            (nameof(CaptureInput.Engine), input.Engine),
            (nameof(CaptureInput.HoldSeconds), FormattableString.Invariant($"{input.HoldSeconds:R}")),
            (nameof(CaptureInput.RideTolerance), FormattableString.Invariant($"{input.RideTolerance:R}")),
            (nameof(CaptureInput.IsNoisy), input.IsNoisy.ToString()),
        ];

    /// <summary>Settings that only the steps behind the lattice depend on: a lattice with more levels begins with the same starts.</summary>
    internal static IReadOnlyList<(string Name, string Value)> FinerSettingsOf(CaptureInput input) =>
        [
            (nameof(CaptureInput.Levels), FormattableString.Invariant($"{input.Levels}")),
            (nameof(CaptureInput.BoundaryTolerance), FormattableString.Invariant($"{input.BoundaryTolerance:R}")),
        ];

    private CampaignPlan PlanOf(string stage, IReadOnlyList<(string, string)> step, long items, RowLayout layout) =>
        DesignCampaign.PlanOf(
            input.Design,
            DesignCampaign.QuestionOf(
                input.Design,
                "capture",
                ResultVersion,
                [.. SettingsOf(input, x, y), .. step],
                context.Accuracy,
                layout
            ) with
            {
                // A calm beam has no random numbers.
                Seed = input.IsNoisy ? context.Seed : 0,
            },
            items
        ) with
        {
            Stage = stage,
            Keeping = CampaignKeeping.WhenLong,
        };

    private static void Write(Span<byte> row, (double X, double Y) start, in StartFate fate)
    {
        Starts.Put(row, X, start.X);
        Starts.Put(row, Y, start.Y);
        Starts.PutWord(row, Outcome, Array.IndexOf(Endings, fate.Ending));
        Starts.Put(row, End, fate.EndSeconds);
    }

    private static StartFate Read(ReadOnlySpan<byte> row) =>
        new(Endings[Starts.Word(row, Outcome)], Starts.Number(row, End));
}
