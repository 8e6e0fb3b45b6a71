using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Light pressure as the atlas sees it: per watt of beam and times c, at poses of its own coordinates.</summary>
/// <param name="engine">Quadrature that fills the atlas.</param>
/// <param name="craft">The craft, axisymmetric.</param>
/// <param name="beam">The beam, axisymmetric.</param>
/// <param name="box">The box.</param>
internal sealed class AtlasScene(IPressureEngine engine, SailCraft craft, Beam beam, AtlasBox box)
{
    private int _evaluations;

    public AtlasBox Box { get; } = box;

    /// <summary>A ball about the centre of mass: neither its attitude nor the azimuth counts.</summary>
    public bool IsBall { get; } = Balls(craft);

    /// <summary>Length by which torques are measured, m.</summary>
    public double ReachMetres { get; } = SharedPressure.ReachOf(craft);

    public int Evaluations => _evaluations;

    /// <summary>Sine of the largest tilt.</summary>
    public double LargestSine { get; } = Math.Sin(box.TiltRadians);

    /// <summary>Pose with the offset along x and the body axis leaning by a share of the largest sine.</summary>
    /// <param name="offset">Offset over the box's.</param>
    /// <param name="lean">Sine of the tilt over the box's largest.</param>
    /// <param name="azimuth">Direction of the lean from that of the offset, rad.</param>
    /// <param name="w">Designed size of the beam over its size.</param>
    public CraftPose Pose(double offset, double lean, double azimuth, double w = 1)
    {
        double tilt = IsBall ? 0 : Math.Asin(Math.Min(1, lean * LargestSine));
        (double sin, double cos) = Math.SinCos(azimuth);
        return CraftPose.From(offset * Box.OffsetMetres, 0, -tilt * sin, tilt * cos) with { BeamScale = 1 / w };
    }

    /// <summary>
    /// The sixteen derivatives of force, torque and power by the slant of the light along x, then along y, by central differences.
    /// </summary>
    public void Slant(in CraftPose pose, Span<double> sixteen)
    {
        const double Speed = AtlasSlant.Step * Illumination.LightSpeed;
        for (int direction = 0; direction < 2; direction++)
        {
            Vec3 velocity = direction == 0 ? new(Speed, 0, 0) : new(0, Speed, 0);
            UnitWrench minus = Unit(pose with { VelocityMetresPerSecond = velocity });
            UnitWrench plus = Unit(pose with { VelocityMetresPerSecond = -velocity });
            Vec3 slant = Illumination.SeenFrom(-velocity).Direction;
            Write(0.5 / (direction == 0 ? slant.X : slant.Y) * (plus - minus), sixteen[(8 * direction)..]);
        }
    }

    /// <summary>Eight numbers of a wrench: force, torque, powers.</summary>
    public static void Write(in UnitWrench u, Span<double> eight)
    {
        (eight[0], eight[1], eight[2]) = (u.Force.X, u.Force.Y, u.Force.Z);
        (eight[3], eight[4], eight[5]) = (u.Torque.X, u.Torque.Y, u.Torque.Z);
        (eight[6], eight[7]) = (u.Power, u.Absorbed);
    }

    /// <summary>Weights that make the eight quantities comparable: torques over reach; powers count for a hundredth.</summary>
    public double[] Weights(int groups = 1)
    {
        double t = 1 / ReachMetres;
        return [.. Enumerable.Repeat<double[]>([1, 1, 1, t, t, t, 0.01, 0.01], groups).SelectMany(w => w)];
    }

    /// <summary>Force and torque times c, and shares of power, for one watt of beam at rest.</summary>
    public UnitWrench Unit(in CraftPose pose)
    {
        Interlocked.Increment(ref _evaluations);
        PressureReading r = engine.Evaluate(pose);
        double factor = Illumination.SeenFrom(pose.VelocityMetresPerSecond).IrradianceFactor;
        double power = 1 / (beam.PowerWatts * factor);
        double force = Illumination.LightSpeed * power;
        return new(
            force * r.ForceNewtons,
            force * r.TorqueNewtonMetres,
            power * r.InterceptedWatts,
            power * r.AbsorbedWatts
        );
    }

    /// <summary>Whether all surfaces are closed spheres about the centre of mass.</summary>
    public static bool Balls(SailCraft craft) =>
        craft.Surfaces.All(s =>
            s.Shape.ClosedSphereRadiusMetres is { } radius
            && (s.OriginMetres - craft.Mass.CenterOfMassMetres).Length <= 1e-12 * radius
        );
}
