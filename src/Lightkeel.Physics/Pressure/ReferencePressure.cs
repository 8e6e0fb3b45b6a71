using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Light pressure written out plainly: every surface cut into small elements, each element's force added up as the
/// equation stands. Slow and of modest accuracy at terminators; there to be read, and to doubt the fast engine with.
/// </summary>
/// <remarks>Immutable; safe to share between threads. Valid where light meets each element once (<see cref="LightRegime"/>).</remarks>
public sealed class ReferencePressure : IPressureEngine
{
    private readonly SailCraft _craft;
    private readonly Beam _beam;
    private readonly LightRegime _regime;
    private readonly int _rings;
    private readonly int _azimuths;

    /// <summary>Prepares the engine.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="rings">Gauss-Legendre rings on each smooth piece of a meridian.</param>
    /// <param name="azimuths">Equally spaced elements around each ring.</param>
    public ReferencePressure(SailCraft craft, Beam beam, int rings = 200, int azimuths = 400)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rings, 2);
        ArgumentOutOfRangeException.ThrowIfLessThan(azimuths, 4);
        (_craft, _beam, _rings, _azimuths) = (craft, beam, rings, azimuths);
        _regime = LightRegime.Assess(craft);
    }

    /// <inheritdoc/>
    public string Name => "reference";

    /// <inheritdoc/>
    public double Accuracy => 1e-4;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        PressureReading fine = Sum(pose, _rings, _azimuths);
        PressureReading coarse = Sum(pose, _rings / 2, _azimuths / 2);
        double error =
            (fine.ForceNewtons - coarse.ForceNewtons).Length / Math.Max(fine.ForceNewtons.Length, double.Epsilon);
        return fine with { RelativeError = error };
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        PressureReading[] fine = Columns(pose, _rings, _azimuths);
        PressureReading[] coarse = Columns(pose, _rings / 2, _azimuths / 2);
        // A blind sum errs at terminators by about its element: the coarser grid shows how much.
        double error = Math.Max(
            Math.Max(Worst(fine, coarse, 0, r => r.ForceNewtons), Worst(fine, coarse, 0, r => r.TorqueNewtonMetres)),
            Math.Max(Worst(fine, coarse, 2, r => r.ForceNewtons), Worst(fine, coarse, 2, r => r.TorqueNewtonMetres))
        );
        return new(fine[0], fine[1], fine[2], fine[3], error);
    }

    // Largest difference of two columns (offsets from 0, tilts from 2) over their largest entry.
    private static double Worst(
        PressureReading[] fine,
        PressureReading[] coarse,
        int first,
        Func<PressureReading, Vec3> part
    )
    {
        double size = Math.Max(part(fine[first]).Length, part(fine[first + 1]).Length);
        double difference = Math.Max(
            (part(fine[first]) - part(coarse[first])).Length,
            (part(fine[first + 1]) - part(coarse[first + 1])).Length
        );
        return size > 0 ? Math.Min(difference / size, 0.999) : 0;
    }

    private PressureReading[] Columns(CraftPose pose, int rings, int azimuths)
    {
        double length = 1e-2 * pose.BeamScale * _beam.Profile.FeatureLengthMetres;
        return
        [
            Slope(pose, length, (p, h) => p with { OffsetXMetres = p.OffsetXMetres + h }),
            Slope(pose, length, (p, h) => p with { OffsetYMetres = p.OffsetYMetres + h }),
            Slope(pose, 1e-2, (p, h) => p with { BeamFromBody = Mat3.Rotation(Vec3.UnitX, h) * p.BeamFromBody }),
            Slope(pose, 1e-2, (p, h) => p with { BeamFromBody = Mat3.Rotation(Vec3.UnitY, h) * p.BeamFromBody }),
        ];

        // Central differences of three step sizes, extrapolated twice (Richardson).
        PressureReading Slope(CraftPose at, double step, Func<CraftPose, double, CraftPose> move)
        {
            PressureReading Central(double h) =>
                Combine(
                    1 / (2 * h),
                    Sum(move(at, h), rings, azimuths),
                    -1 / (2 * h),
                    Sum(move(at, -h), rings, azimuths)
                );
            PressureReading first = Central(step);
            PressureReading second = Central(step / 2);
            PressureReading third = Central(step / 4);
            PressureReading a = Combine(4.0 / 3, second, -1.0 / 3, first);
            PressureReading b = Combine(4.0 / 3, third, -1.0 / 3, second);
            return Combine(16.0 / 15, b, -1.0 / 15, a);
        }
    }

    private static PressureReading Combine(double s, in PressureReading a, double t, in PressureReading b) =>
        new(
            s * a.ForceNewtons + t * b.ForceNewtons,
            s * a.TorqueNewtonMetres + t * b.TorqueNewtonMetres,
            s * a.InterceptedWatts + t * b.InterceptedWatts,
            s * a.AbsorbedWatts + t * b.AbsorbedWatts,
            0
        );

    private PressureReading Sum(in CraftPose pose, int rings, int azimuths)
    {
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        RegimeVerdict verdict = _regime.At(light.WavelengthStretch).For(pose.BeamFromBody.Transposed * light.Direction);
        if (!verdict.IsSingleBounce)
        {
            throw new PressureUnavailableException(verdict.Reason);
        }
        Vec3 force = Vec3.Zero;
        Vec3 torque = Vec3.Zero;
        double intercepted = 0;
        double absorbed = 0;
        foreach (PlacedSurface surface in _craft.Surfaces)
        {
            foreach ((Vec3 point, Vec3 normal, double area) in Elements(surface, rings, azimuths))
            {
                Vec3 arm = pose.BeamFromBody * (point - _craft.Mass.CenterOfMassMetres);
                (Vec3 push, double power, double heat) = Element(
                    surface,
                    pose,
                    light,
                    arm,
                    pose.BeamFromBody * normal,
                    area
                );
                force += push;
                torque += Vec3.Cross(arm, push);
                intercepted += power;
                absorbed += heat;
            }
        }
        return new(force, torque, intercepted, absorbed, 0);
    }

    // dF = (I μ dA / c) [ (1 − Ts) b − Rs (b + 2 μ n) − (2/3) Rd n − (2/3) A e n ] on the lit side, nothing on the dark one.
    private (Vec3 Force, double Intercepted, double Absorbed) Element(
        PlacedSurface surface,
        in CraftPose pose,
        in Illumination light,
        Vec3 arm,
        Vec3 front,
        double area
    )
    {
        Vec3 b = light.Direction;
        // A sphere takes light on its outside; any other surface on the side that looks against the light along its axis.
        Vec3 axis = pose.BeamFromBody * surface.BodyFromSurface.Column2;
        bool back = surface.Shape.ClosedSphereRadiusMetres is null && Vec3.Dot(axis, b) < 0;
        Vec3 n = back ? -front : front;
        double mu = -Vec3.Dot(n, b);
        if (mu <= 0)
        {
            return default;
        }
        OpticalCoefficients optics = (back ? surface.Optics.Reversed : surface.Optics).At(mu, light.WavelengthStretch);
        double x = pose.OffsetXMetres + Vec3.Dot(light.ProfileX, arm);
        double y = pose.OffsetYMetres + Vec3.Dot(light.ProfileY, arm);
        double s = pose.BeamScale;
        double power = light.IrradianceFactor * _beam.Irradiance(x / s, y / s) / (s * s) * mu * area;
        Vec3 perWatt =
            (1 - optics.Passed) * b
            - optics.Specular * (b + 2 * mu * n)
            - 2.0 / 3 * optics.Diffuse * n
            - 2.0 / 3 * optics.Absorbed * optics.ThermalAsymmetry * n;
        return (power / Illumination.LightSpeed * perWatt, power, power * optics.Absorbed);
    }

    private static IEnumerable<(Vec3 Point, Vec3 Normal, double Area)> Elements(
        PlacedSurface surface,
        int rings,
        int azimuths
    )
    {
        GaussLegendre rule = GaussLegendre.Order(rings);
        for (int p = 0; p < surface.Shape.Pieces.Count; p++)
        {
            (double start, double end) = surface.Shape.Pieces[p];
            for (int i = 0; i < rule.Count; i++)
            {
                MeridianPoint m = surface.Shape.At(p, start + 0.5 * (end - start) * (1 + rule.Nodes[i]));
                double area =
                    0.5 * (end - start) * rule.Weights[i] * m.ArcRate * m.RadiusMetres * 2 * Math.PI / azimuths;
                for (int j = 0; j < azimuths; j++)
                {
                    (double s, double c) = Math.SinCos(2 * Math.PI * (j + 0.5) / azimuths);
                    Vec3 local = new(m.RadiusMetres * c, m.RadiusMetres * s, m.HeightMetres);
                    Vec3 normal = new(m.NormalRadial * c, m.NormalRadial * s, m.NormalAxial);
                    yield return (
                        surface.OriginMetres + surface.BodyFromSurface * local,
                        surface.BodyFromSurface * normal,
                        area
                    );
                }
            }
        }
    }
}
