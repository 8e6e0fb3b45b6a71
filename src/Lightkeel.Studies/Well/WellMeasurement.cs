using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Well;

/// <summary>What was measured: the place, the rays, the stiffness at the bottom, the swings.</summary>
/// <param name="Light">Whether there is a potential.</param>
/// <param name="Trim">Where the rays begin.</param>
/// <param name="Well">The rays.</param>
/// <param name="Stiffness">Lower and higher stiffness against offsets, N/m; below zero it pushes away.</param>
/// <param name="Swings">Swings of finite amplitude.</param>
/// <param name="SwingsReason">Why there are none.</param>
/// <param name="Engine">Light pressure.</param>
internal sealed record WellMeasurement(
    CentralLight Light,
    LateralTrim Trim,
    LateralWell Well,
    (double Low, double High) Stiffness,
    IReadOnlyList<WellSwing> Swings,
    string? SwingsReason,
    IPressureEngine Engine
)
{
    private const int SwingCount = 40;

    // A force across the ray below this share of that along it does not turn a swing off the ray in any number of swings that matters.
    private const double StaysOnRay = 1e-6;

    public static WellMeasurement Of(WellInput input, StudyContext context)
    {
        DesignModel model = input.Design.Model;
        IPressureEngine engine = EngineChoice.Build(input.Engine, model, context.Accuracy);
        double speed = model.Design.Start.SpeedMetresPerSecond;
        CraftPose axial = CraftPose.OnAxis with { VelocityMetresPerSecond = new(0, 0, speed) };
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        _ = engine.Evaluate(axial);
        double reach = model.Beam.Profile.ExtentMetres + radius;
        LateralTrim trim = LateralTrim.Find(engine, new(radius, reach), axial);
        if (trim is not { Found: true, Pose: { } bottom, Derivatives: { } slopes })
        {
            throw new PressureUnavailableException($"There is no place to measure a well from: {trim.Summary}");
        }
        CentralLight light = CentralLight.Of(model.Craft);
        LateralWell well = LateralWell.Measure(engine, model.Beam, new(bottom, reach) { Threads = context.Threads });
        (IReadOnlyList<WellSwing> swings, string? reason) = Swing(light, well, model, engine, bottom);
        return new(light, trim, well, StiffnessOf(slopes), swings, reason, engine);
    }

    // Eigenvalues of the symmetric part of the force's derivatives by offset, the sign turned.
    private static (double Low, double High) StiffnessOf(PressureDerivatives slopes)
    {
        double[][] k = slopes.LateralJacobian();
        double mean = -0.5 * (k[0][0] + k[1][1]);
        double spread = double.Hypot(0.5 * (k[0][0] - k[1][1]), 0.5 * (k[0][1] + k[1][0]));
        return (mean - spread, mean + spread);
    }

    private static (IReadOnlyList<WellSwing>, string?) Swing(
        CentralLight light,
        LateralWell well,
        DesignModel model,
        IPressureEngine engine,
        CraftPose bottom
    )
    {
        if (!light.HasPotential || well.RimMetres is not { } rim)
        {
            return ([], "There is no well to swing in.");
        }
        WellRay there = well.Pass;
        WellRay back = well.IsRound
            ? there
            : WellRay.Follow(engine, bottom, there.AngleRadians + Math.PI, there.LengthMetres);
        if (Math.Max(there.CrossShare, back.CrossShare) > StaysOnRay)
        {
            return ([], "A swing along the ray over the lowest pass is pushed off it, so it has no one frequency.");
        }
        double mass = model.Craft.Mass.MassKilograms;
        List<WellSwing> swings = [];
        foreach (double share in Enumerable.Range(1, SwingCount - 1).Select(i => (double)i / SwingCount).Append(0.99))
        {
            double amplitude = share * rim;
            double energy = there.Work(amplitude);
            double? opposite = well.IsRound ? amplitude : AmplitudeAt(back, energy);
            double? outward = SwingPeriod.Quarter(r => -there.Force(r), amplitude, mass);
            double? inward =
                well.IsRound ? outward
                : opposite is { } b ? SwingPeriod.Quarter(r => -back.Force(r), b, mass)
                : null;
            if (outward is { } t && inward is { } s)
            {
                swings.Add(new(amplitude, energy, 1 / (2 * (t + s))));
            }
        }
        return (swings, swings.Count > 0 ? null : "No period could be computed to the asked accuracy.");
    }

    private static double? AmplitudeAt(WellRay ray, double energy)
    {
        double end = ray.RimMetres ?? ray.LengthMetres;
        return ray.Work(end) > energy
            ? SignChange.Find(r => ray.Work(r) - energy, 0, -energy, end, ray.Work(end) - energy, 1e-14 * end)
            : null;
    }
}
