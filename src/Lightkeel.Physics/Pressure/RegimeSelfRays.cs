using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Largest tilt at which a mirror surface of any profile meets none of its own reflected light, by tracing rays.</summary>
internal static class RegimeSelfRays
{
    /// <summary>Rays traced at every tilt.</summary>
    public const int RaysPerTilt = 1024;

    private const int Levels = 24;
    private const int Halvings = 14;

    /// <returns>The limit, rad; −1 when light already bounces twice at <paramref name="from"/>.</returns>
    public static double LargestTilt(SurfaceOfRevolution shape, LitSide side, double from, double to)
    {
        if (to < from || Bounces(shape, side, from))
        {
            return -1;
        }
        double good = from;
        double bad = to;
        bool found = false;
        for (int level = 1; level <= Levels && !found; level++)
        {
            double tilt = from + (to - from) * level / Levels;
            found = Bounces(shape, side, tilt);
            (good, bad) = found ? (good, tilt) : (tilt, bad);
        }
        for (int halving = 0; found && halving < Halvings; halving++)
        {
            double middle = 0.5 * (good + bad);
            (good, bad) = Bounces(shape, side, middle) ? (good, middle) : (middle, bad);
        }
        // What rays see is held back by a hundredth of what they added.
        return from + 0.99 * (good - from);
    }

    private static bool Bounces(SurfaceOfRevolution shape, LitSide side, double tilt)
    {
        double sign = side == LitSide.Front ? 1 : -1;
        Vec3 light = new(Math.Sin(tilt), 0, sign * Math.Cos(tilt));
        double beyond = 1e-7 * shape.MaximumRadiusMetres;
        for (int k = 0; k < RaysPerTilt; k++)
        {
            // Half of the rays in the plane of tilt, where second bounces usually begin; half anywhere.
            (double along, double around) = RegimePoints.Pair(k);
            double azimuth =
                k % 4 == 0 ? 0
                : k % 4 == 2 ? Math.PI
                : 2 * Math.PI * around;
            (Vec3 point, Vec3 front) = RegimePoints.OnMeridian(shape, along * shape.Pieces.Count, azimuth);
            Vec3 normal = sign * front;
            double cosine = -Vec3.Dot(normal, light);
            Vec3 reflected = light + 2 * cosine * normal;
            if (
                cosine <= 0
                || shape.FirstMeeting(point, -light, beyond) < double.PositiveInfinity
                || shape.FirstMeeting(point, reflected, beyond) < double.PositiveInfinity
            )
            {
                return true;
            }
        }
        return false;
    }
}
