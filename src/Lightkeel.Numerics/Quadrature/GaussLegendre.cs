using System.Collections.Concurrent;
using MathNet.Numerics.Integration;

namespace Lightkeel.Numerics.Quadrature;

/// <summary>Gauss-Legendre rule on [−1, 1]: exact for polynomials up to degree 2n − 1. Shared and immutable.</summary>
public sealed class GaussLegendre
{
    private static readonly ConcurrentDictionary<int, GaussLegendre> Rules = new();
    private readonly double[] _nodes;
    private readonly double[] _weights;

    private GaussLegendre(int count)
    {
        GaussLegendreRule rule = new(-1, 1, count);
        _nodes = [.. rule.Abscissas];
        _weights = [.. rule.Weights];
        Array.Sort(_nodes, _weights);
    }

    /// <summary>Number of nodes.</summary>
    public int Count => _nodes.Length;

    /// <summary>Nodes, increasing, inside (−1, 1).</summary>
    public ReadOnlySpan<double> Nodes => _nodes;

    /// <summary>Weights; they sum to 2.</summary>
    public ReadOnlySpan<double> Weights => _weights;

    /// <summary>The rule with the given number of nodes, 1 … 512.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The count is outside its range.</exception>
    public static GaussLegendre Order(int count)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, 512);
        return Rules.GetOrAdd(count, static n => new(n));
    }

    /// <summary>Integral of a function over an interval by one application of the rule.</summary>
    public double Integrate(Func<double, double> function, double start, double end)
    {
        double half = 0.5 * (end - start);
        double middle = 0.5 * (end + start);
        double sum = 0;
        for (int i = 0; i < _nodes.Length; i++)
        {
            sum += _weights[i] * function(middle + half * _nodes[i]);
        }
        return half * sum;
    }
}
