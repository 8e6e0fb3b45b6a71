using Lightkeel.Numerics;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>Averaged escape on two meshes: the answer extrapolated to fine cells, and how much that is worth.</summary>
/// <param name="Fine">The finer of the two.</param>
/// <param name="Coarse">The one with half of its cells.</param>
/// <param name="FormErrorFraction">What two fewer polynomials in the form of the orbits change in the mean time, relative.</param>
public sealed record EscapeEstimate(AveragedEscape Fine, AveragedEscape Coarse, double FormErrorFraction)
{
    private const int FewerForms = 4;

    /// <summary>Mean time to the loss, s; null where there is none.</summary>
    public double? MeanSeconds =>
        Fine.MeanSeconds is { } fine && Coarse.MeanSeconds is { } coarse ? fine + (fine - coarse) / 3 : null;

    /// <summary>Estimated error of the mean time, s; null where there is none.</summary>
    public double? MeanErrorSeconds =>
        Fine.MeanSeconds is { } fine && Coarse.MeanSeconds is { } coarse
            ? Math.Abs(fine - coarse) / 3 + FormErrorFraction * fine
            : null;

    /// <summary>Probability of a loss by a time, with its estimated error; null where it could not be solved.</summary>
    /// <param name="seconds">Time, s, above zero.</param>
    /// <remarks>
    /// Small probabilities are extrapolated by their logarithm, in which the error of the mesh is even. Below 1e-9 the fine
    /// mesh alone is taken, whose rounding is about 1e-11.
    /// </remarks>
    public (double Probability, double Error)? LossBy(double seconds)
    {
        if (Fine.LossBy(seconds) is not { } fine || Coarse.LossBy(seconds) is not { } coarse)
        {
            return null;
        }
        if (!(fine > 1e-9 && coarse > 1e-9))
        {
            return (fine, Math.Max(Math.Abs(fine - coarse), 1e-11));
        }
        double probability = fine * Math.Pow(fine / coarse, 1.0 / 3);
        return (Math.Min(1, probability), Math.Abs(Math.Min(1, probability) - fine));
    }

    /// <summary>Solves on two meshes.</summary>
    /// <param name="well">The well.</param>
    /// <param name="noises">The noises, one or more.</param>
    /// <param name="start">Where the craft starts.</param>
    /// <param name="cells">Cells of the finer mesh, 32 or more, even.</param>
    /// <param name="threads">Threads that may work at once; results do not depend on it.</param>
    /// <param name="edge">How the edge is met.</param>
    /// <returns>Null where the start is not bound.</returns>
    public static EscapeEstimate? Of(
        PlanarWell well,
        IReadOnlyList<WellNoise> noises,
        WellStart start,
        int cells = 128,
        int threads = 1,
        EdgeCondition edge = EdgeCondition.MetOnceASwing
    )
    {
        Require.AtLeast(32, cells);
        if (
            AveragedEscape.Of(well, noises, start, cells, threads, edge) is not { } fine
            || AveragedEscape.Of(well, noises, start, cells / 2, threads, edge) is not { } coarse
        )
        {
            return null;
        }
        double form =
            coarse.MeanSeconds is { } mean && coarse.Fewer(FewerForms, noises).MeanSeconds is { } fewer
                ? Math.Abs(fewer / mean - 1)
                : 0;
        return new(fine, coarse, form);
    }
}
