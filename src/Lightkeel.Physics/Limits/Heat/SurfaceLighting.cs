using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>A place on a surface of revolution.</summary>
/// <param name="Piece">Index of the meridian piece.</param>
/// <param name="Parameter">Parameter within the piece.</param>
/// <param name="AzimuthRadians">Angle about the surface's axis, rad.</param>
public readonly record struct SurfacePlace(int Piece, double Parameter, double AzimuthRadians);

/// <summary>Light that meets each element of one surface in one pose: I μ, in the craft's rest frame.</summary>
/// <remarks>
/// The same law as that of the pressure engines: μ = −n·b with the normal of the lit side, and nothing where that is negative.
/// Valid where light meets each element once. Immutable; safe to share between threads.
/// </remarks>
public sealed class SurfaceLighting
{
    private readonly Beam _beam;
    private readonly Illumination _light;
    private readonly Vec3 _arm;
    private readonly Mat3 _beamFromSurface;
    private readonly CraftPose _pose;
    private readonly double _side;
    private readonly FilmCurve? _film;

    /// <summary>Prepares one surface.</summary>
    /// <param name="surface">The surface.</param>
    /// <param name="centerOfMassMetres">Centre of mass of the craft, body axes, m.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="pose">The pose.</param>
    public SurfaceLighting(PlacedSurface surface, Vec3 centerOfMassMetres, Beam beam, in CraftPose pose)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(beam);
        (Surface, _beam, _pose) = (surface, beam, pose);
        _light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        _arm = pose.BeamFromBody * (surface.OriginMetres - centerOfMassMetres);
        _beamFromSurface = pose.BeamFromBody * surface.BodyFromSurface;
        Vec3 direction = _beamFromSurface.Transposed * _light.Direction;
        bool sphere = surface.Shape.ClosedSphereRadiusMetres is not null;
        _side = sphere || direction.Z >= 0 ? 1 : -1;
        _film = (IsFrontLit ? surface.Optics : surface.Optics.Reversed) is FilmOptics film
            ? film.Curve(_light.WavelengthStretch)
            : null;
        // A pose, a slant or an offset below rounding of the figures leaves one meridian for all.
        double size = surface.Shape.MaximumRadiusMetres;
        IsAxisymmetric =
            beam.Profile.IsAxisymmetric
            && (sphere || double.Hypot(direction.X, direction.Y) < 1e-12)
            && double.Hypot(PlaceOf(Vec3.Zero).X, PlaceOf(Vec3.Zero).Y) < 1e-12 * size
            && double.Hypot(_light.Direction.X, _light.Direction.Y) < 1e-12;
    }

    /// <summary>The surface.</summary>
    public PlacedSurface Surface { get; }

    /// <summary>True when the light is the same all around the axis of the surface.</summary>
    public bool IsAxisymmetric { get; }

    /// <summary>True when the light falls on the side that faces the laser at zero tilt.</summary>
    public bool IsFrontLit => _side > 0;

    /// <summary>Place, side and light of a point.</summary>
    /// <param name="place">Where.</param>
    /// <returns>I μ, W/m²; zero where no light falls.</returns>
    public double LightAt(in SurfacePlace place) =>
        LightAt(Surface.Shape.At(place.Piece, place.Parameter), place.AzimuthRadians);

    /// <summary>
    /// Light that warms a point: I μ, for a layered film times the share absorbed at this incidence and wavelength over the greatest at rest, W/m².
    /// </summary>
    public double WarmingLightAt(in SurfacePlace place) =>
        WarmingLightAt(Surface.Shape.At(place.Piece, place.Parameter), place.AzimuthRadians);

    /// <summary>The same on a point of the meridian at an azimuth, W/m².</summary>
    internal double WarmingLightAt(in MeridianPoint m, double azimuth)
    {
        double light = LightAt(m, azimuth);
        if (_film is not { } film || light == 0)
        {
            return light;
        }
        double greatest = Surface.Optics.Absorbed;
        return greatest > 0 ? light * film.Unpolarised(Math.Min(1, Incidence(m, azimuth))).Absorbed / greatest : 0;
    }

    /// <summary>Shares of light at an incidence on the lit side, at the wavelength that the craft sees.</summary>
    /// <param name="cosine">Cosine of incidence.</param>
    internal OpticalCoefficients SharesAt(double cosine) =>
        (IsFrontLit ? Surface.Optics : Surface.Optics.Reversed).At(Math.Clamp(cosine, 0, 1), _light.WavelengthStretch);

    /// <summary>Place of a point in beam axes, from the centre of mass, m.</summary>
    public Vec3 PointAt(in SurfacePlace place)
    {
        MeridianPoint m = Surface.Shape.At(place.Piece, place.Parameter);
        (double s, double c) = Math.SinCos(place.AzimuthRadians);
        return _arm + _beamFromSurface * new Vec3(m.RadiusMetres * c, m.RadiusMetres * s, m.HeightMetres);
    }

    /// <summary>Light on a point of the meridian at an azimuth, W/m².</summary>
    internal double LightAt(in MeridianPoint m, double azimuth)
    {
        double mu = Incidence(m, azimuth);
        if (mu <= 0)
        {
            return 0;
        }
        (double s, double c) = azimuth == 0 ? (0, 1) : Math.SinCos(azimuth);
        (double x, double y) = PlaceOf(new Vec3(m.RadiusMetres * c, m.RadiusMetres * s, m.HeightMetres));
        double scale = 1 / _pose.BeamScale;
        return scale * scale * _light.IrradianceFactor * mu * _beam.Irradiance(scale * x, scale * y);
    }

    /// <summary>μ = −n·b of the lit side; negative in the shade.</summary>
    internal double Incidence(in MeridianPoint m, double azimuth)
    {
        (double s, double c) = azimuth == 0 ? (0, 1) : Math.SinCos(azimuth);
        Vec3 normal = _beamFromSurface * new Vec3(m.NormalRadial * c, m.NormalRadial * s, m.NormalAxial);
        return -_side * Vec3.Dot(normal, _light.Direction);
    }

    /// <summary>Shortest length over which the light changes, m.</summary>
    internal double FeatureMetres => _pose.BeamScale * _beam.Profile.FeatureLengthMetres;

    private (double X, double Y) PlaceOf(Vec3 inSurface)
    {
        Vec3 arm = _arm + _beamFromSurface * inSurface;
        return (
            _pose.OffsetXMetres + Vec3.Dot(_light.ProfileX, arm),
            _pose.OffsetYMetres + Vec3.Dot(_light.ProfileY, arm)
        );
    }
}
