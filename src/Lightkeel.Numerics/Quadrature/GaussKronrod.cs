namespace Lightkeel.Numerics.Quadrature;

/// <summary>
/// A Gauss rule nested in its Kronrod extension on [−1, 1]: one set of function values gives an integral and, by the
/// difference of the two, a safe measure of its error. Shared and immutable.
/// </summary>
public sealed class GaussKronrod
{
    private static readonly GaussKronrod[] Pairs =
    [
        .. GaussKronrodData.Tables.Select(table => new GaussKronrod(table)),
    ];
    private readonly double[] _nodes;
    private readonly double[] _kronrod;
    private readonly double[] _gauss;

    private GaussKronrod(double[] half)
    {
        int rows = half.Length / 3;
        int count = 2 * rows - 1;
        (_nodes, _kronrod, _gauss) = (new double[count], new double[count], new double[count]);
        for (int i = 0; i < rows; i++)
        {
            (double x, double k, double g) = (half[3 * i], half[3 * i + 1], half[3 * i + 2]);
            (_nodes[rows - 1 + i], _kronrod[rows - 1 + i], _gauss[rows - 1 + i]) = (x, k, g);
            (_nodes[rows - 1 - i], _kronrod[rows - 1 - i], _gauss[rows - 1 - i]) = (-x, k, g);
        }
    }

    /// <summary>The pairs available, by increasing size: 15, 21, 31, 41, 51, 61 and 81 nodes.</summary>
    public static IReadOnlyList<GaussKronrod> All => Pairs;

    /// <summary>Number of nodes.</summary>
    public int Count => _nodes.Length;

    /// <summary>Nodes, increasing.</summary>
    public ReadOnlySpan<double> Nodes => _nodes;

    /// <summary>Weights of the Kronrod rule.</summary>
    public ReadOnlySpan<double> KronrodWeights => _kronrod;

    /// <summary>Weights of the nested Gauss rule, zero at the nodes it does not use.</summary>
    public ReadOnlySpan<double> GaussWeights => _gauss;
}
