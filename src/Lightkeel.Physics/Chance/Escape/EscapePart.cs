using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>How an orbit that noise lifts to the edge of a well leaves through it.</summary>
public enum EdgeCondition
{
    /// <summary>
    /// The craft meets the edge once in a radial swing, at its greatest distance; an orbit that noise lifts over the edge and
    /// lowers again in between is held.
    /// </summary>
    /// <remarks>
    /// A walk of independent normal steps that is looked at step by step meets a barrier as a Brownian motion meets one that lies
    /// −ζ(1/2)/√2π = 0.5826 standard deviations of a step further out: Mathematical Finance 7, 325–349 (1997), doi:10.1111/1467-9965.00035.
    /// Here a step is what the noise changes in E − E(edge, L) over one radial swing beside the edge, of variance 2 D T_r. To that order the
    /// mean time T, and the probability to be held, at the edge itself are 0.5826 √(2 D T_r) times their slope across it. Derived here;
    /// shown by rides (ThreeWaysTests, and the benchmarks).
    /// </remarks>
    MetOnceASwing,

    /// <summary>The limit of weak noise: an orbit that touches the edge is lost.</summary>
    Absorbing,
}

/// <summary>What one noise contributes to the averaged equations.</summary>
/// <param name="Diffusion">Its diffusion as a form over the basis.</param>
/// <param name="SwingVariances">See <see cref="EscapeMesh.SwingVariances"/>.</param>
internal sealed record EscapePart(BlockTridiagonal Diffusion, double[] SwingVariances)
{
    // −ζ(1/2)/√2π.
    private const double Overshoot = 0.5825971579390106;

    // Relative to the usual conductance: holds the value at the edge at nothing.
    private const double Wide = 1e10;

    public static EscapePart[] Of(EscapeMesh mesh, IReadOnlyList<WellNoise> noises) =>
        [.. noises.Select(n => new EscapePart(mesh.Stiffness(n), mesh.SwingVariances(n)))];

    /// <summary>Flow through the edge over the value there, for each form of orbit.</summary>
    /// <remarks>
    /// The flow across the edge is (T_r/2π) |∂L/∂y| D T′ for each y; with T = 0.5826 √(2 D T_r) |T′| it is T times
    /// |∂L/∂y| √(2 D T_r)/(4π · 0.5826).
    /// </remarks>
    public static double[] ConductancesOf(EscapePart[] parts, double[] factors, EdgeCondition edge)
    {
        double scale = (edge == EdgeCondition.Absorbing ? Wide : 1) / (4 * Math.PI * Overshoot);
        return [.. VariancesOf(parts, factors).Select(v => scale * Math.Sqrt(v))];
    }

    /// <summary>Change of the conductances for a relative change of one noise's density.</summary>
    public static double[] ConductanceChanges(EscapePart[] parts, double[] factors, int index, EdgeCondition edge)
    {
        double[] whole = VariancesOf(parts, factors);
        double[] conductances = ConductancesOf(parts, factors, edge);
        return
        [
            .. conductances.Select(
                (c, k) =>
                    whole[k] > 0 && edge != EdgeCondition.Absorbing
                        ? 0.5 * c * factors[index] * parts[index].SwingVariances[k] / whole[k]
                        : 0
            ),
        ];
    }

    private static double[] VariancesOf(EscapePart[] parts, double[] factors) =>
        [
            .. Enumerable
                .Range(0, parts[0].SwingVariances.Length)
                .Select(k => parts.Select((p, i) => factors[i] * p.SwingVariances[k]).Sum()),
        ];
}
