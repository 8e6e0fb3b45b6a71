using System.Runtime.Intrinsics;

namespace Lightkeel.Numerics.Integration;

/// <summary>
/// The eight nodes of Gauss on [−1, 1], and what collocation at them needs: how rates at the nodes give states there, and their
/// series in Legendre polynomials.
/// </summary>
internal static class GaussNodes
{
    /// <summary>Number of nodes, and of terms.</summary>
    public const int Count = 8;

    static GaussNodes()
    {
        double[] x = new double[Count];
        double[] weights = new double[Count];
        for (int i = 0; i < Count; i++)
        {
            (x[i], weights[i]) = Node(i);
        }
        Nodes = Vector512.Create(x);
        Transform = new Vector512<double>[Count];
        Integrals = new Vector512<double>[Count];
        double[][] inNodes = [.. x.Select(Legendre)];
        double[][] integrals = [.. inNodes.Select((p, i) => IntegralsAt(p, x[i]))];
        for (int j = 0; j < Count; j++)
        {
            // c_k = (2k + 1)/2 Σ_j w_j P_k(x_j) f_j
            Transform[j] = Lanes(k => 0.5 * (2 * k + 1) * weights[j] * inNodes[j][k]);
            // ∫ from −1 to x_i of the Lagrange polynomial of node j
            Integrals[j] = Lanes(i =>
                Enumerable.Range(0, Count).Sum(k => 0.5 * (2 * k + 1) * weights[j] * inNodes[j][k] * integrals[i][k])
            );
        }
    }

    /// <summary>The nodes.</summary>
    public static Vector512<double> Nodes { get; }

    /// <summary>For node j what its value adds to each coefficient of the series, lane k for P_k.</summary>
    public static Vector512<double>[] Transform { get; }

    /// <summary>For node j what its value adds to the integral from −1 to each node, lane i for node i.</summary>
    public static Vector512<double>[] Integrals { get; }

    /// <summary>∫ P_k from −1 to x, k = 0 … 7: (P_{k+1} − P_{k−1})/(2k + 1).</summary>
    public static void Fill(Span<double> integrals, double x)
    {
        (double before, double here) = (1, x);
        integrals[0] = x + 1;
        for (int k = 1; k < Count; k++)
        {
            double next = ((2 * k + 1) * x * here - k * before) / (k + 1);
            integrals[k] = (next - before) / (2 * k + 1);
            (before, here) = (here, next);
        }
    }

    private static double[] IntegralsAt(double[] p, double x)
    {
        double[] integrals = new double[Count];
        for (int k = 0; k < Count; k++)
        {
            integrals[k] = k == 0 ? x + 1 : (p[k + 1] - p[k - 1]) / (2 * k + 1);
        }
        return integrals;
    }

    // P_0 … P_8.
    private static double[] Legendre(double x)
    {
        double[] p = new double[Count + 1];
        (p[0], p[1]) = (1, x);
        for (int k = 1; k < Count; k++)
        {
            p[k + 1] = ((2 * k + 1) * x * p[k] - k * p[k - 1]) / (k + 1);
        }
        return p;
    }

    // Newton's iteration on P_8 from the usual guess.
    private static (double X, double Weight) Node(int i)
    {
        double x = -Math.Cos(Math.PI * (i + 0.75) / (Count + 0.5));
        double slope = 0;
        for (int turn = 0; turn < 10; turn++)
        {
            double[] p = Legendre(x);
            slope = Count * (x * p[Count] - p[Count - 1]) / (x * x - 1);
            x -= p[Count] / slope;
        }
        return (x, 2 / ((1 - x * x) * slope * slope));
    }

    private static Vector512<double> Lanes(Func<int, double> lane) =>
        Vector512.Create([.. Enumerable.Range(0, Count).Select(lane)]);
}
