using Lightkeel.Physics.Chance.Escape;

namespace Lightkeel.Studies.Noise;

/// <summary>What spectrum may be allowed, and what each noise of the design may take of it.</summary>
/// <param name="Masks">The mask of each kind of noise that moves the craft.</param>
/// <param name="Factors">For each noise of the design: by which factor its density alone may grow; null where it may not be told.</param>
/// <param name="WholeFactor">By which factor all noises together may grow; null where it may not be told.</param>
internal sealed record NoiseAllowance(
    IReadOnlyDictionary<WellAction, AllowedNoise> Masks,
    IReadOnlyList<double?> Factors,
    double? WholeFactor
)
{
    private const double LargestFactor = 1e12;

    public static NoiseAllowance Of(NoiseScene scene, NoiseEscape escape, NoiseInput input)
    {
        int count = scene.Sources.Count;
        AveragedEscape? own = escape.Averaged?.Fine;
        own ??= scene.Well.Well is { } well && count == 0 ? Bare(well, scene.Start) : null;
        if (own is null)
        {
            return new(new Dictionary<WellAction, AllowedNoise>(), new double?[count], null);
        }
        Dictionary<WellAction, AllowedNoise> masks = [];
        foreach (WellAction action in Enum.GetValues<WellAction>())
        {
            if (AllowedNoise.Of(own, action, input.LossProbability, scene.DurationSeconds) is { } mask)
            {
                masks[action] = mask;
            }
        }
        if (count == 0 || own.MeanSeconds is null)
        {
            return new(masks, new double?[count], null);
        }
        double? whole = AllowedNoise.FactorOf(own, input.LossProbability, scene.DurationSeconds);
        // Cheaper cells do for a factor.
        AveragedEscape coarse = escape.Averaged!.Coarse;
        return new(
            masks,
            [.. Enumerable.Range(0, count).Select(i => FactorOf(coarse, i, count, input, scene.DurationSeconds))],
            whole
        );
    }

    private static AveragedEscape? Bare(PlanarWell well, WellStart start) =>
        AveragedEscape.Of(
            well,
            [
                new(
                    "white",
                    WellAction.Shake,
                    new Numerics.Sampling.Spectra.BandLimitedWhiteSpectrum(1, 1e4 * well.FrequencyHertz)
                ),
            ],
            start
        );

    // The factor at which the loss probability of the boost is the one allowed, the others as they are; 0 where they alone lose more.
    private static double? FactorOf(AveragedEscape escape, int index, int count, NoiseInput input, double duration)
    {
        double Loss(double factor) =>
            escape.With([.. Enumerable.Range(0, count).Select(i => i == index ? factor : 1)]).LossBy(duration)
            ?? double.NaN;
        if (count > 1 && Loss(1e-9) > input.LossProbability)
        {
            return 0;
        }
        double low = 1e-9;
        double high = 1;
        while (Loss(high) < input.LossProbability)
        {
            low = high;
            high *= 10;
            if (high > LargestFactor)
            {
                return null;
            }
        }
        for (int i = 0; i < 40 && high / low > 1.01; i++)
        {
            double middle = Math.Sqrt(low * high);
            double loss = Loss(middle);
            if (double.IsNaN(loss))
            {
                return null;
            }
            (low, high) = loss < input.LossProbability ? (middle, high) : (low, middle);
        }
        return Math.Sqrt(low * high);
    }
}
