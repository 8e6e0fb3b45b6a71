using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Shapes;

/// <summary>First meeting of a ray with the surface of revolution of a curve z = p(r).</summary>
/// <remarks>
/// The gap G(s) = z(s) − p(r(s)) changes by less than L = |d_z| + max|p′| · |d_⊥| per metre of ray, so a step of
/// |G|/L cannot jump over a meeting. Steps are taken until the gap is below 1e-12 of the surface's size.
/// </remarks>
internal static class ProfileRay
{
    private const int StepLimit = 100_000;

    public static double FirstMeeting(
        PiecewiseCubic height,
        double steepestSlope,
        double sizeMetres,
        Vec3 origin,
        Vec3 direction,
        double beyond
    )
    {
        double inner = height.Knots[0];
        double outer = height.Knots[^1];
        double flat = Math.Sqrt(direction.X * direction.X + direction.Y * direction.Y);
        double square = flat * flat;
        double half = origin.X * direction.X + origin.Y * direction.Y;
        double radiusSquared = origin.X * origin.X + origin.Y * origin.Y;
        if (flat < 1e-14)
        {
            return Vertical(height, Math.Sqrt(radiusSquared), origin.Z, direction.Z, beyond);
        }
        (double enter, double leave) = QuadraticRoots.Of(square, half, radiusSquared - outer * outer);
        (double holeIn, double holeOut) = QuadraticRoots.Of(square, half, radiusSquared - inner * inner);
        bool hole = inner > 0 && holeOut > holeIn;
        double rate = Math.Abs(direction.Z) + steepestSlope * flat;
        March march = new(height, origin, direction, rate, 1e-12 * sizeMetres);
        double first = march.Between(Math.Max(beyond, enter), hole ? holeIn : leave);
        return first < double.PositiveInfinity || !hole ? first : march.Between(Math.Max(beyond, holeOut), leave);
    }

    private static double Vertical(PiecewiseCubic height, double radius, double z, double slope, double beyond)
    {
        double distance = (height.Value(radius) - z) / slope;
        return radius >= height.Knots[0] && radius <= height.Knots[^1] && distance >= beyond
            ? distance
            : double.PositiveInfinity;
    }

    private readonly struct March(PiecewiseCubic height, Vec3 origin, Vec3 direction, double rate, double tolerance)
    {
        public double Between(double from, double to)
        {
            double s = from;
            for (int step = 0; step < StepLimit && s <= to; step++)
            {
                double gap = Math.Abs(Gap(s));
                if (gap <= tolerance)
                {
                    return s;
                }
                s += gap / rate;
            }
            // Out of steps while still inside: the ray creeps along the surface, which counts as touching it.
            return s <= to ? s : double.PositiveInfinity;
        }

        private double Gap(double s)
        {
            double x = origin.X + s * direction.X;
            double y = origin.Y + s * direction.Y;
            return origin.Z + s * direction.Z - height.Value(Math.Sqrt(x * x + y * y));
        }
    }
}
