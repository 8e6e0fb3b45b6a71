namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>Fixed eight-point Gauss–Legendre quadrature on equal panels, exact for polynomials of degree 15.</summary>
/// <remarks>Nodes and weights: Digital Library of Mathematical Functions, §3.5(v), recomputed with 40 digits.</remarks>
internal static class GaussLegendre
{
    private static ReadOnlySpan<double> Nodes =>
        [0.1834346424956498, 0.525532409916329, 0.7966664774136267, 0.9602898564975363];

    private static ReadOnlySpan<double> Weights =>
        [0.362683783378362, 0.31370664587788727, 0.22238103445337448, 0.10122853629037626];

    /// <summary>Integral of a function from one end to the other, over equal panels.</summary>
    public static double Integrate(Func<double, double> f, double from, double to, int panels)
    {
        double half = (to - from) / (2 * panels);
        double sum = 0;
        for (int panel = 0; panel < panels; panel++)
        {
            double middle = from + (2 * panel + 1) * half;
            for (int i = 0; i < Nodes.Length; i++)
            {
                sum += Weights[i] * (f(middle - half * Nodes[i]) + f(middle + half * Nodes[i]));
            }
        }
        return sum * half;
    }
}
