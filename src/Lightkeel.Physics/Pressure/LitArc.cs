using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>The lit part of one ring: azimuths within a half-width about a centre, in closed form.</summary>
/// <param name="CenterRadians">Azimuth of the middle.</param>
/// <param name="HalfWidthRadians">Half-width, 0 (dark) … π (all round).</param>
internal readonly record struct LitArc(double CenterRadians, double HalfWidthRadians)
{
    /// <summary>The lit arc of one side (+1 front, −1 back) of a ring under light of a direction (surface frame).</summary>
    public static LitArc Of(in MeridianPoint point, double side, Vec3 light, double fullRingCenterRadians)
    {
        // μ = −n·b = A cos(φ − φ_b) + B is positive on the lit arc.
        double across = double.Hypot(light.X, light.Y);
        double a = -side * point.NormalRadial * across;
        double b = -side * point.NormalAxial * light.Z;
        if (b >= Math.Abs(a))
        {
            return new(fullRingCenterRadians, Math.PI);
        }
        if (b <= -Math.Abs(a))
        {
            return new(fullRingCenterRadians, 0);
        }
        double towards = Math.Atan2(light.Y, light.X);
        return new(a > 0 ? towards : towards + Math.PI, Math.Acos(-b / Math.Abs(a)));
    }

    /// <summary>
    /// Parameters of a meridian piece at which the lit arc is born or closes, |n_r| b_across = |n_z| b_z, where the arc's
    /// half-width has a square-root end; increasing, the piece's own ends not included.
    /// </summary>
    public static List<double> Events(SurfaceOfRevolution shape, int piece, MeridianPiece range, Vec3 light)
    {
        const int Samples = 96;
        double across = double.Hypot(light.X, light.Y);
        double Gap(double u)
        {
            MeridianPoint point = shape.At(piece, u);
            return Math.Abs(point.NormalRadial) * across - Math.Abs(point.NormalAxial * light.Z);
        }
        List<double> events = [];
        double width = (range.End - range.Start) / Samples;
        double left = range.Start;
        double atLeft = Gap(left);
        for (int i = 1; i <= Samples; i++)
        {
            double right = range.Start + i * width;
            double atRight = Gap(right);
            if (atLeft * atRight < 0)
            {
                events.Add(Bisect(Gap, left, right, atLeft));
            }
            else if (atRight == 0 && i < Samples)
            {
                events.Add(right);
            }
            (left, atLeft) = (right, atRight);
        }
        return events;
    }

    private static double Bisect(Func<double, double> gap, double left, double right, double atLeft)
    {
        for (int i = 0; i < 200 && right - left > 1e-16 * Math.Abs(left + right); i++)
        {
            double middle = 0.5 * (left + right);
            if (middle <= left || middle >= right)
            {
                break;
            }
            if (gap(middle) * atLeft > 0)
            {
                left = middle;
            }
            else
            {
                right = middle;
            }
        }
        return 0.5 * (left + right);
    }
}
