using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Numerics.Sampling.Sensitivity;

/// <summary>Variance-based sensitivity of one output to each input, estimated from the rows of a design.</summary>
/// <remarks>
/// First order: mean of f(B) (f(A with input i from B) − f(A)) over the variance, Computer Physics Communications 181(2),
/// 259–270 (2010), doi:10.1016/j.cpc.2009.09.018. Total: half the mean square of f(A) − f(A with input i from B) over the
/// variance, Computer Physics Communications 117(1–2), 35–43 (1999), doi:10.1016/S0010-4655(98)00154-4. Intervals by
/// resampling the base points (percentiles); with Sobol' points they are too wide rather than too narrow.
/// </remarks>
public sealed class SobolIndices
{
    private readonly SensitivityIndex[] _inputs;

    private SobolIndices(double mean, double variance, SensitivityIndex[] inputs)
    {
        Mean = mean;
        Variance = variance;
        _inputs = inputs;
    }

    /// <summary>Mean of the output.</summary>
    public double Mean { get; }

    /// <summary>Variance of the output.</summary>
    public double Variance { get; }

    /// <summary>The indices, input by input.</summary>
    public ReadOnlySpan<SensitivityIndex> Inputs => _inputs;

    /// <summary>Estimates the indices.</summary>
    /// <param name="design">The design whose rows were run.</param>
    /// <param name="outputs">One finite output per row, in row order.</param>
    /// <param name="draws">Random numbers of the resampling.</param>
    /// <param name="confidence">Confidence of the intervals, strictly between 0 and 1.</param>
    /// <param name="resamples">Number of resamples, at least 100.</param>
    /// <exception cref="ArgumentException">The outputs are too few, not finite, or do not vary.</exception>
    public static SobolIndices Estimate(
        SensitivityDesign design,
        ReadOnlySpan<double> outputs,
        RandomDraws draws,
        double confidence = 0.95,
        int resamples = 1000
    )
    {
        Require.OpenFraction(confidence);
        Require.AtLeast(100, resamples);
        if (outputs.Length != design.RowCount)
        {
            throw new ArgumentException($"Give {design.RowCount} outputs, not {outputs.Length}.", nameof(outputs));
        }
        int d = design.InputCount;
        RunningMoments moments = BaseMoments(outputs, d + 2);
        double[] centred = Centred(outputs, moments.Mean);
        int[] every = [.. Enumerable.Range(0, design.BaseCount)];
        double[] estimate = new double[2 * d];
        if (!(moments.Variance > 0) || !Shares(centred, every, estimate))
        {
            throw new ArgumentException("The output does not vary, so no input has a share in it.", nameof(outputs));
        }
        double[][] spread = Resampled(centred, design.BaseCount, 2 * d, draws, resamples);
        SensitivityIndex[] inputs = new SensitivityIndex[d];
        for (int i = 0; i < d; i++)
        {
            inputs[i] = new SensitivityIndex(
                estimate[i],
                Percentiles(spread[i], confidence),
                estimate[d + i],
                Percentiles(spread[d + i], confidence)
            );
        }
        return new SobolIndices(moments.Mean, moments.Variance, inputs);
    }

    // Mean and variance over the two independent sets only.
    private static RunningMoments BaseMoments(ReadOnlySpan<double> outputs, int stride)
    {
        RunningMoments moments = default;
        for (int at = 0; at < outputs.Length; at += stride)
        {
            moments = moments.With(outputs[at]).With(outputs[at + 1]);
        }
        return moments;
    }

    // Taking off the mean first removes most of the scatter of the first-order estimate.
    private static double[] Centred(ReadOnlySpan<double> outputs, double mean)
    {
        double[] centred = new double[outputs.Length];
        for (int i = 0; i < outputs.Length; i++)
        {
            centred[i] = Require.Finite(outputs[i], nameof(outputs)) - mean;
        }
        return centred;
    }

    // First-order shares, then total shares; false when the chosen points do not vary.
    private static bool Shares(double[] f, ReadOnlySpan<int> chosen, Span<double> shares)
    {
        int d = shares.Length / 2;
        shares.Clear();
        double sum = 0;
        double squares = 0;
        foreach (int j in chosen)
        {
            ReadOnlySpan<double> row = f.AsSpan(j * (d + 2), d + 2);
            sum += row[0] + row[1];
            squares += row[0] * row[0] + row[1] * row[1];
            for (int i = 0; i < d; i++)
            {
                double change = row[2 + i] - row[0];
                shares[i] += row[1] * change;
                shares[d + i] += 0.5 * change * change;
            }
        }
        double n = chosen.Length;
        double variance = squares / (2 * n) - sum / (2 * n) * (sum / (2 * n));
        if (!(variance > 0))
        {
            return false;
        }
        for (int i = 0; i < shares.Length; i++)
        {
            shares[i] /= n * variance;
        }
        return true;
    }

    private static double[][] Resampled(double[] f, int baseCount, int width, RandomDraws draws, int resamples)
    {
        double[][] spread = new double[width][];
        for (int i = 0; i < width; i++)
        {
            spread[i] = new double[resamples];
        }
        int[] chosen = new int[baseCount];
        double[] shares = new double[width];
        for (int r = 0; r < resamples; r++)
        {
            for (int j = 0; j < baseCount; j++)
            {
                chosen[j] = (int)Math.BigMul(draws.Word((ulong)r, (ulong)j), (ulong)baseCount, out _);
            }
            if (!Shares(f, chosen, shares))
            {
                throw new ArgumentException("Too few base points vary for resampling; take more.", nameof(f));
            }
            for (int i = 0; i < width; i++)
            {
                spread[i][r] = shares[i];
            }
        }
        return spread;
    }

    private static ConfidenceInterval Percentiles(double[] values, double confidence)
    {
        Array.Sort(values);
        double tail = (1 - confidence) / 2;
        return new ConfidenceInterval(
            SampleQuantile.Estimate(values, tail),
            SampleQuantile.Estimate(values, 1 - tail),
            confidence
        );
    }
}
