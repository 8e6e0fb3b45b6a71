using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Adds up the elements' first response to motion, for <see cref="RateDamping"/>.</summary>
internal sealed class RateDampingSums : IBeamVisitor<RateDamping>
{
    private readonly SurfacePlan[] _plans;
    private readonly Beam _beam;
    private readonly CraftPose _pose;
    private readonly Illumination _light;
    private readonly double _reach;
    private GaussLegendre _meridian = GaussLegendre.Order(1);
    private int _azimuths;

    public RateDampingSums(SailCraft craft, Beam beam, in CraftPose pose, in Illumination light)
    {
        (_beam, _pose, _light) = (beam, pose, light);
        double feature = beam.Profile.FeatureLengthMetres;
        _plans = [.. craft.Surfaces.Select(s => new SurfacePlan(s, craft.Mass.CenterOfMassMetres, feature))];
        _reach = _plans.Max(p => p.ReachMetres);
    }

    /// <summary>The sums with a number of rings on each stretch of a meridian and of azimuths around each ring.</summary>
    public RateDamping With(int rings, int azimuths)
    {
        (_meridian, _azimuths) = (GaussLegendre.Order(rings), azimuths);
        return _beam.Profile.Accept(this);
    }

    /// <summary>Largest difference of two answers in the sense of <see cref="RateDamping.RelativeError"/>.</summary>
    public double Difference(RateDamping a, RateDamping b)
    {
        double size = Largest(a.ForceByVelocity);
        if (size == 0)
        {
            return 0;
        }
        double force = Largest(a.ForceByVelocity + -1 * b.ForceByVelocity);
        double once = Math.Max(
            Largest(a.TorqueByVelocity + -1 * b.TorqueByVelocity),
            Largest(a.ForceByRate + -1 * b.ForceByRate)
        );
        double twice = Largest(a.TorqueByRate + -1 * b.TorqueByRate);
        return Math.Max(force, Math.Max(once / _reach, twice / (_reach * _reach))) / size;
    }

    /// <inheritdoc/>
    public RateDamping Visit<TProfile>(TProfile profile)
        where TProfile : struct, IBeamProfile
    {
        RateDamping sum = RateDamping.None;
        foreach (SurfacePlan plan in _plans)
        {
            sum = Plus(sum, Surface(plan, profile));
        }
        double scale =
            _beam.PowerWatts
            * _light.IrradianceFactor
            / (_pose.BeamScale * _pose.BeamScale * Illumination.LightSpeed * Illumination.LightSpeed);
        return new(
            scale * sum.ForceByVelocity,
            scale * sum.TorqueByVelocity,
            scale * sum.ForceByRate,
            scale * sum.TorqueByRate,
            0
        );
    }

    private RateDamping Surface<TProfile>(SurfacePlan plan, TProfile profile)
        where TProfile : struct, IBeamProfile
    {
        Mat3? turned = plan.IsSphere ? null : plan.Surface.BodyFromSurface;
        SurfaceLight<F64> place = PoseScalars<F64>.Constant(_pose).InFrameOf(plan.ArmMetres, turned, _light);
        SurfaceLight<F64> beam = place.InBeamOfScale(_pose.BeamScale);
        Vec3 direction = Plain(place.Direction);
        // A sphere is lit from outside; any other surface on the side that looks against the light along its axis.
        double side = !plan.IsSphere && direction.Z < 0 ? -1 : 1;
        LocalResponse optics = new(plan.OpticsOf(side), _light.WavelengthStretch);
        RateDamping sum = RateDamping.None;
        foreach ((int piece, double start, double end) in plan.Stretches)
        {
            double half = 0.5 * (end - start);
            for (int i = 0; i < _meridian.Count; i++)
            {
                MeridianPoint ring = plan.Surface.Shape.At(piece, start + half * (1 + _meridian.Nodes[i]));
                double area = half * _meridian.Weights[i] * ring.RadiusMetres * ring.ArcRate;
                foreach ((double azimuth, double weight) in Arc(ring, side, direction))
                {
                    sum = Plus(sum, Element(profile, place, beam, optics, ring, side, azimuth, weight * area));
                }
            }
        }
        return sum;
    }

    // The lit azimuths of a ring, μ = a cos(φ − φ_b) + b > 0: the trapezoid rule all round, Gauss-Legendre on an arc.
    private IEnumerable<(double Azimuth, double Weight)> Arc(MeridianPoint ring, double side, Vec3 light)
    {
        double a = -side * ring.NormalRadial * double.Hypot(light.X, light.Y);
        double b = -side * ring.NormalAxial * light.Z;
        if (b >= Math.Abs(a))
        {
            for (int j = 0; j < _azimuths; j++)
            {
                yield return (2 * Math.PI * j / _azimuths, 2 * Math.PI / _azimuths);
            }
        }
        else if (b > -Math.Abs(a))
        {
            double middle = Math.Atan2(light.Y, light.X) + (a > 0 ? 0 : Math.PI);
            double half = Math.Acos(-b / Math.Abs(a));
            GaussLegendre rule = GaussLegendre.Order(_azimuths);
            for (int j = 0; j < rule.Count; j++)
            {
                yield return (middle + half * rule.Nodes[j], half * rule.Weights[j]);
            }
        }
    }

    private static RateDamping Element<TProfile>(
        TProfile profile,
        in SurfaceLight<F64> place,
        in SurfaceLight<F64> beam,
        in LocalResponse optics,
        in MeridianPoint ring,
        double side,
        double azimuth,
        double area
    )
        where TProfile : struct, IBeamProfile
    {
        (double s, double c) = Math.SinCos(azimuth);
        Vec3 local = new(ring.RadiusMetres * c, ring.RadiusMetres * s, ring.HeightMetres);
        Vec3 facing = side * new Vec3(ring.NormalRadial * c, ring.NormalRadial * s, ring.NormalAxial);
        double x = beam.OriginX.Value + Vec3.Dot(Plain(beam.AcrossX), local);
        double y = beam.OriginY.Value + Vec3.Dot(Plain(beam.AcrossY), local);
        double irradiance = profile.UnitIrradiance(new F64(x), new F64(y)).Value;
        Mat3 beamFromSurface = Plain(place.BeamFromSurface);
        Vec3 p = Plain(place.ArmMetres) + beamFromSurface * local;
        Mat3 response =
            irradiance * area * Response(optics, beamFromSurface * Plain(place.Direction), beamFromSurface * facing);
        Mat3 arm = new(new(0, -p.Z, p.Y), new(p.Z, 0, -p.X), new(-p.Y, p.X, 0));
        Mat3 byRate = -1 * (response * arm);
        return new(response, arm * response, byRate, arm * byRate, 0);
    }

    // With f = μ g, g = α b − h n, h = 2 Rs μ + h₀ (force per I dA/c), and per unit of 1/c
    //   δI/I = −2 b·δv,   δb = −(1 − b bᵀ) δv,   δμ = −n·δb = (n + μ b)·δv,   δλ/λ = b·δv:
    // δf = −2 f b·δv + (g + μ ∂g/∂μ) δμ + μ λ ∂g/∂λ b·δv − μ α (1 − b bᵀ) δv.   A mirror leaves −4 μ n n·δv.
    private static Mat3 Response(in LocalResponse optics, Vec3 b, Vec3 n)
    {
        double mu = -Vec3.Dot(n, b);
        LocalPush push = optics.At(mu);
        Vec3 g = push.Along * b - push.Normal * n;
        Vec3 slope = g + mu * (push.AlongByCosine * b - push.NormalByCosine * n);
        Vec3 doppler = mu * (push.AlongByWavelength * b - push.NormalByWavelength * n);
        Mat3 across = Mat3.Identity + -1 * Outer(b, b);
        return Outer(-2 * mu * g + doppler, b) + Outer(slope, n + mu * b) + -mu * push.Along * across;
    }

    private static Mat3 Outer(Vec3 a, Vec3 b) => new(a.X * b, a.Y * b, a.Z * b);

    private static RateDamping Plus(RateDamping a, RateDamping b) =>
        new(
            a.ForceByVelocity + b.ForceByVelocity,
            a.TorqueByVelocity + b.TorqueByVelocity,
            a.ForceByRate + b.ForceByRate,
            a.TorqueByRate + b.TorqueByRate,
            0
        );

    private static double Largest(Mat3 m) => Math.Max(Largest(m.Row0), Math.Max(Largest(m.Row1), Largest(m.Row2)));

    private static double Largest(Vec3 v) => Math.Max(Math.Abs(v.X), Math.Max(Math.Abs(v.Y), Math.Abs(v.Z)));

    private static Vec3 Plain(in Vec3<F64> v) => new(v.X.Value, v.Y.Value, v.Z.Value);

    private static Mat3 Plain(in Mat3<F64> m) => new(Plain(m.Row0), Plain(m.Row1), Plain(m.Row2));
}
