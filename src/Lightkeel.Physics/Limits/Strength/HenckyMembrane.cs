using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>A flat round film without tension of its own, its rim held, under even load: tension by its own bulging.</summary>
/// <remarks>
/// N = ¼ (E h q² a²)^(1/3) Σ b_n x^n and w = (q a⁴/(E h))^(1/3) Σ c_n (1 − x^(n+1)), x = (r/a)², with n(n + 1) b_n = −2 g_(n−1)
/// where Σ g_n x^n = (Σ b_n x^n)^(−2), and b_0 from no radial stretch at the rim, Σ (2n + 1 − ν) b_n = 0. Source: Zeitschrift für
/// Mathematik und Physik 63, 311 (1915); rederived here from membrane equilibrium and compatibility.
/// </remarks>
public sealed class HenckyMembrane
{
    private const int Terms = 60;
    private readonly double[] _b;

    /// <summary>Solves for a Poisson's ratio.</summary>
    /// <param name="poissonRatio">0 … 0.5.</param>
    public HenckyMembrane(double poissonRatio)
    {
        double nu = Require.Between(poissonRatio, 0, 0.5);
        (double low, double high) = (1.5, 2.5);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Rim(Series(middle), nu) < 0 ? (middle, high) : (low, middle);
        }
        _b = Series(0.5 * (low + high));
        CenterTension = _b[0];
        CenterDeflection = Deflection();
    }

    /// <summary>b_0: four times the tension at the centre over (E h q² a²)^(1/3).</summary>
    public double CenterTension { get; }

    /// <summary>Deflection at the centre over (q a⁴/(E h))^(1/3).</summary>
    public double CenterDeflection { get; }

    /// <summary>Greatest stress, at the centre, Pa.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="thicknessMetres">h, m.</param>
    /// <param name="pressurePascals">q, Pa; its sign does not matter.</param>
    /// <param name="radiusMetres">a, m.</param>
    public double GreatestStress(
        double youngsModulusPascals,
        double thicknessMetres,
        double pressurePascals,
        double radiusMetres
    ) =>
        0.25
        * CenterTension
        * Math.Cbrt(
            Require.Positive(youngsModulusPascals)
                * Require.Positive(thicknessMetres)
                * pressurePascals
                * pressurePascals
                * Require.Positive(radiusMetres)
                * radiusMetres
        )
        / thicknessMetres;

    /// <summary>Deflection at the centre, m.</summary>
    public double Sag(
        double youngsModulusPascals,
        double thicknessMetres,
        double pressurePascals,
        double radiusMetres
    ) =>
        CenterDeflection
        * Math.Cbrt(
            Math.Abs(pressurePascals)
                * Math.Pow(Require.Positive(radiusMetres), 4)
                / (Require.Positive(youngsModulusPascals) * Require.Positive(thicknessMetres))
        );

    /// <summary>Tension at a radius along and around, N/m, and the slope dw/dr of the bulge against the load.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="thicknessMetres">h, m.</param>
    /// <param name="pressurePascals">q, Pa, positive.</param>
    /// <param name="radiusMetres">a, m.</param>
    /// <param name="atRadiusMetres">r, m, 0 … a.</param>
    /// <remarks>N_r r w′ = −q r²/2, N_θ = d(r N_r)/dr.</remarks>
    public (double Radial, double Hoop, double Slope) At(
        double youngsModulusPascals,
        double thicknessMetres,
        double pressurePascals,
        double radiusMetres,
        double atRadiusMetres
    )
    {
        double a = Require.Positive(radiusMetres);
        double q = Require.Positive(pressurePascals);
        double unit =
            0.25
            * Math.Cbrt(Require.Positive(youngsModulusPascals) * Require.Positive(thicknessMetres) * q * q * a * a);
        double x = Math.Pow(Require.Between(atRadiusMetres, 0, a) / a, 2);
        (double radial, double hoop) = (0, 0);
        for (int n = Terms - 1; n >= 0; n--)
        {
            radial = radial * x + _b[n];
            hoop = hoop * x + (2 * n + 1) * _b[n];
        }
        return (unit * radial, unit * hoop, -0.5 * q * atRadiusMetres / (unit * radial));
    }

    private static double[] Series(double first)
    {
        double[] b = new double[Terms];
        double[] square = new double[Terms];
        double[] inverse = new double[Terms];
        b[0] = first;
        square[0] = first * first;
        inverse[0] = 1 / square[0];
        for (int n = 1; n < Terms; n++)
        {
            b[n] = -2 * inverse[n - 1] / (n * (n + 1.0));
            for (int k = 0; k <= n; k++)
            {
                square[n] += b[k] * b[n - k];
            }
            double sum = 0;
            for (int k = 1; k <= n; k++)
            {
                sum += square[k] * inverse[n - k];
            }
            inverse[n] = -sum / square[0];
        }
        return b;
    }

    private static double Rim(double[] b, double nu)
    {
        double sum = 0;
        for (int n = 0; n < b.Length; n++)
        {
            sum += (2 * n + 1 - nu) * b[n];
        }
        return sum;
    }

    // w' = −q r/(2N): w/(q a⁴/(E h))^(1/3) = ∫ 2 ρ/Σ b ρ^(2n) dρ = ∫₀¹ dx/Σ b_n x^n.
    private double Deflection()
    {
        return Numerics
            .Quadrature.GaussLegendre.Order(64)
            .Integrate(
                x =>
                {
                    double sum = 0;
                    for (int n = Terms - 1; n >= 0; n--)
                    {
                        sum = sum * x + _b[n];
                    }
                    return 1 / sum;
                },
                0,
                1
            );
    }
}
