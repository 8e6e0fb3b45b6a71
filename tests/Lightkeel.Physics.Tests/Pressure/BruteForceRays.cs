using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Tests.Pressure;

/// <summary>
/// An independent check of second bounces: walks along rays in small steps and watches on which side of each surface's
/// meridian the walker is. Knows only points of meridians; shares no formula with the library.
/// </summary>
internal sealed class BruteForceRays
{
    private const int Nodes = 400;
    private readonly PlacedSurface[] _surfaces;
    private readonly (double[] Radius, double[] Height)[] _meridians;
    private readonly double _size;

    public BruteForceRays(params PlacedSurface[] surfaces)
    {
        _surfaces = surfaces;
        _meridians = [.. surfaces.Select(s => Meridian(s.Shape))];
        _size = surfaces.Max(s => s.OriginMetres.Length + s.Shape.MaximumRadiusMetres + Depth(s.Shape));
    }

    /// <summary>True when any of the rays from evenly spread points of the lit sides meets a surface again or is shaded.</summary>
    public bool AnySecondMeeting(Vec3 light, int rays, int steps = 500)
    {
        for (int k = 0; k < rays; k++)
        {
            PlacedSurface own = _surfaces[k % _surfaces.Length];
            // Golden-ratio places; half of the points in the plane of tilt, the rest anywhere.
            double place = (0.5 + 0.618033988749895 * k) % 1;
            double azimuth = Math.Atan2(light.Y, light.X) + (k % 4 < 2 ? Math.PI * (k % 4) : 2.399963 * k);
            (Vec3 point, Vec3 normal) = Point(own, place, azimuth);
            if (own.Shape is not Sphere && Vec3.Dot(own.BodyFromSurface.Column2, light) < 0)
            {
                normal = -normal;
            }
            double cosine = -Vec3.Dot(normal, light);
            if (cosine > 1e-9 && (Meets(point, -light, steps) || Meets(point, light + 2 * cosine * normal, steps)))
            {
                return true;
            }
        }
        return false;
    }

    private bool Meets(Vec3 origin, Vec3 direction, int steps)
    {
        double far = 4 * _size;
        double near = 2e-4 * _size;
        Vec3 before = origin + near * direction;
        for (int k = 1; k <= steps; k++)
        {
            // Steps grow with the distance: fine where meetings begin, coarse far away.
            double s = near + (far - near) * Math.Pow((double)k / steps, 2);
            Vec3 after = origin + s * direction;
            for (int j = 0; j < _surfaces.Length; j++)
            {
                if (Crosses(j, before, after))
                {
                    return true;
                }
            }
            if (after.Length > _size && Vec3.Dot(after, direction) > 0)
            {
                return false;
            }
            before = after;
        }
        return false;
    }

    // Whether the chord of a short step, in the half-plane (radius, height), crosses the meridian's polyline.
    private bool Crosses(int surface, Vec3 from, Vec3 to)
    {
        PlacedSurface s = _surfaces[surface];
        (double r0, double z0) = Meridional(s, from);
        (double r1, double z1) = Meridional(s, to);
        (double[] radius, double[] height) = _meridians[surface];
        (double lowest, double highest) = s.Shape.HeightRangeMetres;
        if (Math.Max(z0, z1) < lowest || Math.Min(z0, z1) > highest || Math.Min(r0, r1) > s.Shape.MaximumRadiusMetres)
        {
            return false;
        }
        bool isGraph = s.Shape is not Sphere;
        int start = isGraph ? Math.Max(1, LastBelow(radius, Math.Min(r0, r1))) : 1;
        for (int i = start; i < radius.Length; i++)
        {
            if (isGraph && radius[i - 1] > Math.Max(r0, r1))
            {
                return false;
            }
            if (
                Math.Max(radius[i - 1], radius[i]) < Math.Min(r0, r1)
                || Math.Min(radius[i - 1], radius[i]) > Math.Max(r0, r1)
            )
            {
                continue;
            }
            double a = Side(radius[i - 1], height[i - 1], radius[i], height[i], r0, z0);
            double b = Side(radius[i - 1], height[i - 1], radius[i], height[i], r1, z1);
            double c = Side(r0, z0, r1, z1, radius[i - 1], height[i - 1]);
            double d = Side(r0, z0, r1, z1, radius[i], height[i]);
            if (a * b <= 0 && c * d <= 0 && (a != 0 || b != 0))
            {
                return true;
            }
        }
        return false;
    }

    // Index of the last node with a smaller radius, for meridians whose radius never falls.
    private static int LastBelow(double[] radius, double value)
    {
        (int low, int high) = (0, radius.Length);
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = radius[middle] < value ? (middle, high) : (low, middle);
        }
        return low;
    }

    private static double Side(double ax, double ay, double bx, double by, double px, double py) =>
        (bx - ax) * (py - ay) - (by - ay) * (px - ax);

    private static (double Radius, double Height) Meridional(PlacedSurface s, Vec3 p)
    {
        Vec3 own = s.BodyFromSurface.Transposed * (p - s.OriginMetres);
        return (double.Hypot(own.X, own.Y), own.Z);
    }

    private static (double[] Radius, double[] Height) Meridian(SurfaceOfRevolution shape)
    {
        int perPiece = shape is Disc or Cone ? 1 : Math.Max(20, Nodes / shape.Pieces.Count);
        List<double> radius = [];
        List<double> height = [];
        for (int piece = 0; piece < shape.Pieces.Count; piece++)
        {
            MeridianPiece range = shape.Pieces[piece];
            for (int k = 0; k <= perPiece; k++)
            {
                MeridianPoint p = shape.At(piece, range.Start + (range.End - range.Start) * k / perPiece);
                radius.Add(p.RadiusMetres);
                height.Add(p.HeightMetres);
            }
        }
        return ([.. radius], [.. height]);
    }

    private static double Depth(SurfaceOfRevolution shape)
    {
        (double lowest, double highest) = shape.HeightRangeMetres;
        return highest - lowest;
    }

    private static (Vec3 Point, Vec3 Front) Point(PlacedSurface s, double place, double azimuth)
    {
        double running = place * s.Shape.Pieces.Count;
        int piece = (int)running;
        MeridianPiece range = s.Shape.Pieces[piece];
        MeridianPoint p = s.Shape.At(piece, range.Start + (running - piece) * (range.End - range.Start));
        (double sin, double cos) = Math.SinCos(azimuth);
        return (
            s.OriginMetres + s.BodyFromSurface * new Vec3(p.RadiusMetres * cos, p.RadiusMetres * sin, p.HeightMetres),
            s.BodyFromSurface * new Vec3(p.NormalRadial * cos, p.NormalRadial * sin, p.NormalAxial)
        );
    }
}
