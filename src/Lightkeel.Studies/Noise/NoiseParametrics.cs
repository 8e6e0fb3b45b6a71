using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Stability;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>What one noise of power or width does to all modes together.</summary>
/// <param name="Source">The noise.</param>
/// <param name="Noise">The same as the craft meets it.</param>
/// <param name="Modes">The resonances; null where they are not known.</param>
internal sealed record ParametricHeat(NoiseSource Source, WellNoise Noise, ModalParametric? Modes);

/// <summary>Heating of the modes, alone and in pairs, by noises that change their stiffness.</summary>
internal static class NoiseParametrics
{
    // Of the frequency at which the noise is heard.
    private const double Band = 1e-4;

    public static List<ParametricHeat> Of(NoiseScene scene, LinearModel model, double[][]? byWidth)
    {
        ModalParametric? power = ModalParametric.Of(model, model.Jacobian);
        ModalParametric? width = byWidth is null ? null : ModalParametric.Of(model, byWidth);
        return
        [
            .. scene
                .Sources.Zip(scene.WellNoises)
                .Where(p => p.Second.Action != WellAction.Shake)
                .Select(p => new ParametricHeat(
                    p.First,
                    p.Second,
                    p.Second.Action == WellAction.Depth ? power : width
                )),
        ];
    }

    /// <summary>Growth rate of the mean energy by one noise, 1/s; null where the resonances are not known.</summary>
    public static double? GrowthOf(ParametricHeat heat) =>
        heat.Modes?.GrowthPerSecond(hertz => heat.Noise.Mean(hertz, Band * hertz));

    /// <summary>The result of the study.</summary>
    public static NoiseParametric Read(ParametricHeat heat, NoiseScene scene)
    {
        if (heat.Modes is not { } modes)
        {
            return new(
                heat.Source.Name,
                NoiseReading.WordOf(heat.Source),
                null,
                "The modes grow by themselves, lie too near to each other, or turn with the craft: their resonances in pairs are not followed.",
                null,
                "There is no growth rate.",
                []
            );
        }
        double Density(double hertz) => heat.Noise.Mean(hertz, Band * hertz);
        double growth = GrowthOf(heat) ?? 0;
        return new(
            heat.Source.Name,
            NoiseReading.WordOf(heat.Source),
            growth,
            null,
            growth * scene.DurationSeconds,
            null,
            [
                .. modes.Resonances.Select(r => new NoiseParametricLine(
                    r.FirstHertz,
                    r.SecondHertz,
                    r.IsSum ? "sum" : "difference",
                    r.ListensHertz,
                    Density(r.ListensHertz),
                    r.GainPerSecondSquared * Density(r.ListensHertz)
                )),
            ]
        );
    }
}
