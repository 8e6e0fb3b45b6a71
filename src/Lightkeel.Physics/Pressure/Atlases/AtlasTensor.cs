using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Numbers of points of a fit: along the two coordinates, the third basis, and the inverse size of the beam.</summary>
internal readonly record struct AtlasOrders(int A, int B, int M, int W);

/// <summary>How large the last coefficients of a fit are in each coordinate, relative to the least force: what to refine.</summary>
internal readonly record struct AtlasTails(double A, double B, double M, double W)
{
    public double Worst => Math.Max(Math.Max(A, B), Math.Max(M, W));
}

/// <summary>Values at the points of a fit, then its coefficients, over w, m, b and a, some lanes each.</summary>
internal sealed class AtlasTensor
{
    // Sums of some thousand nodes that cancel leave this share of the force, with room.
    private const double Rounding = 1e-13;

    private readonly double[] _values;

    public AtlasTensor(AtlasOrders orders, int lanes)
    {
        (Orders, Lanes) = (orders, lanes);
        _values = new double[orders.W * orders.M * orders.B * orders.A * lanes];
    }

    public AtlasOrders Orders { get; }

    public int Lanes { get; }

    /// <summary>Least force among the points, by which misses are measured.</summary>
    public double Least { get; set; }

    public int Points => Orders.W * Orders.M * Orders.B * Orders.A;

    /// <summary>The lanes of one place.</summary>
    public Span<double> At(int l, int m, int j, int k) => At(((l * Orders.M + m) * Orders.B + j) * Orders.A + k);

    /// <summary>The lanes of one place by its number.</summary>
    public Span<double> At(int n) => _values.AsSpan(n * Lanes, Lanes);

    /// <summary>Indices of a place.</summary>
    public (int L, int M, int J, int K) Place(int n)
    {
        (int rest, int k) = Math.DivRem(n, Orders.A);
        (rest, int j) = Math.DivRem(rest, Orders.B);
        (int l, int m) = Math.DivRem(rest, Orders.M);
        return (l, m, j, k);
    }

    /// <summary>Chebyshev transform along w.</summary>
    public void TransformW() => Transform(Orders.W, Orders.M * Orders.B * Orders.A, 1);

    /// <summary>Chebyshev transforms along all coordinates.</summary>
    public void TransformAll()
    {
        TransformW();
        Transform(Orders.M, Orders.B * Orders.A, Orders.W);
        Transform(Orders.B, Orders.A, Orders.W * Orders.M);
        Transform(Orders.A, 1, Orders.W * Orders.M * Orders.B);
    }

    /// <summary>How large the last coefficients are.</summary>
    /// <param name="weights">Weights of the lanes.</param>
    /// <param name="perOrder">How many terms fewer a fit determines per order m: 1/2 where powers of the radius stand beside.</param>
    public AtlasTails Tails(double[] weights, double perOrder)
    {
        AtlasTails tails = default;
        for (int n = 0; n < Points; n++)
        {
            (int l, int m, int j, int k) = Place(n);
            double size = Size(At(n), weights) / Least;
            int fewer = (int)(perOrder * m);
            tails = new(
                Orders.A > 1 && k >= Orders.A - 2 - fewer ? Math.Max(tails.A, size) : tails.A,
                Orders.B > 1 && j >= Orders.B - 1 - fewer ? Math.Max(tails.B, size) : tails.B,
                Orders.M > 1 && m >= Orders.M - 1 ? Math.Max(tails.M, size) : tails.M,
                Orders.W > 1 && l >= Orders.W - 1 ? Math.Max(tails.W, size) : tails.W
            );
        }
        return tails;
    }

    /// <summary>Blocks of eight lanes over the terms in w, without trailing coefficients below a share of the least force.</summary>
    public AtlasBlock[][] Blocks(double[] weights, double cut)
    {
        AtlasBlock[][] groups = new AtlasBlock[Lanes / AtlasBlock.Lanes][];
        for (int g = 0; g < groups.Length; g++)
        {
            List<AtlasBlock> blocks = [];
            for (int l = 0; l < Orders.W; l++)
            {
                blocks.Add(Block(g, l, weights, cut * Least));
            }
            int last = blocks.FindLastIndex(b => b.Orders > 0);
            groups[g] = [.. blocks.Take(Math.Max(1, last + 1))];
        }
        return groups;
    }

    private AtlasBlock Block(int group, int l, double[] weights, double least)
    {
        int start = group * AtlasBlock.Lanes;
        ClearNoise(start, l, weights, Math.Max(Rounding * Least, 1e-6 * least));
        ReadOnlySpan<double> own = weights.AsSpan(start, AtlasBlock.Lanes);
        List<int> counts = [];
        List<double> coefficients = [];
        (int orders, int countsKept, int coefficientsKept) = (0, 0, 0);
        for (int m = 0; m < Orders.M; m++)
        {
            int[] terms = new int[Orders.B];
            for (int j = 0; j < Orders.B; j++)
            {
                int count = Orders.A;
                while (count > 0 && Size(At(l, m, j, count - 1).Slice(start, AtlasBlock.Lanes), own) < least)
                {
                    count--;
                }
                terms[j] = count;
            }
            // Trailing rows and orders without coefficients cost time for nothing.
            int rows = 1 + Array.FindLastIndex(terms, t => t > 0);
            counts.Add(rows);
            for (int j = 0; j < rows; j++)
            {
                counts.Add(terms[j]);
                for (int k = 0; k < terms[j]; k++)
                {
                    coefficients.AddRange(At(l, m, j, k).Slice(start, AtlasBlock.Lanes));
                }
            }
            if (rows > 0)
            {
                (orders, countsKept, coefficientsKept) = (m + 1, counts.Count, coefficients.Count);
            }
        }
        return new(orders, [.. counts.Take(countsKept)], [.. coefficients.Take(coefficientsKept)]);
    }

    // A quantity that symmetry makes zero (the torque on a mirror ball) comes from sums that cancel to rounding. As exact zeros
    // they cost a ride nothing; as noise they would turn the craft.
    private void ClearNoise(int start, int l, double[] weights, double noise)
    {
        int points = Orders.M * Orders.B * Orders.A;
        for (int lane = start; lane < start + AtlasBlock.Lanes; lane++)
        {
            double sum = 0;
            for (int n = l * points; n < (l + 1) * points; n++)
            {
                sum += weights[lane] * Math.Abs(At(n)[lane]);
            }
            for (int n = l * points; sum < noise && n < (l + 1) * points; n++)
            {
                At(n)[lane] = 0;
            }
        }
    }

    private static double Size(ReadOnlySpan<double> lanes, ReadOnlySpan<double> weights)
    {
        double size = 0;
        for (int i = 0; i < lanes.Length; i++)
        {
            size = Math.Max(size, weights[i] * Math.Abs(lanes[i]));
        }
        return size;
    }

    // n values a stride apart, for every group.
    private void Transform(int n, int stride, int groups)
    {
        if (n == 1)
        {
            return;
        }
        double[] line = new double[n];
        double[] series = new double[n];
        for (int g = 0; g < groups; g++)
        {
            for (int s = 0; s < stride * Lanes; s++)
            {
                int first = g * n * stride * Lanes + s;
                for (int i = 0; i < n; i++)
                {
                    line[i] = _values[first + i * stride * Lanes];
                }
                ChebyshevSeries.Transform(line, series);
                for (int i = 0; i < n; i++)
                {
                    _values[first + i * stride * Lanes] = series[i];
                }
            }
        }
    }
}
