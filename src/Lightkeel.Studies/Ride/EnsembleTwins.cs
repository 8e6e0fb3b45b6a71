using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>What is kept of the twins of one ride.</summary>
/// <param name="Numerics">The whole comparison, of ride 0 only.</param>
/// <param name="Steps">How it ends with finer steps; null without a comparison.</param>
/// <param name="Forces">How it ends with other forces; null without a comparison.</param>
internal sealed record RideTwinRow(
    [property: JsonPropertyName("numerics")] RideNumericsReport? Numerics,
    [property: JsonPropertyName("steps")] string? Steps,
    [property: JsonPropertyName("forces")] string? Forces
);

/// <summary>What the numbers of an ensemble are worth.</summary>
internal sealed record EnsembleWorth(RideNumericsReport Numerics, EndingTwins? Steps, EndingTwins? Forces);

/// <summary>
/// Flies twins of the first rides of an ensemble, one in 25, at most 16, and 4 where some rides are held and some lost; where an
/// ending changes, of more of them, so that the change can be judged. Kept in the archive too: recalling an ensemble flies nothing.
/// </summary>
internal sealed class EnsembleTwins
{
    private const int RidesPerTwin = 25;
    private const int MostAtFirst = 16;
    private const int LeastWhereMixed = 4;
    private const int AllOfFew = 32;
    private const int MostAtLast = 64;

    private readonly RidePlan _plan;
    private readonly RideInput _input;
    private readonly StudyContext _context;
    private readonly CampaignPlan _asked;
    private readonly RideMethod _method;
    private readonly RideResult? _first;
    private readonly FlownRide[] _flown;
    private readonly RideCount _count;
    private readonly ConfidenceInterval _interval;

    public EnsembleTwins(
        RidePlan plan,
        RideInput input,
        StudyContext context,
        CampaignPlan asked,
        RideMethod method,
        IReadOnlyList<FlownRide> flown,
        RideCount count,
        RideResult? first
    )
    {
        (_plan, _input, _context, _asked, _method, _first) = (plan, input, context, asked, method, first);
        _flown = [.. flown.Take(MostAtLast)];
        _count = count;
        _interval = count.Interval95(asked.Items);
    }

    /// <summary>The worth; null when it was stopped before its end.</summary>
    public EnsembleWorth? Fly()
    {
        long rides = _asked.Items;
        long atLeast = _count is { Held: > 0, Lost: > 0 } ? Math.Min(LeastWhereMixed, rides) : 1;
        long atFirst = _input.WithConvergence ? Math.Clamp(rides / RidesPerTwin, atLeast, MostAtFirst) : 1;
        if (Rows(atFirst) is not { } rows)
        {
            return null;
        }
        long atLast = rides <= AllOfFew ? rides : Math.Clamp(4 * atFirst, AllOfFew, MostAtLast);
        if (Changes(rows) && atLast > atFirst && Rows(atLast) is { } more)
        {
            rows = more;
        }
        else if (_context.Cancellation.IsCancellationRequested)
        {
            return null;
        }
        return new(rows[0].Numerics!, Judge(rows, r => r.Steps), Judge(rows, r => r.Forces));
    }

    private bool Changes(RideTwinRow[] rows) =>
        Judge(rows, r => r.Steps) is { Changed: > 0 } || Judge(rows, r => r.Forces) is { Changed: > 0 };

    private EndingTwins? Judge(RideTwinRow[] rows, Func<RideTwinRow, string?> ending)
    {
        (long twins, long heldToLost, long lostToHeld) = (0, 0, 0);
        for (int i = 0; i < rows.Length; i++)
        {
            if (ending(rows[i]) is not { } other)
            {
                continue;
            }
            bool wasHeld = _flown[i].Ending == RideEnding.Held;
            bool isHeld = other == RideWords.Of(RideEnding.Held);
            twins++;
            heldToLost += wasHeld && !isHeld ? 1 : 0;
            lostToHeld += isHeld && !wasHeld ? 1 : 0;
        }
        return twins == 0 ? null : EndingTwins.Of(_asked.Items, _count.Held, _interval, twins, heldToLost, lostToHeld);
    }

    private RideTwinRow[]? Rows(long twins)
    {
        CampaignPlan asked = RideCampaign.WorthOf(_asked, _input, twins);
        RowLayout layout = asked.Question.Layout;
        try
        {
            CampaignResults worth = _context.Complete(
                new(asked, (number, row) => layout.Put(row, 0, JsonSerializer.Serialize(Assess(number), RowJson)))
            );
            return worth.IsComplete
                ? [.. worth.Items((_, row) => JsonSerializer.Deserialize(layout.Text(row, 0), RowJson)!)]
                : null;
        }
        catch (OperationCanceledException) when (_context.Cancellation.IsCancellationRequested)
        {
            return null;
        }
    }

    private static JsonTypeInfo<RideTwinRow> RowJson => RideJson.Default.RideTwinRow;

    private RideTwinRow Assess(long number)
    {
        RideModel ride = _plan.Prepare((ulong)number, isScattered: true);
        bool isOver = _plan.Scatter.Count > 0 && RideEnsemble.LostAtOnce((ulong)number, ride) is not null;
        RideTwinRow row =
            number == 0 ? (isOver ? LostBefore() : AssessFirst(ride))
            : isOver || !_input.WithConvergence ? new(null, null, null)
            : AssessEnding(number);
        // A comparison that was stopped must not be kept as one that was not asked for.
        _context.Cancellation.ThrowIfCancellationRequested();
        return row;
    }

    private RideTwinRow LostBefore() =>
        new(
            RideReading.NoNumerics(_plan.Steps, "Ride 0 was lost at once: its start was drawn beyond a limit."),
            null,
            null
        );

    private RideTwinRow AssessFirst(RideModel ride)
    {
        RideResult first = _first ?? RidePlan.Fly(ride, _method, CancellationToken.None);
        RideMethod method = _method with { RecordEverySeconds = null };
        RideConvergence? finer = _plan.Compare(first, 0, isScattered: true, method);
        EngineTwin? twin = _plan.CompareEngine(first, 0, isScattered: true, method);
        return new(
            RideReading.Numerics(_plan.Steps, first, (finer, twin)),
            finer is null ? null : RideWords.Of(finer.Fine.Outcome.Ending),
            twin is null ? null : RideWords.Of(twin.Change.Fine.Outcome.Ending)
        );
    }

    private RideTwinRow AssessEnding(long number)
    {
        if (_flown[number].Ending is not (RideEnding.Held or RideEnding.Lost))
        {
            return new(null, null, null);
        }
        (RideEnding steps, RideEnding forces) = _plan.TwinEndings(
            (ulong)number,
            _method with
            {
                RecordEverySeconds = null,
            }
        );
        return new(null, RideWords.Of(steps), RideWords.Of(forces));
    }
}
