using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>How many rides ended how.</summary>
/// <param name="Held">Rides on the beam to the end.</param>
/// <param name="Lost">Rides that were lost.</param>
/// <param name="Undecided">Rides that could not be computed to their end.</param>
/// <param name="LossTimesSeconds">Times of loss in the order of the rides, s.</param>
internal sealed record RideCount(long Held, long Lost, long Undecided, IReadOnlyList<double> LossTimesSeconds)
{
    public static RideCount Of(IEnumerable<FlownRide> flown)
    {
        long held = 0;
        long undecided = 0;
        List<double> losses = [];
        foreach (FlownRide ride in flown)
        {
            switch (ride.Ending)
            {
                case RideEnding.Held:
                    held++;
                    break;
                case RideEnding.Lost:
                    losses.Add(ride.TimeSeconds);
                    break;
                default:
                    undecided++;
                    break;
            }
        }
        return new(held, losses.Count, undecided, losses);
    }
}
