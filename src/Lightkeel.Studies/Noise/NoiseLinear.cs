using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Stability;

namespace Lightkeel.Studies.Noise;

/// <summary>The motion of the linear modes under the noises of a design.</summary>
internal static class NoiseLinear
{
    private const int Times = 41;
    private const int Frequencies = 241;

    /// <summary>
    /// Mean time until the root of the summed squared offset amplitudes is the offset of loss, s; null without growth. Without power
    /// and width the square grows by a constant mean rate s, so its mean time to a level is the level over the rate, exactly
    /// (optional stopping). With them its action diffuses as D = sJ + (Γ/2) J² in one mode, and −1 = (D T′)′ gives
    /// (2/Γ) ln[(s + Γa²/2)/(s + Γa₀²/2)]: exact for one mode along one axis, an estimate with the fastest growth for more.
    /// </summary>
    public static double? ExitSeconds(NoiseScene scene, NoiseModes modes)
    {
        double rate = modes.Heating.Sum(h => h.SquareMetresPerSecond);
        double half = 0.5 * ParametricPerSecond(modes);
        double first = scene.Start.DistanceMetres * scene.Start.DistanceMetres;
        double last = scene.LostAtMetres * scene.LostAtMetres;
        if (!(last > first))
        {
            return null;
        }
        double slowest = rate + half * first;
        double seconds =
            half * last <= 1e-6 * rate ? (last - first) / rate : Math.Log((rate + half * last) / slowest) / half;
        return slowest > 0 && double.IsFinite(seconds) ? seconds : null;
    }

    /// <summary>Growth rate of the mean energy by all noises of power and width together, as far as it is known, 1/s.</summary>
    public static double ParametricPerSecond(NoiseModes modes) =>
        modes.Parametric.Sum(p => NoiseParametrics.GrowthOf(p) ?? 0)
        + modes
            .Parametric.Where(p => p.Modes is null)
            .Sum(p => modes.Heating.Where(h => h.Source == p.Source).Select(h => h.PerSecond).DefaultIfEmpty(0).Max());

    /// <summary>Root mean square offset and tilt against time: each mode grows or is damped on its own.</summary>
    public static IReadOnlyList<NoiseGrowthPoint> Growth(NoiseScene scene, NoiseModes modes)
    {
        if (modes.Modes.Count == 0)
        {
            return [];
        }
        double[] density =
        [
            .. modes.Modes.Select(
                (_, i) => modes.Heating.Where(h => h.Mode == i && h.SquareMetresPerSecond > 0).Sum(h => h.Density)
            ),
        ];
        return
        [
            .. Enumerable
                .Range(0, Times)
                .Select(k =>
                {
                    double t = scene.DurationSeconds * k / (Times - 1);
                    double offset = 0;
                    double tilt = 0;
                    for (int i = 0; i < density.Length; i++)
                    {
                        double grown = density[i] * Grown(modes.Modes[i].GrowthPerSecond, t);
                        offset += 0.5 * modes.Modes[i].OffsetGainPerSecondSquared * grown;
                        tilt += 0.5 * modes.Modes[i].TiltGainRadians * grown;
                    }
                    return new NoiseGrowthPoint(t, Math.Sqrt(offset), Math.Sqrt(tilt));
                })
                .TakeWhile(p => double.IsFinite(p.OffsetMetres) && double.IsFinite(p.TiltRadians)),
        ];
    }

    /// <summary>Gain of a wandering beam and the motion by the pointing noise of the design.</summary>
    public static IReadOnlyList<NoiseTransferPoint> Transfer(NoiseScene scene, NoiseModes modes)
    {
        if (modes.Modes.Count == 0)
        {
            return [];
        }
        double low = 0.03 * modes.Modes[0].FrequencyHertz;
        double high = 30 * modes.Modes[^1].FrequencyHertz;
        List<NoiseTransferPoint> points = [];
        WellNoise[] shakes = [.. scene.WellNoises.Where(n => n.Action == WellAction.Shake)];
        for (int i = 0; i < Frequencies; i++)
        {
            double f = low * Math.Pow(high / low, (double)i / (Frequencies - 1));
            if (ModalTransfer.At(modes.Model, f) is not { } transfer)
            {
                continue;
            }
            double gain = transfer.OffsetRatio.Magnitude;
            points.Add(
                new(f, gain, transfer.TiltPerMetre.Magnitude, gain * gain * shakes.Sum(n => n.Mean(f, 1e-3 * f)))
            );
        }
        return points;
    }

    // ∫ e^{2σ(t − u)} du.
    private static double Grown(double growth, double t)
    {
        double x = 2 * growth * t;
        return Math.Abs(x) < 1e-6 ? t * (1 + 0.5 * x) : t * (Math.Exp(x) - 1) / x;
    }
}
