using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>The linear modes under the noises of the design.</summary>
/// <param name="Modes">Frequencies that swing, as forced by a wandering beam, lowest first; empty where they are not in beam axes.</param>
/// <param name="Reason">Why there are none.</param>
/// <param name="WidthFactors">Relative change of each mode's stiffness for one of the beam's width; null where not known.</param>
/// <param name="Heating">What each noise does to each mode.</param>
/// <param name="Parametric">What each noise of power or width does to all modes together.</param>
/// <param name="Model">The linear model with its damping.</param>
internal sealed record NoiseModes(
    IReadOnlyList<ModalForcing> Modes,
    string? Reason,
    IReadOnlyList<double?> WidthFactors,
    IReadOnlyList<ModeHeat> Heating,
    IReadOnlyList<ParametricHeat> Parametric,
    LinearModel Model
)
{
    private const double WidthStep = 1e-3;

    public static NoiseModes Of(NoiseScene scene)
    {
        LinearModel model = WithDamping(scene);
        IReadOnlyList<ModalForcing> modes = ModalForcing.Of(model) ?? [];
        string? reason =
            modes.Count > 0 ? null
            : ModalForcing.Of(model) is null
                ? "The spinning craft or its beam is not round: its modes turn with it and are not followed through noise."
            : "No motion of the craft swings.";
        LinearModel? wide = ModelAt(scene, 1 + WidthStep);
        LinearModel? narrow = ModelAt(scene, 1 - WidthStep);
        double?[] widths = WidthFactorsOf(modes, wide, narrow);
        List<ParametricHeat> parametric = NoiseParametrics.Of(scene, model, WidthChange(wide, narrow));
        return new(modes, reason, widths, HeatingOf(scene, modes, widths, parametric), parametric, model);
    }

    private static LinearModel WithDamping(NoiseScene scene)
    {
        LinearModel model = scene.Assessment.Report.Model;
        if (model.SpinRadiansPerSecond != 0 || scene.Assessment.Trim.Pose is not { } pose)
        {
            return model;
        }
        try
        {
            return model with
            {
                Damping = RateDamping.At(scene.Model.Craft, scene.Model.Beam, pose, 1e-4).LateralMatrix(),
            };
        }
        catch (PressureUnavailableException)
        {
            return model;
        }
    }

    private static double?[] WidthFactorsOf(
        IReadOnlyList<ModalForcing> modes,
        LinearModel? wider,
        LinearModel? narrower
    )
    {
        IReadOnlyList<ModalForcing>? wide = wider is null ? null : ModalForcing.Of(wider);
        IReadOnlyList<ModalForcing>? narrow = narrower is null ? null : ModalForcing.Of(narrower);
        return
        [
            .. modes.Select(
                (m, i) =>
                    wide?.Count == modes.Count && narrow?.Count == modes.Count
                        ? Math.Log(wide[i].FrequencyHertz / narrow[i].FrequencyHertz) / WidthStep
                        : (double?)null
            ),
        ];
    }

    // Change of the Jacobian for a relative change of the beam's width.
    private static double[][]? WidthChange(LinearModel? wide, LinearModel? narrow) =>
        wide is null || narrow is null
            ? null
            :
            [
                .. wide.Jacobian.Select(
                    (row, i) => row.Select((k, j) => (k - narrow.Jacobian[i][j]) / (2 * WidthStep)).ToArray()
                ),
            ];

    private static LinearModel? ModelAt(NoiseScene scene, double scale)
    {
        StartDesign start = scene.Model.Design.Start;
        try
        {
            return RidingAssessment
                .Of(
                    scene.Model.Craft,
                    scene.Model.Beam,
                    new InstantPressure(scene.Engine, 1, scale),
                    start.SpinRadiansPerSecond,
                    start.SpeedMetresPerSecond
                )
                .Report.Model;
        }
        catch (PressureUnavailableException)
        {
            return null;
        }
    }

    private static List<ModeHeat> HeatingOf(
        NoiseScene scene,
        IReadOnlyList<ModalForcing> modes,
        double?[] widths,
        List<ParametricHeat> parametric
    )
    {
        List<ModeHeat> found = [];
        double mass = scene.Model.Craft.Mass.MassKilograms;
        foreach ((NoiseSource source, WellNoise noise) in scene.Sources.Zip(scene.WellNoises))
        {
            for (int i = 0; i < modes.Count; i++)
            {
                double f = modes[i].FrequencyHertz;
                bool shakes = noise.Action == WellAction.Shake;
                double listens = shakes ? f : 2 * f;
                double density = noise.Mean(listens, 1e-4 * listens);
                double factor = noise.Action == WellAction.Width ? widths[i] ?? 0 : 1;
                double gain = modes[i].OffsetGainPerSecondSquared;
                ModalParametric? own = parametric.Find(p => p.Source == source)?.Modes;
                double rate = 2 * Math.PI * f;
                found.Add(
                    new(
                        source,
                        i,
                        listens,
                        density,
                        shakes ? gain * density : 0,
                        shakes ? 0.25 * mass * rate * rate * gain * density : 0,
                        shakes ? 0
                            : own is null ? HarmonicHeating.ParametricPerSecond(f, factor * factor * density)
                            : own.GainAlone(f) * density
                    )
                );
            }
        }
        return found;
    }
}

/// <summary>What one noise does to one mode.</summary>
/// <param name="Source">The noise.</param>
/// <param name="Mode">Index of the mode.</param>
/// <param name="ListensHertz">Frequency at which the mode takes from it, Hz.</param>
/// <param name="Density">Density there, at the craft: m²/Hz for shakes, 1/Hz for others.</param>
/// <param name="SquareMetresPerSecond">Growth of the mean squared amplitude, both axes together, m²/s.</param>
/// <param name="Watts">Growth of the mean energy of one axis, W.</param>
/// <param name="PerSecond">Growth rate of the mean energy, 1/s.</param>
internal sealed record ModeHeat(
    NoiseSource Source,
    int Mode,
    double ListensHertz,
    double Density,
    double SquareMetresPerSecond,
    double Watts,
    double PerSecond
);
