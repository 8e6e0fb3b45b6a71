using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Deterministic, evenly spread points on surfaces of revolution.</summary>
internal static class RegimePoints
{
    // Powers of the inverse of the real root of x³ = x + 1: an additive recurrence that fills two dimensions evenly
    // (common practice, no source read).
    private const double First = 0.7548776662466927;
    private const double Second = 0.5698402909980532;

    /// <summary>The k-th point of the unit square.</summary>
    public static (double First, double Second) Pair(int k)
    {
        double a = 0.5 + First * (k + 1);
        double b = 0.5 + Second * (k + 1);
        return (a - Math.Floor(a), b - Math.Floor(b));
    }

    /// <summary>Point and front normal at a running parameter (whole part: piece) and an azimuth, in the surface's own frame.</summary>
    public static (Vec3 Point, Vec3 Front) OnMeridian(SurfaceOfRevolution shape, double running, double azimuth)
    {
        int piece = Math.Clamp((int)running, 0, shape.Pieces.Count - 1);
        MeridianPiece range = shape.Pieces[piece];
        double parameter = range.Start + Math.Clamp(running - piece, 0, 1) * (range.End - range.Start);
        MeridianPoint p = shape.At(piece, parameter);
        (double s, double c) = Math.SinCos(azimuth);
        return (
            new(p.RadiusMetres * c, p.RadiusMetres * s, p.HeightMetres),
            new(p.NormalRadial * c, p.NormalRadial * s, p.NormalAxial)
        );
    }
}
