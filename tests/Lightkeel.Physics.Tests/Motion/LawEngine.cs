using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Tests.Motion;

/// <summary>A force law written by a test in place of light pressure, so that the equations of motion are tested alone.</summary>
internal sealed class LawEngine(Func<CraftPose, (Vec3 Force, Vec3 Torque)> law) : IPressureEngine
{
    public string Name => "law";

    public double Accuracy => 1e-15;

    public PressureReading Evaluate(in CraftPose pose)
    {
        (Vec3 force, Vec3 torque) = law(pose);
        return new(force, torque, 0, 0, 0);
    }

    public PressureDerivatives Differentiate(in CraftPose pose) => throw new NotSupportedException();

    public static LawEngine OfForce(Func<CraftPose, Vec3> law) => new(p => (law(p), Vec3.Zero));

    /// <summary>A craft of a mass with a law; power only sets the sizes of tolerances.</summary>
    public static RideSetup Setup(
        LawEngine engine,
        double mass = 1,
        Mat3? inertia = null,
        double powerWatts = Scenes.C
    ) =>
        new()
        {
            Engine = engine,
            Mass = new(mass, Vec3.Zero, inertia ?? Mat3.Diagonal(1, 1, 1)),
            PowerWatts = powerWatts,
            FeatureLengthMetres = 1,
        };
}
