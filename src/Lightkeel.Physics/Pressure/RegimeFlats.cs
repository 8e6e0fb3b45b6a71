using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>What can be said of flat surfaces in one plane.</summary>
internal static class RegimeFlats
{
    private const double Alike = 1e-9;

    /// <summary>True when all surfaces are flat and lie in one plane.</summary>
    public static bool AllInOnePlane(IReadOnlyList<PlacedSurface> surfaces) =>
        surfaces.All(s => s.Shape.IsFlat && ShareAPlane(surfaces[0], s));

    /// <summary>The first two flat surfaces that cover part of one plane twice, or null.</summary>
    public static (int First, int Second)? Overlap(IReadOnlyList<PlacedSurface> surfaces)
    {
        for (int i = 0; i < surfaces.Count; i++)
        {
            for (int j = i + 1; j < surfaces.Count; j++)
            {
                PlacedSurface a = surfaces[i];
                PlacedSurface b = surfaces[j];
                if (a.Shape.IsFlat && b.Shape.IsFlat && ShareAPlane(a, b) && Cover(a, b))
                {
                    return (i, j);
                }
            }
        }
        return null;
    }

    private static double PlaneHeight(PlacedSurface s) => s.Shape.HeightRangeMetres.Lowest;

    private static Vec3 Centre(PlacedSurface s) => s.OriginMetres + PlaneHeight(s) * s.BodyFromSurface.Column2;

    private static bool ShareAPlane(PlacedSurface a, PlacedSurface b)
    {
        Vec3 normal = a.BodyFromSurface.Column2;
        double size = a.Shape.MaximumRadiusMetres + b.Shape.MaximumRadiusMetres;
        return Vec3.Cross(normal, b.BodyFromSurface.Column2).Length <= Alike
            && Math.Abs(Vec3.Dot(Centre(b) - Centre(a), normal)) <= Alike * size;
    }

    private static bool Cover(PlacedSurface a, PlacedSurface b)
    {
        double distance = (Centre(b) - Centre(a)).Length;
        (double innerA, double outerA) = Radii(a.Shape);
        (double innerB, double outerB) = Radii(b.Shape);
        double slack = Alike * (outerA + outerB);
        bool isApart =
            distance >= outerA + outerB - slack
            || distance + outerA <= innerB + slack
            || distance + outerB <= innerA + slack;
        return !isApart;
    }

    private static (double Inner, double Outer) Radii(SurfaceOfRevolution shape) =>
        (shape.At(0, shape.Pieces[0].Start).RadiusMetres, shape.MaximumRadiusMetres);
}
