using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// A region of a table: Chebyshev series in two coordinates a and b and in the inverse size w of the beam, times a basis that
/// the owner gives for the third. Empty where the accuracy was not reached.
/// </summary>
/// <remarks>
/// A beam of scale s has the irradiance w² I(w ρ), w = 1/s: entire in w for the usual profiles, and no logarithm is needed. Theory:
/// docs/theory/map-and-well.md.
/// </remarks>
internal sealed class AtlasPiece
{
    /// <summary>Room for every basis, more than the most terms of any fit: a fixed size costs the least.</summary>
    public const int MostTerms = 36;

    private readonly AtlasBlock[][] _groups;
    private readonly AtlasSpan _a;
    private readonly AtlasSpan _b;
    private readonly AtlasSpan _w;
    private readonly int _termsA;
    private readonly int _termsB;

    /// <param name="region">Where it holds.</param>
    /// <param name="groups">Eight quantities a group; for each the blocks over the terms in w. No group where it does not serve.</param>
    /// <param name="miss">Largest relative miss at its points of proof.</param>
    public AtlasPiece(AtlasRegion region, AtlasBlock[][] groups, double miss)
    {
        (Region, _groups, Miss) = (region, groups, miss);
        (_a, _b, _w) = (new(region.A0, region.A1), new(region.B0, region.B1), new(region.W0, region.W1));
        IEnumerable<AtlasBlock> blocks = groups.SelectMany(g => g);
        _termsA = Math.Max(2, blocks.Select(b => b.TermsA).DefaultIfEmpty(0).Max());
        _termsB = Math.Max(2, blocks.Select(b => b.TermsB).DefaultIfEmpty(0).Max());
        Orders = Math.Max(2, blocks.Select(b => b.Orders).DefaultIfEmpty(0).Max());
        IsLine = groups.Length > 0 && groups.All(g => g.Length == 1 && g[0].IsLine);
        Coefficients = blocks.Sum(b => b.Coefficients.Length) / AtlasBlock.Lanes;
    }

    public AtlasRegion Region { get; }

    public double Miss { get; }

    /// <summary>Terms that the third basis must have, 2 or more.</summary>
    public int Orders { get; }

    public int Coefficients { get; }

    /// <summary>Whether it is a series in a alone.</summary>
    public bool IsLine { get; }

    public bool Serves => _groups.Length > 0;

    /// <summary>Groups of blocks, for writing.</summary>
    public IReadOnlyList<IReadOnlyList<AtlasBlock>> Groups => _groups;

    /// <summary>The only block of a piece for the beam of designed size.</summary>
    public AtlasBlock Plain => _groups[0][0];

    /// <summary>The first eight quantities.</summary>
    [SkipLocalsInit]
    public Vector512<double> Value(double a, double b, ReadOnlySpan<double> inM, double w)
    {
        Span<double> inA = stackalloc double[MostTerms];
        Span<double> inB = stackalloc double[MostTerms];
        ChebyshevBasis.Fill(inA, _termsA, _a.Unit(a));
        ChebyshevBasis.Fill(inB, _termsB, _b.Unit(b));
        return Sum(_groups[0], inA, inB, inM, w);
    }

    /// <summary>The first eight quantities of a series in a alone.</summary>
    public Vector512<double> ValueOnLine(double a) => _groups[0][0].ValueOnLine(_a.Unit(a));

    /// <summary>Sixteen quantities of a series in a alone.</summary>
    public (Vector512<double> First, Vector512<double> Second) PairOnLine(double a)
    {
        double t = _a.Unit(a);
        return (_groups[0][0].ValueOnLine(t), _groups[1][0].ValueOnLine(t));
    }

    /// <summary>Sixteen quantities.</summary>
    [SkipLocalsInit]
    public (Vector512<double> First, Vector512<double> Second) Pair(
        double a,
        double b,
        ReadOnlySpan<double> inM,
        double w
    )
    {
        Span<double> inA = stackalloc double[MostTerms];
        Span<double> inB = stackalloc double[MostTerms];
        ChebyshevBasis.Fill(inA, _termsA, _a.Unit(a));
        ChebyshevBasis.Fill(inB, _termsB, _b.Unit(b));
        return (Sum(_groups[0], inA, inB, inM, w), Sum(_groups[1], inA, inB, inM, w));
    }

    private Vector512<double> Sum(
        AtlasBlock[] blocks,
        ReadOnlySpan<double> inA,
        ReadOnlySpan<double> inB,
        ReadOnlySpan<double> inM,
        double w
    )
    {
        if (blocks.Length == 1)
        {
            return blocks[0].Value(inA, inB, inM);
        }
        double t = _w.Unit(w);
        (double before, double here) = (t, 1);
        Vector512<double> sum = Vector512<double>.Zero;
        for (int l = 0; l < blocks.Length; l++)
        {
            sum = Vector512.FusedMultiplyAdd(blocks[l].Value(inA, inB, inM), Vector512.Create(here), sum);
            (before, here) = (here, l == 0 ? t : 2 * t * here - before);
        }
        return sum;
    }
}

/// <summary>Where a piece holds: ranges of its two coordinates and of the inverse size of the beam.</summary>
internal readonly record struct AtlasRegion(double A0, double A1, double B0, double B1, double W0, double W1)
{
    /// <summary>Whether a place lies in it.</summary>
    public bool Holds(double a, double b, double w) => a >= A0 && a <= A1 && b >= B0 && b <= B1 && w >= W0 && w <= W1;
}

/// <summary>An interval and the map from it to [−1, 1]; a single point maps to 0.</summary>
internal readonly struct AtlasSpan(double start, double end)
{
    private readonly double _scale = end > start ? 2 / (end - start) : 0;
    private readonly double _shift = end > start ? -(start + end) / (end - start) : 0;

    /// <summary>Derivative of the map.</summary>
    public double Scale => _scale;

    public double Unit(double x) => _scale * x + _shift;
}

/// <summary>Chebyshev polynomials at a place.</summary>
internal static class ChebyshevBasis
{
    // Four chains side by side, T_k = 2 T_4 T_{k−4} − T_{|k−8|}, so that no step waits for the one before. Room for five is needed.
    public static void Fill(Span<double> basis, int terms, double t)
    {
        double second = 2 * t * t - 1;
        double third = t * (2 * second - 1);
        double fourth = 2 * second * second - 1;
        basis[4] = fourth;
        basis[3] = third;
        basis[2] = second;
        basis[1] = t;
        basis[0] = 1;
        double twice = 2 * fourth;
        for (int k = 5; k < terms; k++)
        {
            basis[k] = Math.FusedMultiplyAdd(twice, basis[k - 4], -basis[Math.Abs(k - 8)]);
        }
    }

    // Derivatives by the recurrence T'_{k+1} = 2 T_k + 2 t T'_k − T'_{k−1}, times the inner one.
    public static void FillSlopes(Span<double> slopes, ReadOnlySpan<double> basis, int terms, double t, double inner)
    {
        slopes[0] = 0;
        slopes[1] = inner;
        for (int k = 2; k < terms; k++)
        {
            slopes[k] = 2 * inner * basis[k - 1] + 2 * t * slopes[k - 1] - slopes[k - 2];
        }
    }
}
