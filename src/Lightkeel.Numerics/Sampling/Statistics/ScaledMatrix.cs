namespace Lightkeel.Numerics.Sampling.Statistics;

/// <summary>A square matrix of positive numbers times e^LogScale, so that high powers neither overflow nor vanish.</summary>
internal readonly record struct ScaledMatrix(double[] Values, double LogScale)
{
    private const double Big = 1e140;
    private const double LogBig = 140 * 2.302585092994046;

    /// <summary>A power of a matrix by repeated squaring.</summary>
    /// <param name="matrix">Row by row, size × size.</param>
    /// <param name="size">Rows.</param>
    /// <param name="exponent">At least 1.</param>
    public static ScaledMatrix Power(double[] matrix, int size, int exponent)
    {
        if (exponent == 1)
        {
            return new ScaledMatrix(matrix, 0);
        }
        ScaledMatrix half = Power(matrix, size, exponent / 2);
        ScaledMatrix square = new(Product(half.Values, half.Values, size), 2 * half.LogScale);
        if (exponent % 2 == 1)
        {
            square = new ScaledMatrix(Product(matrix, square.Values, size), square.LogScale);
        }
        return square.Values[size / 2 * size + size / 2] > Big ? square.Reduced() : square;
    }

    private ScaledMatrix Reduced() => new(Array.ConvertAll(Values, v => v / Big), LogScale + LogBig);

    private static double[] Product(double[] a, double[] b, int size)
    {
        double[] c = new double[size * size];
        for (int i = 0; i < size; i++)
        {
            Span<double> row = c.AsSpan(i * size, size);
            for (int k = 0; k < size; k++)
            {
                double factor = a[i * size + k];
                ReadOnlySpan<double> from = b.AsSpan(k * size, size);
                for (int j = 0; j < size; j++)
                {
                    row[j] += factor * from[j];
                }
            }
        }
        return c;
    }
}
