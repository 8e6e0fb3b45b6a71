using System.Numerics;
using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>Where a craft in a well starts.</summary>
/// <param name="DistanceMetres">Distance from the middle, m.</param>
/// <param name="RadialMetresPerSecond">Speed outward, m/s.</param>
/// <param name="TurnMetresPerSecond">Speed across, m/s.</param>
public readonly record struct WellStart(
    double DistanceMetres,
    double RadialMetresPerSecond,
    double TurnMetresPerSecond
);

/// <summary>How long weak noise leaves a craft in a round well: stochastic averaging over its orbits.</summary>
/// <remarks>
/// <para>
/// Energy E and angular momentum L of the orbit change slowly and diffuse (<see cref="OrbitDiffusion"/>). With g = T_r/2π, the
/// volume of the angles and of time over dE dL, the mean time T to the loss obeys −1 = (1/g) ∂_a (g D_ab ∂_b T), T = 0 where the
/// orbit leaves, no flow across circles and through L = 0; the probability to be held longer than t obeys the same
/// equation in time. Solved by Galerkin's method on (s, y), see <see cref="OrbitPlane"/>; in time exactly, by the inverse
/// Laplace transform on a Talbot contour (SIAM Journal on Numerical Analysis 44, 2342–2365 (2006), doi:10.1137/050625837).
/// How the edge is met: <see cref="EdgeCondition"/>.
/// </para>
/// <para>
/// Assumes: noise weak enough that an orbit changes little while it turns and while the noise forgets; a well that is
/// round and steady; no damping (that of light is too weak to matter: see the theory page). Immutable; safe to share.
/// </para>
/// </remarks>
public sealed class AveragedEscape
{
    private const int ContourPoints = 24;
    private readonly EscapeMesh _mesh;
    private readonly EscapePart[] _parts;
    private readonly BlockTridiagonal _whole;
    private readonly double[] _start;
    private readonly (double Share, double Form) _at;
    private readonly EdgeCondition _edge;

    private AveragedEscape(
        EscapeMesh mesh,
        EscapePart[] parts,
        double[] factors,
        (double Share, double Form) at,
        EdgeCondition edge
    )
    {
        (_mesh, _parts, _at, _edge) = (mesh, parts, at, edge);
        _start = mesh.BasisAt(at.Share, at.Form);
        _whole = BlockTridiagonal.Sum([.. parts.Select((p, i) => (p.Diffusion, factors[i]))]);
        mesh.AddEdge(_whole, EscapePart.ConductancesOf(parts, factors, edge));
        Complex[]? times = BlockTridiagonal.Solve(_whole, 1, null, 0, mesh.Volume);
        double mean = times is null ? double.NaN : Value(times);
        MeanSeconds = mean > 0 && double.IsFinite(mean) ? mean : null;
        Shares = MeanSeconds is null ? [] : SharesOf(times!, mean, factors);
    }

    /// <summary>Mean time to the loss from the start, s; null where some orbits draw nothing from the noise and stop the way out.</summary>
    public double? MeanSeconds { get; }

    /// <summary>
    /// Share of each noise: the relative fall of the mean time for a relative rise of its density, over that for a rise of all
    /// together. They add up to one.
    /// </summary>
    public IReadOnlyList<double> Shares { get; }

    /// <summary>Probability that the craft is lost by a time.</summary>
    /// <param name="seconds">Time, s, above zero.</param>
    /// <returns>To about 1e-11 of one; null where the equations could not be solved.</returns>
    public double? LossBy(double seconds)
    {
        if (HeldBy(seconds) is not { } held)
        {
            return null;
        }
        double sum = 0;
        for (int i = 0; i < _start.Length; i++)
        {
            sum += _start[i] * held[i];
        }
        return double.IsFinite(sum) ? Math.Clamp(1 - sum, 0, 1) : null;
    }

    /// <summary>Probability to be held by a time from every orbit, as coefficients of the basis; null where it could not be had.</summary>
    internal double[]? HeldBy(double seconds)
    {
        Require.Positive(seconds);
        double[] held = new double[_start.Length];
        for (int k = 0; k < ContourPoints / 2; k++)
        {
            double angle = (2 * k + 1) * Math.PI / ContourPoints;
            double cotangent = 1 / Math.Tan(0.6407 * angle);
            Complex z = ContourPoints * new Complex(-0.6122 + 0.5017 * angle * cotangent, 0.2645 * angle);
            double slope = 0.5017 * cotangent - 0.5017 * 0.6407 * angle * (1 + cotangent * cotangent);
            Complex weight = Complex.Exp(z) * ContourPoints * new Complex(slope, 0.2645) / Complex.ImaginaryOne;
            if (BlockTridiagonal.Solve(_whole, seconds, _mesh.Mass, z, _mesh.Volume) is not { } found)
            {
                return null;
            }
            for (int i = 0; i < held.Length; i++)
            {
                held[i] += 2.0 / ContourPoints * (weight * found[i]).Real;
            }
        }
        return held;
    }

    /// <summary>The same well and start under the same noises with other strengths; costs no orbits.</summary>
    /// <param name="factors">Factors of the densities, one for each noise, zero or more, one of them above zero.</param>
    public AveragedEscape With(IReadOnlyList<double> factors) => new(_mesh, _parts, [.. factors], _at, _edge);

    /// <summary>The same well and start under other noises; costs no orbits.</summary>
    /// <param name="noises">The noises, one or more.</param>
    public AveragedEscape Under(IReadOnlyList<WellNoise> noises) => On(_mesh, noises);

    /// <summary>The same well and start under other noises in the limit of weak noise.</summary>
    internal AveragedEscape Limit(IReadOnlyList<WellNoise> noises) =>
        new(_mesh, EscapePart.Of(_mesh, noises), [.. noises.Select(_ => 1.0)], _at, EdgeCondition.Absorbing);

    /// <summary>How many noises there are.</summary>
    public int NoiseCount => _parts.Length;

    /// <summary>The same on fewer polynomials in the form of the orbits: shows what these are worth.</summary>
    internal AveragedEscape Fewer(int degrees, IReadOnlyList<WellNoise> noises) => On(_mesh.Fewer(degrees), noises);

    private AveragedEscape On(EscapeMesh mesh, IReadOnlyList<WellNoise> noises) =>
        new(mesh, EscapePart.Of(mesh, noises), [.. noises.Select(_ => 1.0)], _at, _edge);

    /// <summary>The orbits that were averaged over.</summary>
    internal EscapeMesh Mesh => _mesh;

    /// <summary>Solves the averaged equations of a well.</summary>
    /// <param name="well">The well.</param>
    /// <param name="noises">The noises, one or more.</param>
    /// <param name="start">Where the craft starts.</param>
    /// <param name="cells">Cells of the mesh from the middle to the edge, 16 or more.</param>
    /// <param name="threads">Threads that may work at once; results do not depend on it.</param>
    /// <param name="edge">How the edge is met.</param>
    /// <returns>Null where the start is not bound.</returns>
    public static AveragedEscape? Of(
        PlanarWell well,
        IReadOnlyList<WellNoise> noises,
        WellStart start,
        int cells = 128,
        int threads = 1,
        EdgeCondition edge = EdgeCondition.MetOnceASwing
    )
    {
        ArgumentNullException.ThrowIfNull(well);
        ArgumentNullException.ThrowIfNull(noises);
        Require.AtLeast(16, cells);
        Require.AtLeast(1, noises.Count);
        OrbitPlane plane = new(well);
        if (plane.Locate(start.DistanceMetres, start.RadialMetresPerSecond, start.TurnMetresPerSecond) is not { } at)
        {
            return null;
        }
        EscapeMesh mesh = EscapeMesh.Build(well, cells, threads);
        return new(mesh, EscapePart.Of(mesh, noises), [.. noises.Select(_ => 1.0)], at, edge);
    }

    private double Value(Complex[] x)
    {
        double sum = 0;
        for (int i = 0; i < x.Length; i++)
        {
            sum += _start[i] * x[i].Real;
        }
        return sum;
    }

    private double[] SharesOf(Complex[] times, double mean, double[] factors)
    {
        Complex[]? adjoint = BlockTridiagonal.Solve(_whole, 1, null, 0, _start);
        if (adjoint is null)
        {
            return [.. factors.Select(_ => 0.0)];
        }
        double[] u = [.. times.Select(t => t.Real)];
        double[] falls =
        [
            .. _parts.Select(
                (_, i) =>
                {
                    BlockTridiagonal change = BlockTridiagonal.Sum([(_parts[i].Diffusion, factors[i])]);
                    _mesh.AddEdge(change, EscapePart.ConductanceChanges(_parts, factors, i, _edge));
                    return change.Times(u).Select((x, j) => x * adjoint[j].Real).Sum() / mean;
                }
            ),
        ];
        double whole = falls.Sum();
        return [.. falls.Select(f => f / whole)];
    }
}
