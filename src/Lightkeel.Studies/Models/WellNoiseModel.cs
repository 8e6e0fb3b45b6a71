using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Designs.Sections;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Models;

/// <summary>The noises of a design as a craft in a well meets them during its boost.</summary>
public static class WellNoiseModel
{
    private const int BoostRecords = 240;

    /// <summary>Flies straight along the axis: the boost itself, whatever the craft does beside it.</summary>
    /// <param name="ride">The ride.</param>
    /// <param name="cancellation">Asks to stop.</param>
    public static RideResult CalmBoost(RideModel ride, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ride);
        RideStart start = new()
        {
            SpeedMetresPerSecond = ride.Start.SpeedMetresPerSecond,
            SpinRadiansPerSecond = ride.Start.SpinRadiansPerSecond,
        };
        RideLimits limits = ride.Limits with { LostAtMetres = null, TiltLimitRadians = null };
        RideMethod method = new() { RecordEverySeconds = limits.DurationSeconds / BoostRecords, FindPeaks = false };
        return DesignModel.Guarded(
            "ride",
            () => Physics.Motion.Ride.Fly(ride.Setup, start, limits, method, cancellation)
        );
    }

    /// <summary>Mean of the squared range from the director over a boost, m²; null without a director.</summary>
    public static double? MeanSquareRange(RideModel ride, RideResult boost)
    {
        ArgumentNullException.ThrowIfNull(ride);
        ArgumentNullException.ThrowIfNull(boost);
        if (ride.Design.Design.Beam.Director is not { } director)
        {
            return null;
        }
        double sum = 0;
        double time = 0;
        for (int i = 1; i < boost.Records.Count; i++)
        {
            (RideRecord a, RideRecord b) = (boost.Records[i - 1], boost.Records[i]);
            double ra = director.StandoffMetres + a.DistanceMetres;
            double rb = director.StandoffMetres + b.DistanceMetres;
            double step = b.TimeSeconds - a.TimeSeconds;
            sum += step * (ra * ra + ra * rb + rb * rb) / 3;
            time += step;
        }
        return sum / time;
    }

    /// <summary>Metres squared at the craft, of one unit squared of a noise, over a boost.</summary>
    public static double FactorOf(RideModel ride, RideResult boost, NoiseQuantity quantity)
    {
        ArgumentNullException.ThrowIfNull(ride);
        double radius = ride.Design.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        return quantity switch
        {
            NoiseQuantity.PointingAngle => MeanSquareRange(ride, boost) ?? 0,
            NoiseQuantity.Imbalance => radius * radius,
            _ => 1,
        };
    }

    /// <summary>What a noise does to a well.</summary>
    public static WellAction ActionOf(NoiseQuantity quantity) =>
        quantity switch
        {
            NoiseQuantity.Power => WellAction.Depth,
            NoiseQuantity.Width => WellAction.Width,
            _ => WellAction.Shake,
        };

    /// <summary>The noises.</summary>
    /// <param name="ride">The ride.</param>
    /// <param name="boost">Its calm boost.</param>
    /// <param name="sources">The noises of the design.</param>
    public static IReadOnlyList<WellNoise> Of(RideModel ride, RideResult boost, IReadOnlyList<NoiseSource> sources)
    {
        ArgumentNullException.ThrowIfNull(ride);
        ArgumentNullException.ThrowIfNull(sources);
        double spin = Math.Abs(ride.Design.Design.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        return
        [
            .. sources.Select(s => new WellNoise(
                s.Name,
                ActionOf(s.Quantity),
                s.Spectrum,
                FactorOf(ride, boost, s.Quantity),
                s.Quantity == NoiseQuantity.Imbalance ? spin : 0
            )),
        ];
    }

    /// <summary>Where a craft starts in its well.</summary>
    public static WellStart StartOf(StartDesign start)
    {
        ArgumentNullException.ThrowIfNull(start);
        (double x, double y) = (start.OffsetXMetres, start.OffsetYMetres);
        (double vx, double vy) = (start.VelocityXMetresPerSecond, start.VelocityYMetresPerSecond);
        double distance = double.Hypot(x, y);
        return distance == 0
            ? new(0, double.Hypot(vx, vy), 0)
            : new(distance, (x * vx + y * vy) / distance, Math.Abs(x * vy - y * vx) / distance);
    }
}
