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
    private readonly Vec3 _start;
    private readonly Vec3 _acrossX;
    private readonly Vec3 _acrossY;
    private readonly Vec3 _profileX;
    private readonly Vec3 _profileY;
    private readonly double _offsetX;
    private readonly double _offsetY;
    private readonly double _scale;

    public RayFan(RayScene scene, RayIrradiance irradiance, in CraftPose pose, in Illumination light)
    {
        Mat3 bodyFromBeam = pose.BeamFromBody.Transposed;
        (_scene, _irradiance) = (scene, irradiance);
        _direction = bodyFromBeam * light.Direction;
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
    public RayTally Follow(Vec3 toward, double radius) => RayWalk.Follow(_scene, _start + radius * toward, _direction);

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
        for (int i = 0; i < _scene.Count; i++)
        {
            (SurfaceOfRevolution shape, Vec3 origin, Vec3 axis) = _scene.At(i);
            if (shape.ClosedSphereRadiusMetres is { } radius)
            {
                AddCircle(origin, radius, _direction, toward, aside, radii);
                continue;
            }
            for (int p = 0; p < shape.Pieces.Count; p++)
            {
                if (p == 0)
                {
                    Add(shape.At(0, shape.Pieces[0].Start));
                }
                Add(shape.At(p, shape.Pieces[p].End));
            }

            void Add(MeridianPoint m) =>
                AddCircle(origin + m.HeightMetres * axis, m.RadiusMetres, axis, toward, aside, radii);
        }
    }

    private Vec3 Across(Vec3 v) => v - Vec3.Dot(v, _direction) * _direction;

    // Points of the circle centre + radius (u cos θ + v sin θ) whose shadow lies on the line: A cos θ + B sin θ + D = 0.
    private void AddCircle(Vec3 centre, double radius, Vec3 axis, Vec3 toward, Vec3 aside, List<double> radii)
    {
        Vec3 near = Math.Abs(axis.X) < 0.8 ? Vec3.UnitX : Vec3.UnitY;
        Vec3 u = (near - Vec3.Dot(near, axis) * axis).Normalized();
        Vec3 v = Vec3.Cross(axis, u);
        Vec3 arm = centre - _centre;
        double a = radius * Vec3.Dot(u, aside);
        double b = radius * Vec3.Dot(v, aside);
        double d = Vec3.Dot(arm, aside);
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
            double at = Vec3.Dot(arm, toward) + radius * (c * Vec3.Dot(u, toward) + s * Vec3.Dot(v, toward));
            if (at > 0)
            {
                radii.Add(at);
            }
        }
    }
}
