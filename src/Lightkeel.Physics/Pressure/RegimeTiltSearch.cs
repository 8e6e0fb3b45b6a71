using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>What rays found about several surfaces: the widest cone of light about body +z without a second meeting.</summary>
/// <param name="LimitRadians">Half-angle of that cone, rad; negative when untilted light already meets two surfaces.</param>
/// <param name="Rays">Rays traced in all.</param>
/// <param name="Worst">The second meeting that bounds the cone, or null when the search was bounded otherwise.</param>
internal sealed record RegimeTiltSearch(double LimitRadians, int Rays, RegimeFinding? Worst)
{
    private const int UprightPoints = 2048;
    private const int Directions = 160;
    private const int PointsPerDirection = 96;
    private const int RoundLimit = 24;
    private const int AimedAzimuths = 6;

    // What a finite number of rays may have missed next to the limit.
    private const double Margin = 0.98;
    private const double SmallestRadians = 1e-4;

    public static RegimeTiltSearch Of(IReadOnlyList<PlacedSurface> surfaces, double widestRadians)
    {
        RegimeRays rays = new(surfaces);
        int traced = surfaces.Count * UprightPoints;
        RegimeFinding? upright =
            rays.Examine(Vec3.UnitZ, UprightPoints, 0) ?? RegimeAim.Examine(rays, surfaces, Vec3.UnitZ, UprightPoints);
        if (upright is not null)
        {
            return new(-1, traced, upright);
        }
        double limit = Math.Min(widestRadians, Math.PI / 2);
        RegimeFinding? worst = null;
        for (int round = 0; round < RoundLimit && limit > SmallestRadians; round++)
        {
            RegimeFinding? found = Round(rays, surfaces, round, limit);
            traced += Directions * surfaces.Count * PointsPerDirection;
            if (found is null)
            {
                return new(worst is null ? limit : Margin * limit, traced, worst);
            }
            (limit, worst) = (found.TiltRadians * (round < RoundLimit / 2 ? 1 : 0.9), found);
        }
        return new(0, traced, worst);
    }

    // The finding of least tilt among directions spread over the cone; from the second round on, near its edge.
    private static RegimeFinding? Round(RegimeRays rays, IReadOnlyList<PlacedSurface> surfaces, int round, double limit)
    {
        RegimeFinding? least = null;
        double below = limit;
        for (int k = 0; k < Directions; k++)
        {
            int index = round * Directions + k;
            (double outward, double around) = RegimePoints.Pair(index);
            double tilt = limit * (round == 0 ? Math.Sqrt(outward) : 0.6 + 0.4 * outward);
            if (tilt >= below)
            {
                continue;
            }
            Vec3 light = Tilted(tilt, 2 * Math.PI * around);
            RegimeFinding? found = rays.Examine(light, PointsPerDirection, index * PointsPerDirection);
            (least, below) = found is null ? (least, below) : (found, tilt);
        }
        for (int k = 0; k < AimedAzimuths && least is null; k++)
        {
            Vec3 light = Tilted(Margin * limit, 2 * Math.PI * (k + 0.5 * (round & 1)) / AimedAzimuths);
            least = RegimeAim.Examine(rays, surfaces, light, PointsPerDirection);
        }
        return least;
    }

    private static Vec3 Tilted(double tilt, double azimuth)
    {
        (double s, double c) = Math.SinCos(tilt);
        return new(s * Math.Cos(azimuth), s * Math.Sin(azimuth), c);
    }
}
