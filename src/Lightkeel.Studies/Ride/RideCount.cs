using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>How many rides ended how.</summary>
/// <param name="Held">Rides on the beam to the end.</param>
/// <param name="Lost">Rides that were lost.</param>
/// <param name="Undecided">Rides that could not be computed to their end.</param>
/// <param name="LossTimesSeconds">Times of loss in the order of the rides, s.</param>
internal sealed record RideCount(long Held, long Lost, long Undecided, IReadOnlyList<double> LossTimesSeconds)
{
    /// <summary>
    /// Clopper–Pearson interval of 95 % for the probability of being held: lower end with undecided rides as lost, upper end with
    /// them as held.
    /// </summary>
    /// <param name="rides">Rides flown.</param>
    public ConfidenceInterval Interval95(long rides) =>
        new(
            Proportion.ClopperPearson(Held, rides).Lower,
            Proportion.ClopperPearson(Held + Undecided, rides).Upper,
            0.95
        );

    /// <summary>Counts the rides; reads them twice, so that the times take no more room than they need.</summary>
    public static RideCount Of(IReadOnlyList<FlownRide> flown)
    {
        long held = 0;
        long lost = 0;
        foreach (FlownRide ride in flown)
        {
            held += ride.Ending == RideEnding.Held ? 1 : 0;
            lost += ride.Ending == RideEnding.Lost ? 1 : 0;
        }
        double[] losses = new double[lost];
        int i = 0;
        foreach (FlownRide ride in flown.Where(f => f.Ending == RideEnding.Lost))
        {
            losses[i++] = ride.TimeSeconds;
        }
        return new(held, lost, flown.Count - held - lost, losses);
    }
}
