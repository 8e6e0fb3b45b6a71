using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Largest tilt at which a mirror surface of any profile meets none of its own reflected light: searched, then checked with rays.</summary>
internal static class RegimeSelfSearch
{
    private const int CheckRays = 512;
    private const int CheckLimit = 12;
    private const double Margin = 0.999;
    private const double SmallestRadians = 1e-4;

    /// <returns>The limit, rad; −1 when untilted light already meets the surface twice.</returns>
    public static double LargestTilt(SurfaceOfRevolution shape, LitSide side, double widest)
    {
        // Turned so that light along +z meets the side in question.
        Mat3 turn = side == LitSide.Front ? Mat3.Identity : Mat3.Diagonal(1, -1, -1);
        PlacedSurface[] surfaces = [new(shape.Kind, shape, OpticalCoefficients.Mirror, Vec3.Zero, turn)];
        double least = new RegimePairs(new(surfaces), surfaces).LeastOwn().TiltRadians;
        double limit = least <= widest ? Margin * least : widest;
        for (int check = 0; check < CheckLimit && limit > SmallestRadians; check++)
        {
            if (!Bounces(shape, side, limit) && !Bounces(shape, side, 0.5 * limit))
            {
                return limit;
            }
            limit *= 0.9;
        }
        return -1;
    }

    private static bool Bounces(SurfaceOfRevolution shape, LitSide side, double tilt)
    {
        double sign = side == LitSide.Front ? 1 : -1;
        Vec3 light = new(Math.Sin(tilt), 0, sign * Math.Cos(tilt));
        double beyond = 1e-7 * shape.MaximumRadiusMetres;
        for (int k = 0; k < CheckRays; k++)
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
