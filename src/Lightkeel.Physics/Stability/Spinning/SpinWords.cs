using Lightkeel.Physics.Motion;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>The finding about a spinning craft, and its words.</summary>
internal static class SpinWords
{
    public static SpinFinding FindingOf(StabilityVerdict verdict, TiltLadderResult ladder, bool isTooShort)
    {
        if (!verdict.Rides())
        {
            return SpinFinding.LinearLeaves;
        }
        return ladder.Own.Ride.Ending switch
        {
            RideEnding.Held => isTooShort ? SpinFinding.Undecided : SpinFinding.Captured,
            RideEnding.Lost => SpinFinding.LinearOnly,
            _ => SpinFinding.Undecided,
        };
    }

    public static string Sentence(
        SpinFinding finding,
        TiltLadderResult ladder,
        IReadOnlyList<AveragedForcePoint> force,
        CircularFamily? displaced
    )
    {
        string flown = ladder.IsWholeRide
            ? "the whole ride"
            : $"{Decision.Text(ladder.HorizonSeconds)} s, where the search was cut";
        string own =
            $"a tilt of the spin axis of {Degrees(ladder.Own.TiltRadians)}{(ladder.OwnTiltIsGiven ? " (the design's own start)" : "")}";
        string average = SidewaysAt(ladder.Own.TiltRadians, force);
        string first = finding switch
        {
            SpinFinding.Captured => $"Captured: from {own} it stays on the beam for {flown}.{Limit(ladder)}{average}",
            SpinFinding.LinearOnly when !ladder.Rungs[0].IsHeld =>
                $"Rides only in the linear picture: its start is lost even without tilt, after {Decision.Text(ladder.Rungs[0].TimeSeconds)} s.",
            SpinFinding.LinearOnly =>
                $"Rides only in the linear picture: {own} already loses the beam after {Decision.Text(ladder.Own.TimeSeconds)} s.{Limit(ladder)}{average}",
            SpinFinding.LinearLeaves =>
                $"The linear verdict is not that it rides; from {own} the ride {(ladder.Own.IsHeld ? $"still stays on the beam for {flown}" : $"ends after {Decision.Text(ladder.Own.TimeSeconds)} s")}.{average}",
            _ when ladder.Own.IsHeld =>
                $"Whether the craft is captured is undecided: the rides were cut at {Decision.Text(ladder.HorizonSeconds)} s, before the craft could swing once across the beam and its spin axis precess once; from {own} it is still on the beam then, which tells nothing. Whole rides would tell.{average}",
            _ =>
                $"Whether the craft is captured is undecided: from {own} the ride could not be flown to its end. {ladder.Own.Ride.Sentence}",
        };
        return first + Fold(displaced);
    }

    private static string Limit(TiltLadderResult ladder) =>
        (ladder.LargestHeldRadians, ladder.SmallestLostRadians) switch
        {
            ({ } held, { } lost) =>
                $" Tilts up to {Degrees(held)} were held{Long(ladder)}, {Degrees(lost)} was not{NotComputable(ladder, lost)}.",
            ({ } held, null) => $" All tilts flown, up to {Degrees(held)}, were held{Long(ladder)}.",
            _ => "",
        };

    private static string Long(TiltLadderResult ladder) =>
        ladder.IsWholeRide ? "" : $" for these {Decision.Text(ladder.HorizonSeconds)} s";

    private static string NotComputable(TiltLadderResult ladder, double lost) =>
        ladder.Rungs.First(r => r.TiltRadians == lost).Ride.Ending == RideEnding.Lost
            ? ""
            : " (its ride came to a pose whose light cannot be computed)";

    private static string SidewaysAt(double tilt, IReadOnlyList<AveragedForcePoint> force)
    {
        for (int i = 1; i < force.Count; i++)
        {
            if (force[i].TiltRadians >= tilt)
            {
                double share = (tilt - force[i - 1].TiltRadians) / (force[i].TiltRadians - force[i - 1].TiltRadians);
                double sideways =
                    force[i - 1].SidewaysNewtons + share * (force[i].SidewaysNewtons - force[i - 1].SidewaysNewtons);
                return $" Averaged over the spin, such a tilt pushes it sideways with {Decision.Text(100 * Math.Abs(sideways) / force[0].ThrustNewtons)} % of the thrust.";
            }
        }
        return "";
    }

    private static string Fold(CircularFamily? displaced)
    {
        if (displaced is not { } slow)
        {
            return "";
        }
        return slow.FoldTiltRadians is { } fold
            ? $" A displaced trim exists up to a tilt of {Degrees(fold)}, stable up to {Degrees(slow.StableToRadians)}."
            : $" A displaced trim exists as far as it was followed, to a tilt of {Degrees(slow.Trims.Max(t => t.TiltRadians))}, stable up to {Degrees(slow.StableToRadians)}.";
    }

    private static string Degrees(double radians) => $"{Decision.Text(radians * 180 / Math.PI)} deg";
}
