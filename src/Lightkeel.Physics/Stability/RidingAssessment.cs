using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>Whether a craft rides a beam, from the light up: engine, trim, linear model, verdict.</summary>
/// <param name="Engine">Light pressure of this craft in this beam.</param>
/// <param name="Trim">The trim.</param>
/// <param name="Report">Linear stability about it.</param>
public sealed record RidingAssessment(IPressureEngine Engine, LateralTrim Trim, StabilityReport Report)
{
    /// <summary>Assesses a craft in a beam.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="engine">Light pressure of this craft in this beam.</param>
    /// <param name="spinRadiansPerSecond">Spin about the body axis, rad/s.</param>
    /// <param name="speedMetresPerSecond">Axial speed, m/s.</param>
    /// <exception cref="PressureUnavailableException">The light pressure cannot be computed on the axis, or there is no trim.</exception>
    public static RidingAssessment Of(
        SailCraft craft,
        Beam beam,
        IPressureEngine engine,
        double spinRadiansPerSecond = 0,
        double speedMetresPerSecond = 0
    )
    {
        CraftPose axial = CraftPose.OnAxis with { VelocityMetresPerSecond = new(0, 0, speedMetresPerSecond) };
        double radius = craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        // Asked once more than the search would, so that a craft that cannot be computed on the axis says why in its own words.
        _ = engine.Evaluate(axial);
        LateralTrim trim = LateralTrim.Find(engine, new(radius, beam.Profile.ExtentMetres + radius), axial);
        if (!trim.Found)
        {
            throw new PressureUnavailableException(
                $"There is no trim to linearise about: {trim.Summary} Bring the centre of mass nearer to the axis, or give the craft a symmetric layout."
            );
        }
        LinearModel model = LinearModel.FromTrim(
            craft.Mass,
            engine,
            trim,
            spinRadiansPerSecond,
            craft.IsAxisymmetric,
            beam.Profile.IsAxisymmetric
        );
        return new(engine, trim, StabilityAnalysis.Analyse(model));
    }
}
