using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>A meeting of a ray with the craft.</summary>
/// <param name="Surface">Index of the surface; −1 when the ray leaves.</param>
/// <param name="Point">Where, body axes from the centre of mass, m.</param>
/// <param name="Normal">Unit normal of the side that is lit, body axes.</param>
/// <param name="IsBack">True when the other side than the front is lit.</param>
/// <param name="Piece">Stretch of the meridian.</param>
internal readonly record struct RayHit(int Surface, Vec3 Point, Vec3 Normal, bool IsBack, int Piece);

/// <summary>The craft as rays meet it. Body axes, lengths from the centre of mass in metres. Immutable.</summary>
internal sealed class RayScene
{
    // Meetings nearer than this share of the surface's size are the one that the ray has just left.
    private const double NearShare = 1e-9;

    // A march along a tabulated profile stops within 1e-12 of its size, which a grazing ray stretches.
    private const double NearShareOfProfile = 1e-6;

    private readonly SurfaceOfRevolution[] _shapes;
    private readonly Vec3[] _origins;
    private readonly Mat3[] _bodyFromSurface;
    private readonly Mat3[] _surfaceFromBody;
    private readonly (SurfaceOptics Front, SurfaceOptics Back)[] _optics;
    private readonly (bool Front, bool Back)[] _seesCraft;
    private readonly (Vec3 Centre, double Radius)[] _bounds;
    private readonly double[] _near;

    public RayScene(SailCraft craft)
    {
        PlacedSurface[] surfaces = [.. craft.Surfaces];
        Vec3 centre = craft.Mass.CenterOfMassMetres;
        _shapes = [.. surfaces.Select(s => s.Shape)];
        _origins = [.. surfaces.Select(s => s.OriginMetres - centre)];
        _bodyFromSurface = [.. surfaces.Select(s => s.BodyFromSurface)];
        _surfaceFromBody = [.. surfaces.Select(s => s.BodyFromSurface.Transposed)];
        _optics = [.. surfaces.Select(s => (s.Optics, s.Optics.Reversed))];
        _seesCraft = [.. surfaces.Select(s => surfaces.Length > 1 ? (true, true) : SightOf(s.Shape))];
        _bounds = [.. surfaces.Select((s, i) => BoundOf(s.Shape, _origins[i], _bodyFromSurface[i]))];
        _near =
        [
            .. surfaces.Select((s, i) => (s.Shape is Profile ? NearShareOfProfile : NearShare) * _bounds[i].Radius),
        ];
        ReachMetres = SharedPressure.ReachOf(craft);
        SizeMetres = surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        Main = Array.IndexOf(_shapes, _shapes.MaxBy(s => s.MaximumRadiusMetres));
    }

    /// <summary>Number of surfaces.</summary>
    public int Count => _shapes.Length;

    /// <summary>Greatest distance of a surface from the centre of mass, an upper bound, m.</summary>
    public double ReachMetres { get; }

    /// <summary>Largest radius of a surface about its own axis, m.</summary>
    public double SizeMetres { get; }

    /// <summary>The widest surface: rays are laid out about its axis.</summary>
    public int Main { get; }

    /// <summary>Shape of a surface with its place: reference point and axis.</summary>
    public (SurfaceOfRevolution Shape, Vec3 Origin, Vec3 Axis) At(int surface) =>
        (_shapes[surface], _origins[surface], _bodyFromSurface[surface].Column2);

    /// <summary>A sphere about a surface.</summary>
    public (Vec3 Centre, double Radius) BoundOf(int surface) => _bounds[surface];

    /// <summary>What becomes of light that meets a side.</summary>
    /// <param name="hit">The meeting.</param>
    /// <param name="cosine">Cosine of incidence.</param>
    /// <param name="stretch">Wavelength at the craft over that of the laser.</param>
    public OpticalCoefficients OpticsOf(in RayHit hit, double cosine, double stretch)
    {
        ref (SurfaceOptics Front, SurfaceOptics Back) sides = ref _optics[hit.Surface];
        return (hit.IsBack ? sides.Back : sides.Front).At(Math.Min(cosine, 1), stretch);
    }

    /// <summary>True when light scattered from that side may meet the craft again.</summary>
    public bool SeesCraft(in RayHit hit) => hit.IsBack ? _seesCraft[hit.Surface].Back : _seesCraft[hit.Surface].Front;

    /// <summary>The first meeting of a ray.</summary>
    /// <param name="origin">Where it starts.</param>
    /// <param name="direction">Unit direction.</param>
    /// <param name="from">The surface that it has just left; −1 for none.</param>
    public RayHit First(Vec3 origin, Vec3 direction, int from)
    {
        double nearest = double.PositiveInfinity;
        int first = -1;
        for (int i = 0; i < _shapes.Length; i++)
        {
            if (_shapes.Length > 1 && Misses(i, origin, direction))
            {
                continue;
            }
            double beyond =
                from < 0 ? 0
                : i == from ? _near[i]
                : NearShare * _bounds[i].Radius;
            double distance = _shapes[i]
                .FirstMeeting(_surfaceFromBody[i] * (origin - _origins[i]), _surfaceFromBody[i] * direction, beyond);
            if (distance < nearest)
            {
                (first, nearest) = (i, distance);
            }
        }
        return first < 0
            ? new(-1, default, default, false, 0)
            : Meeting(first, origin + nearest * direction, direction);
    }

    private RayHit Meeting(int surface, Vec3 point, Vec3 direction)
    {
        Vec3 local = _surfaceFromBody[surface] * (point - _origins[surface]);
        (Vec3 front, int piece) = _shapes[surface].FrontNormalAt(local);
        Vec3 normal = _bodyFromSurface[surface] * front;
        bool back = Vec3.Dot(normal, direction) > 0;
        return new(surface, point, back ? -normal : normal, back, piece);
    }

    private bool Misses(int surface, Vec3 origin, Vec3 direction)
    {
        (Vec3 centre, double radius) = _bounds[surface];
        Vec3 toCentre = centre - origin;
        double along = Vec3.Dot(toCentre, direction);
        return along < -radius || Vec3.Dot(toCentre, toCentre) - along * along > radius * radius;
    }

    private static (bool Front, bool Back) SightOf(SurfaceOfRevolution shape) =>
        shape.IsFlat ? (false, false)
        : shape is Sphere ? (false, true)
        : (
            RegimeForm.Of(shape, LitSide.Front).Kind != RegimeFormKind.Dome,
            RegimeForm.Of(shape, LitSide.Back).Kind != RegimeFormKind.Dome
        );

    private static (Vec3, double) BoundOf(SurfaceOfRevolution shape, Vec3 origin, in Mat3 bodyFromSurface)
    {
        (double lowest, double highest) = shape.HeightRangeMetres;
        double radius = double.Hypot(shape.MaximumRadiusMetres, 0.5 * (highest - lowest));
        return (origin + 0.5 * (lowest + highest) * bodyFromSurface.Column2, radius * (1 + 1e-9));
    }
}
