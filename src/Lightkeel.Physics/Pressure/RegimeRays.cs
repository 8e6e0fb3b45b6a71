using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Traces rays from one surface to the others, for one light direction at a time. Deterministic.</summary>
internal sealed class RegimeRays
{
    private const int AreaCells = 128;
    private const int SightPoints = 24;
    private readonly PlacedSurface[] _surfaces;
    private readonly Mat3[] _surfaceFromBody;
    private readonly (Vec3 Centre, double Radius)[] _bounds;
    private readonly double[][] _areaUpTo;

    public RegimeRays(IReadOnlyList<PlacedSurface> surfaces)
    {
        _surfaces = [.. surfaces];
        _surfaceFromBody = [.. surfaces.Select(s => s.BodyFromSurface.Transposed)];
        _bounds = [.. surfaces.Select(Bound)];
        _areaUpTo = [.. surfaces.Select(s => AreaTable(s.Shape))];
        NearMetres = 1e-7 * _bounds.Max(b => b.Radius);
    }

    /// <summary>Distance within which a ray does not see the surface that it starts from, m.</summary>
    public double NearMetres { get; }

    /// <summary>Which side of a surface the light meets.</summary>
    public static LitSide SideOf(PlacedSurface surface, Vec3 light) =>
        surface.Shape.ClosedSphereRadiusMetres is not null || Vec3.Dot(surface.BodyFromSurface.Column2, light) >= 0
            ? LitSide.Front
            : LitSide.Back;

    /// <summary>Traces every surface's rays; null when none meets a second surface.</summary>
    /// <param name="light">Unit direction of the light, body axes.</param>
    /// <param name="pointsPerSurface">Points on each surface.</param>
    /// <param name="firstPoint">Index of the first point of the spread, so that later calls look at new places.</param>
    public RegimeFinding? Examine(Vec3 light, int pointsPerSurface, int firstPoint)
    {
        RegimeFinding? worst = null;
        for (int i = 0; i < _surfaces.Length; i++)
        {
            Tally tally = new(this, i, light);
            for (int k = 0; k < pointsPerSurface; k++)
            {
                tally.Trace(RegimePoints.Pair(firstPoint + k), scanSight: k < SightPoints);
            }
            RegimeFinding? found = tally.Finding();
            worst = worst is null || (found is not null && found.Share > worst.Share) ? found ?? worst : worst;
        }
        return worst;
    }

    /// <summary>The point of a surface at a place of the unit square (share of area, share of a turn), and its front normal; body axes.</summary>
    public (Vec3 Point, Vec3 Front) PointAt(int surface, double areaShare, double turnShare)
    {
        double[] upTo = _areaUpTo[surface];
        PlacedSurface s = _surfaces[surface];
        double wanted = Math.Clamp(areaShare, 0, 1) * upTo[^1];
        int cell = Array.BinarySearch(upTo, wanted);
        cell = Math.Clamp(cell >= 0 ? cell : ~cell - 1, 0, upTo.Length - 2);
        double within = (wanted - upTo[cell]) / (upTo[cell + 1] - upTo[cell]);
        (Vec3 point, Vec3 front) = RegimePoints.OnMeridian(
            s.Shape,
            (cell + within) * s.Shape.Pieces.Count / (upTo.Length - 1),
            2 * Math.PI * turnShare
        );
        return (s.OriginMetres + s.BodyFromSurface * point, s.BodyFromSurface * front);
    }

    /// <summary>Index of the first other surface on a ray, or −1.</summary>
    public int FirstOther(int except, Vec3 origin, Vec3 direction)
    {
        int first = -1;
        double nearest = double.PositiveInfinity;
        for (int j = 0; j < _surfaces.Length; j++)
        {
            Vec3 toCentre = _bounds[j].Centre - origin;
            double along = Vec3.Dot(toCentre, direction);
            double radius = _bounds[j].Radius;
            if (j == except || along < -radius || Vec3.Dot(toCentre, toCentre) - along * along > radius * radius)
            {
                continue;
            }
            Vec3 start = _surfaceFromBody[j] * (origin - _surfaces[j].OriginMetres);
            double distance = _surfaces[j].Shape.FirstMeeting(start, _surfaceFromBody[j] * direction, 0);
            if (distance < nearest)
            {
                (first, nearest) = (j, distance);
            }
        }
        return first;
    }

    private static (Vec3, double) Bound(PlacedSurface s)
    {
        (double lowest, double highest) = s.Shape.HeightRangeMetres;
        double radius = double.Hypot(s.Shape.MaximumRadiusMetres, 0.5 * (highest - lowest));
        return (s.OriginMetres + 0.5 * (lowest + highest) * s.BodyFromSurface.Column2, radius * (1 + 1e-6));
    }

    private static double[] AreaTable(SurfaceOfRevolution shape)
    {
        int cells = Math.Max(AreaCells / shape.Pieces.Count, 2) * shape.Pieces.Count;
        double[] upTo = new double[cells + 1];
        for (int i = 0; i < cells; i++)
        {
            double running = (i + 0.5) * shape.Pieces.Count / cells;
            int piece = Math.Min((int)running, shape.Pieces.Count - 1);
            MeridianPiece range = shape.Pieces[piece];
            double span = range.End - range.Start;
            MeridianPoint p = shape.At(piece, range.Start + (running - piece) * span);
            upTo[i + 1] = upTo[i] + p.RadiusMetres * p.ArcRate * span;
        }
        return upTo;
    }

    /// <summary>Counts what happens to the rays of one surface.</summary>
    private sealed class Tally(RegimeRays rays, int surface, Vec3 light)
    {
        private readonly PlacedSurface _own = rays._surfaces[surface];
        private readonly double[] _shaded = new double[rays._surfaces.Length];
        private readonly double[] _reflected = new double[rays._surfaces.Length];
        private readonly double _tilt = Math.Atan2(Math.Sqrt(light.X * light.X + light.Y * light.Y), light.Z);
        private double _lines;
        private double _power;
        private int _count;
        private RegimeFinding? _shadedBy;
        private int _seen = -1;

        public void Trace((double Area, double Turn) place, bool scanSight)
        {
            (Vec3 point, Vec3 front) = rays.PointAt(surface, place.Area, place.Turn);
            Vec3 normal = SideOf(_own, light) == LitSide.Front ? front : -front;
            double cosine = -Vec3.Dot(normal, light);
            double weight = Math.Abs(cosine);
            _count++;
            _lines += weight;
            int behind = rays.FirstOther(surface, point - rays.NearMetres * light, light);
            if (behind >= 0)
            {
                _shaded[behind] += weight;
            }
            int before = rays.FirstOther(surface, point + rays.NearMetres * light, -light);
            if (before >= 0)
            {
                _shadedBy ??= new(RegimeEffect.Shades, rays._surfaces[before].Name, _own.Name, 0, _count, _tilt);
            }
            if (cosine <= 0)
            {
                return;
            }
            _power += cosine;
            Reflect(point, normal, cosine);
            if (scanSight && _seen < 0 && _own.Optics.Diffuse > RegimeOfSurface.NoShare)
            {
                _seen = Sight(point, normal);
            }
        }

        public RegimeFinding? Finding()
        {
            int shaded = Largest(_shaded);
            int reflected = Largest(_reflected);
            if (_shaded[shaded] > 0)
            {
                return Found(RegimeEffect.Shades, shaded, _shaded[shaded] / _lines);
            }
            if (_reflected[reflected] > 0)
            {
                return Found(RegimeEffect.Reflects, reflected, _reflected[reflected] / _power);
            }
            return _seen >= 0 ? Found(RegimeEffect.Scatters, _seen, 0) : _shadedBy;
        }

        private RegimeFinding Found(RegimeEffect effect, int other, double share) =>
            new(effect, _own.Name, rays._surfaces[other].Name, share, _count, _tilt);

        private void Reflect(Vec3 point, Vec3 normal, double cosine)
        {
            if (_own.Optics.Specular <= RegimeOfSurface.NoShare)
            {
                return;
            }
            Vec3 direction = light + 2 * cosine * normal;
            int met = rays.FirstOther(surface, point + rays.NearMetres * direction, direction);
            if (met >= 0)
            {
                _reflected[met] += cosine;
            }
        }

        // A surface that scatters by Lambert's law lights everything in front of its tangent plane.
        private int Sight(Vec3 point, Vec3 normal)
        {
            for (int j = 0; j < rays._surfaces.Length; j++)
            {
                for (int k = 0; k < SightPoints && j != surface; k++)
                {
                    (double area, double turn) = RegimePoints.Pair(k);
                    if (Vec3.Dot(normal, rays.PointAt(j, area, turn).Point - point) > rays.NearMetres)
                    {
                        return j;
                    }
                }
            }
            return -1;
        }

        private static int Largest(double[] values) => Array.IndexOf(values, values.Max());
    }
}
