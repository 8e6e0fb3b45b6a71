using MathNet.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Interpolation;

/// <summary>
/// Least-squares fits of functions that behave like a power of the radius at the origin: f(r) = r^q g(r²), g a Chebyshev series in
/// r². The power is part of the fit, so that nothing is divided by a small radius.
/// </summary>
public static class PowerFit
{
    /// <summary>The matrix that turns values at radii into the coefficients of g.</summary>
    /// <param name="radii">Radii of the values, as many as terms or more.</param>
    /// <param name="start">Start of the interval of r².</param>
    /// <param name="end">End of the interval of r², greater.</param>
    /// <param name="power">q, zero or more.</param>
    /// <param name="terms">Terms of the series, one or more.</param>
    /// <returns>A row per term, a column per radius.</returns>
    public static double[,] Matrix(ReadOnlySpan<double> radii, double start, double end, int power, int terms)
    {
        Require.AtLeast(1, terms);
        Require.AtLeast(terms, radii.Length);
        Matrix<double> values = Matrix<double>.Build.Dense(radii.Length, terms);
        for (int i = 0; i < radii.Length; i++)
        {
            double t = (2 * radii[i] * radii[i] - start - end) / (end - start);
            (double before, double here) = (t, 1);
            double weight = Math.Pow(radii[i], power);
            for (int k = 0; k < terms; k++)
            {
                values[i, k] = weight * here;
                (before, here) = (here, k == 0 ? t : 2 * t * here - before);
            }
        }
        return values.PseudoInverse().ToArray();
    }
}
