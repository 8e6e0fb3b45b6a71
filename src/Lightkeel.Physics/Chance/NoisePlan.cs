using Lightkeel.Numerics;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Synthesis;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Physics.Chance;

/// <summary>Something that the drawn courses of a noise do not show.</summary>
/// <param name="Code"><c>noise-cut</c> for variance above the highest frequency, <c>noise-shape</c> for details too fine, <c>noise-clipped</c> for power below none.</param>
/// <param name="Text">What and how much, in a sentence.</param>
public sealed record NoiseCaution(string Code, string Text);

/// <summary>A noise as rides will meet it: cut at a highest frequency and ready to be drawn.</summary>
/// <param name="Source">The noise as it was asked for.</param>
/// <param name="CutHertz">Highest frequency that the rides meet, Hz.</param>
/// <param name="LostFraction">Share of the variance above it, left out.</param>
/// <param name="Cautions">What the drawn courses do not show; empty when all is well.</param>
public sealed record PreparedNoise(
    NoiseSource Source,
    double CutHertz,
    double LostFraction,
    IReadOnlyList<NoiseCaution> Cautions
)
{
    internal PeriodicNoise Blocks { get; init; } = null!;

    internal NoiseTrack Track(ulong seed, ulong ride, string axis) =>
        new(Blocks, new RandomDraws(seed, ride, $"noise.{Source.Name}{axis}"));
}

/// <summary>
/// Everything that disturbs the rides of a design, prepared once: ride number k of a seed meets the same courses wherever,
/// whenever and beside whatever other rides it is flown. Immutable; safe to share between threads.
/// </summary>
public sealed class NoisePlan
{
    /// <summary>Share of the variance that may be cut off a spectrum whose skirts never end.</summary>
    public const double CutFraction = 1e-3;

    private const int ShortestBlock = 4096;
    private const int LongestBlock = 1 << 18;
    private const double SmallestLoss = 1e-12;

    // Four standard deviations below nominal are no light: 3e-5 of the time.
    private const double LargestPowerNoise = 0.25;
    private readonly double _craftRadius;

    private NoisePlan(IReadOnlyList<PreparedNoise> noises, IReadOnlyList<DropOut> dropOuts, double craftRadius) =>
        (Noises, DropOuts, _craftRadius) = (noises, dropOuts, craftRadius);

    /// <summary>The noises that have any variance.</summary>
    public IReadOnlyList<PreparedNoise> Noises { get; }

    /// <summary>The drop-outs.</summary>
    public IReadOnlyList<DropOut> DropOuts { get; }

    /// <summary>Highest frequency of all noises, Hz; 0 without noise.</summary>
    public double HighestHertz => Noises.Count == 0 ? 0 : Noises.Max(n => n.CutHertz);

    /// <summary>Prepares the noises.</summary>
    /// <param name="sources">The noises, with different names; those without variance are left out.</param>
    /// <param name="dropOuts">The drop-outs.</param>
    /// <param name="craftRadiusMetres">Largest radius of the craft, m: the unit of its imbalance.</param>
    /// <param name="limitHertz">
    /// Cut for spectra whose skirts never end, Hz; null to cut each where <see cref="CutFraction"/> of its variance lies
    /// above. Spectra that end by themselves keep their end.
    /// </param>
    /// <exception cref="ArgumentException">A number is out of range, or two noises share a name.</exception>
    public static NoisePlan Of(
        IReadOnlyList<NoiseSource> sources,
        IReadOnlyList<DropOut> dropOuts,
        double craftRadiusMetres,
        double? limitHertz = null
    )
    {
        ArgumentNullException.ThrowIfNull(sources);
        ArgumentNullException.ThrowIfNull(dropOuts);
        Require.Positive(craftRadiusMetres);
        if (sources.GroupBy(s => s.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException(
                $"Two noises are called \"{twice.Key}\": their courses would be the same. Give each a name of its own.",
                nameof(sources)
            );
        }
        return new(
            [.. sources.Where(s => s.Spectrum.TotalVariance > 0).Select(s => Prepare(s, limitHertz))],
            dropOuts,
            craftRadiusMetres
        );
    }

    /// <summary>The beam of one ride.</summary>
    /// <param name="seed">The study's seed.</param>
    /// <param name="ride">Number of the ride.</param>
    public IBeamDisturbance BeamOf(ulong seed, ulong ride)
    {
        PreparedNoise[] ofBeam = [.. Noises.Where(n => n.Source.IsOfBeam)];
        return ofBeam.Length == 0 && DropOuts.Count == 0
            ? new SteadyBeam()
            : new NoisyBeam(ofBeam, DropOuts, seed, ride);
    }

    /// <summary>The imbalance of one ride; null when there is none.</summary>
    /// <param name="seed">The study's seed.</param>
    /// <param name="ride">Number of the ride.</param>
    public IImbalance? ImbalanceOf(ulong seed, ulong ride)
    {
        PreparedNoise[] ofCraft = [.. Noises.Where(n => !n.Source.IsOfBeam)];
        return ofCraft.Length == 0 ? null : new NoisyBalance(ofCraft, _craftRadius, seed, ride);
    }

    private static PreparedNoise Prepare(NoiseSource source, double? limitHertz)
    {
        PowerSpectralDensity whole = source.Spectrum;
        double cut =
            double.IsFinite(whole.HighestHertz) ? whole.HighestHertz
            : limitHertz is { } limit ? Require.Positive(limit)
            : FrequencyAbove(whole, CutFraction);
        CutSpectrum left = new(whole, cut);
        double step = 1 / (NoiseTrack.SamplesPerPeriod * cut);
        double finest = left.FinestDetailHertz;
        int length = finest > 0 ? PeriodicNoise.SuggestedLength(left, step, LongestBlock) : LongestBlock;
        PeriodicNoise blocks = new(left, step, Math.Max(ShortestBlock, length));
        double lost = left.LostFraction;
        List<NoiseCaution> cautions = [];
        if (lost > SmallestLoss)
        {
            cautions.Add(
                new(
                    "noise-cut",
                    FormattableString.Invariant(
                        $"{100 * lost:G3} % of the variance of this noise lies above {cut:G4} Hz and is left out; a shorter step keeps more of it."
                    )
                )
            );
        }
        double rms = left.TotalRootMeanSquare;
        if (source.Quantity == NoiseQuantity.Power && rms > LargestPowerNoise)
        {
            cautions.Add(
                new(
                    "noise-clipped",
                    FormattableString.Invariant(
                        $"The root mean square of this noise is {100 * rms:G3} % of the power: where it asks for less than none there is none, so the mean power is above the nominal one."
                    )
                )
            );
        }
        cautions.AddRange(blocks.Coverage.Warnings(CutFraction).Select(w => new NoiseCaution("noise-shape", w)));
        return new(source, cut, lost, cautions) { Blocks = blocks };
    }

    // Where a fraction of the variance lies above, by halving the logarithm.
    private static double FrequencyAbove(PowerSpectralDensity spectrum, double fraction)
    {
        double allowed = fraction * spectrum.TotalVariance;
        double above = Math.Max(spectrum.LowestHertz, 1e-9);
        double below = 1e12;
        while (below / above > 1 + 1e-9)
        {
            double middle = Math.Sqrt(above * below);
            bool much = spectrum.Variance(middle, double.PositiveInfinity) > allowed;
            (above, below) = much ? (middle, below) : (above, middle);
        }
        return below;
    }
}
