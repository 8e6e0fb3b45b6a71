namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>One-dimensional elements with Lagrange polynomials on Chebyshev points, and the parts of their matrices.</summary>
internal static class LagrangeElement
{
    /// <summary>Nodes of elements of equal width, neighbours sharing their end.</summary>
    public static double[] Nodes(double start, double end, int elements, int degree)
    {
        double[] nodes = new double[elements * degree + 1];
        double width = (end - start) / elements;
        for (int i = 0; i < nodes.Length; i++)
        {
            double inside = 0.5 * (1 - Math.Cos(Math.PI * (i % degree) / degree));
            nodes[i] = start + width * (i / degree + inside);
        }
        return nodes;
    }

    /// <summary>Values and slopes of the polynomials of one element at a place.</summary>
    public static void At(ReadOnlySpan<double> nodes, double place, double[] value, double[] slope)
    {
        for (int i = 0; i < nodes.Length; i++)
        {
            double product = 1;
            double derivative = 0;
            for (int j = 0; j < nodes.Length; j++)
            {
                if (j == i)
                {
                    continue;
                }
                double scale = 1 / (nodes[i] - nodes[j]);
                derivative = derivative * (place - nodes[j]) * scale + product * scale;
                product *= (place - nodes[j]) * scale;
            }
            (value[i], slope[i]) = (product, derivative);
        }
    }
}
