using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>Measures rim and depth of the potential well of a design and of designs beside it.</summary>
/// <param name="Engine">Name of the engine.</param>
/// <param name="LengthMetres">How far from its bottom the well is followed, m.</param>
internal sealed record WellProbe(string Engine, double LengthMetres)
{
    // Depth and rim need no more, and their slopes then carry an error near 1e-6.
    private const double Accuracy = 1e-9;

    // Designs beside the present one have their rim a little farther out.
    private const double BeyondTheRim = 1.1;

    /// <summary>The probe of a design; null where it has no well.</summary>
    public static WellProbe? Of(DesignModel model, in CraftPose bottom, string engine)
    {
        if (!CentralLight.Of(model.Craft).HasPotential)
        {
            return null;
        }
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        WellProbe wide = new(engine, model.Beam.Profile.ExtentMetres + radius);
        return wide.Measure(model, bottom)?.RimMetres is { } rim
            ? wide with
            {
                LengthMetres = BeyondTheRim * rim,
            }
            : null;
    }

    /// <summary>Rim and depth; null where there are none.</summary>
    public IEnumerable<Metric?> Metrics(DesignModel model, CraftPose bottom)
    {
        LateralWell? well = Measure(model, bottom);
        yield return well is { RimMetres: { } rim }
            ? new("well_rim_m", "rim of the well", "m", rim, Accuracy * rim, PowerLaw.Constant)
            : null;
        yield return well is { DepthJoules: { } depth }
            ? new(
                "well_depth_J",
                "depth of the well",
                "J",
                depth,
                Math.Max(well.DepthErrorJoules, 1e-12 * depth),
                PowerLaw.Linear
            )
            : null;
    }

    private LateralWell? Measure(DesignModel model, in CraftPose bottom) =>
        CentralLight.Of(model.Craft).HasPotential
            ? LateralWell.Measure(EngineChoice.Build(Engine, model, Accuracy), model.Beam, new(bottom, LengthMetres))
            : null;
}
