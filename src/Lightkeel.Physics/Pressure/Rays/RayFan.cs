using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>
/// The rays of one pose, laid out in polar coordinates on a plane across the light, about the shadow of the widest
/// surface's inner end: there the vertex of a cone does no harm. Body axes, lengths in metres.
/// </summary>
internal sealed class RayFan
{
    private readonly RayScene _scene;
    private readonly RayIrradiance _irradiance;
    private readonly Vec3 _direction;
    private readonly Vec3 _centre;
    private readonly List<Rim> _rims;
    private readonly Vec3 _start;
    private readonly Vec3 _acrossX;
    private readonly Vec3 _acrossY;
    private readonly Vec3 _profileX;
    private readonly Vec3 _profileY;
    private readonly double _offsetX;
    private readonly double _offsetY;
    private readonly double _scale;
    private readonly double _stretch;

    public RayFan(RayScene scene, RayIrradiance irradiance, in CraftPose pose, in Illumination light)
    {
        Mat3 bodyFromBeam = pose.BeamFromBody.Transposed;
        (_scene, _irradiance) = (scene, irradiance);
        (_direction, _stretch) = (bodyFromBeam * light.Direction, light.WavelengthStretch);
        (_profileX, _profileY) = (bodyFromBeam * light.ProfileX, bodyFromBeam * light.ProfileY);
        (_offsetX, _offsetY, _scale) = (pose.OffsetXMetres, pose.OffsetYMetres, pose.BeamScale);
        (SurfaceOfRevolution shape, Vec3 origin, Vec3 axis) = scene.At(scene.Main);
        _centre = origin + shape.At(0, shape.Pieces[0].Start).HeightMetres * axis;
        // A basis that turns smoothly with the light: body x laid into the plane, or y where x runs along the light.
        Vec3 near = Math.Abs(_direction.X) < 0.8 ? Vec3.UnitX : Vec3.UnitY;
        _acrossX = (near - Vec3.Dot(near, _direction) * _direction).Normalized();
        _acrossY = Vec3.Cross(_direction, _acrossX);
        double back = 0;
        for (int i = 0; i < scene.Count; i++)
        {
            (Vec3 middle, double radius) = scene.BoundOf(i);
            Vec3 arm = middle - _centre;
            double along = Vec3.Dot(arm, _direction);
            RadiusMetres = Math.Max(RadiusMetres, Across(arm).Length + radius);
            back = Math.Max(back, radius - along);
        }
        _start = _centre - 1.01 * back * _direction;
        _rims = Rims();
    }

    /// <summary>Radius about the centre outside which no ray meets the craft, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>The craft.</summary>
    public RayScene Scene => _scene;

    /// <summary>Unit vector in the plane at an azimuth.</summary>
    public Vec3 Toward(double azimuth)
    {
        (double s, double c) = Math.SinCos(azimuth);
        return c * _acrossX + s * _acrossY;
    }

    /// <summary>Follows the ray at a radius along a direction of the plane.</summary>
    public RayTally Follow(Vec3 toward, double radius) =>
        RayWalk.Follow(_scene, _start + radius * toward, _direction, _stretch);

    /// <summary>What a ray adds to the integral over the plane, per unit of area.</summary>
    public void Weigh(in RayTally ray, double area, bool withSlopes, ref RaySum sum)
    {
        // The power of a ray is set where it meets the craft first: to a slanted light the profile stands upright.
        double x = (_offsetX + Vec3.Dot(_profileX, ray.First)) / _scale;
        double y = (_offsetY + Vec3.Dot(_profileY, ray.First)) / _scale;
        double density = area / (_scale * _scale);
        if (withSlopes)
        {
            (double value, double byX, double byY) = _irradiance.Slopes(x, y);
            sum.Set(ray, density * value, density / _scale * byX, density / _scale * byY);
        }
        else
        {
            sum.Set(ray, density * _irradiance.Value(x, y), 0, 0);
        }
    }

    /// <summary>Radii at which the line of an azimuth crosses the shadow of a rim or of a ball, m.</summary>
    public void AddEdges(Vec3 toward, List<double> radii)
    {
        Vec3 aside = Vec3.Cross(_direction, toward);
        foreach (Rim rim in _rims)
        {
            AddCrossings(rim, toward, aside, radii);
        }
    }

    /// <summary>Azimuths whose lines touch the shadow of a rim or of a ball, 0 … 2π: none where the centre lies in all shadows.</summary>
    public List<double> Tangents()
    {
        List<double> azimuths = [];
        foreach (Rim rim in _rims)
        {
            // a touches where (U·a)² + (V·a)² = (C·a)²; with a = (cos θ, sin θ) a sum of cos 2θ and sin 2θ. Lines run at θ − π/2.
            double xx = Square(rim.U, rim.V, rim.Arm, _acrossX, _acrossX);
            double yy = Square(rim.U, rim.V, rim.Arm, _acrossY, _acrossY);
            double xy = Square(rim.U, rim.V, rim.Arm, _acrossX, _acrossY);
            double swing = double.Hypot(0.5 * (xx - yy), xy);
            double mean = 0.5 * (xx + yy);
            // The shadow of a flat edge-on is a line, and a centre on the rim itself touches it everywhere.
            if (!(swing > Math.Abs(mean)) || swing < 1e-18 * RadiusMetres * RadiusMetres)
            {
                continue;
            }
            double middle = Math.Atan2(xy, 0.5 * (xx - yy));
            double half = Math.Acos(-mean / swing);
            foreach (double twice in (ReadOnlySpan<double>)[middle - half, middle + half])
            {
                foreach (double turn in (ReadOnlySpan<double>)[-0.5 * Math.PI, 0.5 * Math.PI])
                {
                    double azimuth = Math.IEEERemainder(0.5 * twice + turn, 2 * Math.PI);
                    azimuths.Add(azimuth < 0 ? azimuth + 2 * Math.PI : azimuth);
                }
            }
        }
        return azimuths;
    }

    private static double Square(Vec3 u, Vec3 v, Vec3 c, Vec3 a, Vec3 b) =>
        Vec3.Dot(u, a) * Vec3.Dot(u, b) + Vec3.Dot(v, a) * Vec3.Dot(v, b) - Vec3.Dot(c, a) * Vec3.Dot(c, b);

    // Rims of every stretch of a meridian; of a ball the great circle across the light.
    private List<Rim> Rims()
    {
        List<Rim> rims = [];
        for (int i = 0; i < _scene.Count; i++)
        {
            (SurfaceOfRevolution shape, Vec3 origin, Vec3 axis) = _scene.At(i);
            if (shape.ClosedSphereRadiusMetres is { } radius)
            {
                rims.Add(RimOf(origin, radius, _direction));
                continue;
            }
            for (int p = -1; p < shape.Pieces.Count; p++)
            {
                MeridianPoint m = p < 0 ? shape.At(0, shape.Pieces[0].Start) : shape.At(p, shape.Pieces[p].End);
                if (m.RadiusMetres > 0)
                {
                    rims.Add(RimOf(origin + m.HeightMetres * axis, m.RadiusMetres, axis));
                }
            }
        }
        return rims;
    }

    private Rim RimOf(Vec3 centre, double radius, Vec3 axis)
    {
        Vec3 near = Math.Abs(axis.X) < 0.8 ? Vec3.UnitX : Vec3.UnitY;
        Vec3 u = (near - Vec3.Dot(near, axis) * axis).Normalized();
        return new(centre - _centre, radius * u, radius * Vec3.Cross(axis, u));
    }

    // Points of the circle arm + u cos θ + v sin θ whose shadow lies on the line: A cos θ + B sin θ + D = 0.
    private static void AddCrossings(in Rim rim, Vec3 toward, Vec3 aside, List<double> radii)
    {
        double a = Vec3.Dot(rim.U, aside);
        double b = Vec3.Dot(rim.V, aside);
        double d = Vec3.Dot(rim.Arm, aside);
        double size = double.Hypot(a, b);
        if (!(size > Math.Abs(d)))
        {
            return;
        }
        double middle = Math.Atan2(b, a);
        double half = Math.Acos(-d / size);
        foreach (double angle in (ReadOnlySpan<double>)[middle - half, middle + half])
        {
            (double s, double c) = Math.SinCos(angle);
            double at = Vec3.Dot(rim.Arm + c * rim.U + s * rim.V, toward);
            if (at > 0)
            {
                radii.Add(at);
            }
        }
    }

    private Vec3 Across(Vec3 v) => v - Vec3.Dot(v, _direction) * _direction;

    /// <summary>A circle, from the centre of the fan: arm + u cos θ + v sin θ.</summary>
    private readonly record struct Rim(Vec3 Arm, Vec3 U, Vec3 V);
}
