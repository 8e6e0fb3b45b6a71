namespace Lightkeel.Physics.Shapes;

/// <summary>Real roots of a x² + 2 b x + c = 0 without loss of digits, lower root first.</summary>
internal static class QuadraticRoots
{
    /// <returns>Both roots; NaN for a root that does not exist, so that no comparison with it holds.</returns>
    public static (double Low, double High) Of(double a, double b, double c)
    {
        double discriminant = b * b - a * c;
        if (!(discriminant >= 0))
        {
            return (double.NaN, double.NaN);
        }
        // The sum of two terms of one sign keeps all digits; the other root follows from the product c/a.
        double q = -(b + Math.CopySign(Math.Sqrt(discriminant), b));
        double first = a != 0 ? q / a : double.NaN;
        double second = q != 0 ? c / q : first;
        return second < first || double.IsNaN(first) ? (second, first) : (first, second);
    }
}
