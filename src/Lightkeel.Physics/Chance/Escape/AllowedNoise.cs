using Lightkeel.Numerics;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>The strongest spectrum of one kind that keeps the loss probability of a boost at a stated figure.</summary>
/// <param name="Action">What the noise does.</param>
/// <param name="WhiteDensity">Constant density at all frequencies, in the unit of the action squared per hertz.</param>
/// <param name="FrequenciesHertz">Frequencies of the mask, Hz.</param>
/// <param name="Densities">The mask: every spectrum below it, alone, loses the craft at most as often as the mask does.</param>
/// <param name="WhiteLossProbability">Loss probability under the white density, as solved.</param>
/// <remarks>
/// In the limit of weak noise the time to the loss scales with one over the density, so one solution gives a first density for any
/// figure; it is then found with the edge as the craft meets it (<see cref="EdgeCondition"/>), where the scaling does not hold. The mask is raised where orbits hardly listen: with c_n the share of line n in the energy that an orbit draws from
/// white noise, the mask at that line is at most white · 1/(√c_n Σ√c) (at the strongest line nearly white, at a weak one far above),
/// the least over all orbits with a line there, so that no orbit draws more energy than from white noise; then all of it is
/// scaled until its own loss probability, solved anew, is the stated one. Derived here.
/// </remarks>
public sealed record AllowedNoise(
    WellAction Action,
    double WhiteDensity,
    IReadOnlyList<double> FrequenciesHertz,
    IReadOnlyList<double> Densities,
    double WhiteLossProbability
)
{
    private const int Points = 97;
    private const double LowestShare = 0.03;
    private const double HighestShare = 20;
    private const double MostRaise = 1e3;
    private const int Neighbours = 2;
    private const double LargestLogarithm = 27.6;

    /// <summary>Finds the mask.</summary>
    /// <param name="escape">The averaged escape of the design; its noises do not matter, its well and start do.</param>
    /// <param name="action">What the noise does.</param>
    /// <param name="lossProbability">Loss probability allowed, strictly between 0 and 1.</param>
    /// <param name="durationSeconds">Length of the boost, s.</param>
    /// <returns>Null where this kind of noise does not move the craft from its start.</returns>
    public static AllowedNoise? Of(
        AveragedEscape escape,
        WellAction action,
        double lossProbability,
        double durationSeconds
    )
    {
        ArgumentNullException.ThrowIfNull(escape);
        Require.OpenFraction(lossProbability);
        Require.Positive(durationSeconds);
        double bottom = escape.Mesh.Well.FrequencyHertz;
        WellNoise white = new("white", action, new BandLimitedWhiteSpectrum(1, 1e4 * bottom));
        if (TimeOf(escape.Limit([white]), lossProbability) is not { } time || !(time > 0))
        {
            return null;
        }
        AveragedEscape near = escape.Under([white with { Factor = time / durationSeconds }]);
        if (FactorOf(near, lossProbability, durationSeconds) is not { } share)
        {
            return null;
        }
        double level = share * time / durationSeconds;
        double[] at =
        [
            .. Enumerable
                .Range(0, Points)
                .Select(i => bottom * LowestShare * Math.Pow(HighestShare / LowestShare, (double)i / (Points - 1))),
        ];
        double[] mask = [.. Raised(escape.Mesh, action, at).Select(m => m * level)];
        AveragedEscape under = escape.Under([new("mask", action, new TableSpectrum(at, mask))]);
        return FactorOf(under, lossProbability, durationSeconds) is { } scale
            ? new(
                action,
                level,
                at,
                [.. mask.Select(m => m * scale)],
                near.With([share]).LossBy(durationSeconds) ?? lossProbability
            )
            : null;
    }

    /// <summary>
    /// The factor of all densities together at which a craft is lost with a probability in a time; null where there is none below a
    /// million million, or it could not be solved.
    /// </summary>
    /// <param name="escape">The averaged escape.</param>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <param name="durationSeconds">Time, s.</param>
    public static double? FactorOf(AveragedEscape escape, double probability, double durationSeconds)
    {
        ArgumentNullException.ThrowIfNull(escape);
        Require.OpenFraction(probability);
        Require.Positive(durationSeconds);
        double[] ones = new double[escape.NoiseCount];
        double? Excess(double log)
        {
            Array.Fill(ones, Math.Exp(log));
            return escape.With(ones).LossBy(durationSeconds) is { } loss
                ? Math.Log(Math.Max(loss, 1e-13)) - Math.Log(probability)
                : null;
        }
        const double Step = 0.5;
        double at = 0;
        if (Excess(0) is not { } here)
        {
            return null;
        }
        double way = here > 0 ? -Step : Step;
        while (Math.Abs(at) < LargestLogarithm && Excess(at + way) is { } next)
        {
            if (next > 0 != here > 0)
            {
                return SignChange.Find(Excess, at, here, at + way, next, 1e-6) is { } log ? Math.Exp(log) : null;
            }
            (at, here, way) = (at + way, next, 2 * way);
        }
        return null;
    }

    /// <summary>The time by which a craft is lost with a probability, s; null where that could not be solved.</summary>
    /// <param name="escape">The averaged escape.</param>
    /// <param name="probability">Strictly between 0 and 1.</param>
    public static double? TimeOf(AveragedEscape escape, double probability)
    {
        ArgumentNullException.ThrowIfNull(escape);
        if (escape.MeanSeconds is not { } mean)
        {
            return null;
        }
        double? Excess(double log) =>
            escape.LossBy(Math.Exp(log)) is { } loss
                ? Math.Log(Math.Max(loss, 1e-13)) - Math.Log(Require.OpenFraction(probability))
                : null;
        double high = Math.Log(mean);
        double? top = Excess(high);
        for (int i = 0; i < 8 && top <= 0; i++)
        {
            high += 1;
            top = Excess(high);
        }
        double low = high;
        double? below = top;
        for (int i = 0; i < 12 && below > 0; i++)
        {
            low -= 1;
            below = Excess(low);
        }
        return top > 0 && below <= 0
            ? SignChange.Find(Excess, low, below.Value, high, top.Value, 1e-5) is { } log
                ? Math.Exp(log)
                : null
            : null;
    }

    // Over white at each frequency; where no orbit has a line, as its neighbours.
    private static double[] Raised(EscapeMesh mesh, WellAction action, double[] at)
    {
        double[] most = new double[at.Length];
        Array.Fill(most, double.PositiveInfinity);
        double perBin = (at.Length - 1) / Math.Log(at[^1] / at[0]);
        foreach ((double _, double _, double _, OrbitLines lines) in mesh.Orbits)
        {
            List<OrbitLine> chosen = lines.Of(action);
            double whole = chosen.Sum(l => l.Square * l.Rate * l.Rate);
            double roots = chosen.Sum(l => Math.Sqrt(l.Square) * Math.Abs(l.Rate)) / Math.Sqrt(whole);
            foreach (OrbitLine line in chosen)
            {
                double share = line.Square * line.Rate * line.Rate / whole;
                double place = perBin * Math.Log(Math.Abs(line.Rate) / (2 * Math.PI) / at[0]);
                double bound = 1 / (Math.Sqrt(share) * roots);
                // A line between two points of the mask binds both.
                foreach (int bin in (ReadOnlySpan<int>)[(int)Math.Floor(place), (int)Math.Ceiling(place)])
                {
                    if (bin >= 0 && bin < most.Length && bound < most[bin])
                    {
                        most[bin] = bound;
                    }
                }
            }
        }
        for (int i = 0; i < most.Length; i++)
        {
            most[i] = Math.Min(most[i], double.IsFinite(most[i]) ? MostRaise : most[i]);
        }
        int[] known = [.. Enumerable.Range(0, most.Length).Where(i => double.IsFinite(most[i]))];
        double[] filled =
        [
            .. Enumerable
                .Range(0, most.Length)
                .Select(i =>
                    double.IsFinite(most[i]) ? most[i]
                    : known.Length == 0 ? 1
                    : Math.Min(
                        most[known.LastOrDefault(k => k < i, known[0])],
                        most[known.FirstOrDefault(k => k > i, known[^1])]
                    )
                ),
        ];
        // Lines lie between those of the orbits that were looked at: each place is held down by its neighbours.
        return
        [
            .. filled.Select(
                (_, i) =>
                    filled
                        .AsSpan(Math.Max(0, i - Neighbours)..Math.Min(filled.Length, i + Neighbours + 1))
                        .ToArray()
                        .Min()
            ),
        ];
    }
}
