using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

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
    public CraftPose Pose(double offset, double lean, double azimuth)
    {
        double tilt = IsBall ? 0 : Math.Asin(Math.Min(1, lean * LargestSine));
        (double sin, double cos) = Math.SinCos(azimuth);
        return CraftPose.From(offset * Box.OffsetMetres, 0, -tilt * sin, tilt * cos);
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

    private static bool Balls(SailCraft craft) =>
        craft.Surfaces.All(s =>
            s.Shape.ClosedSphereRadiusMetres is { } radius
            && (s.OriginMetres - craft.Mass.CenterOfMassMetres).Length <= 1e-12 * radius
        );
}
