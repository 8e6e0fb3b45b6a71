using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>Closed forms of film and plate vibrations.</summary>
public static class MembraneForms
{
    /// <summary>
    /// (ω/Ω)² of a free membrane disc that spins, in the frame that turns with it:
    /// [(3 + ν)(n + 2s)(n + 2s + 2) − n²(1 + 3ν)]/8 for n nodal diameters and s nodal circles.
    /// </summary>
    /// <remarks>Source: Proceedings of the Royal Society A 99, 272 (1921), doi:10.1098/rspa.1921.0042.</remarks>
    public static double SpinningDiscRatio(double poissonRatio, int diameters, int circles)
    {
        double nu = Require.Between(poissonRatio, 0, 0.5);
        int n = Require.AtLeast(0, diameters);
        int k = n + 2 * Require.AtLeast(0, circles);
        return ((3 + nu) * k * (k + 2.0) - n * n * (1 + 3 * nu)) / 8;
    }

    /// <summary>Frequency of a round drum, j_ns/(2πa) √(T/σ), Hz: n diameters, the s-th circle counted from the rim, from 1.</summary>
    /// <remarks>Source: The Theory of Sound, 2nd ed. (1894), chapter 9.</remarks>
    public static double DrumFrequency(
        double radiusMetres,
        double tensionNewtonsPerMetre,
        double arealDensityKilogramsPerSquareMetre,
        int diameters,
        int circle
    ) =>
        BesselZero(diameters, circle)
        / (2 * Math.PI * Require.Positive(radiusMetres))
        * Math.Sqrt(Require.Positive(tensionNewtonsPerMetre) / Require.Positive(arealDensityKilogramsPerSquareMetre));

    /// <summary>
    /// The lower (bending-like, in a membrane without bending) and upper (stretching) frequency of a thin closed sphere with n ≥ 2,
    /// Hz; without inner pressure or gas.
    /// </summary>
    /// <remarks>
    /// With w = ρω²R²/E: (1 − ν²) w² − [n(n + 1) + 1 + 3ν] w + n(n + 1) − 2 = 0. Source: Proceedings of the London Mathematical
    /// Society 14, 50 (1882), from memory; n = 0 gives the breathing frequency w = 2/(1 − ν), n = 1 rest.
    /// </remarks>
    public static (double Lower, double Upper) SphereFrequencies(
        double radiusMetres,
        double youngsModulusPascals,
        double densityKilogramsPerCubicMetre,
        double poissonRatio,
        int waves
    )
    {
        double nu = Require.Between(poissonRatio, 0, 0.5);
        double m = Require.AtLeast(0, waves) * (waves + 1.0);
        double a = 1 - nu * nu;
        double b = m + 1 + 3 * nu;
        double root = Math.Sqrt(Math.Max(0, b * b - 4 * a * (m - 2)));
        double upper = (b + root) / (2 * a);
        double lower = Math.Max(0, (m - 2) / (a * upper));
        double unit =
            Math.Sqrt(Require.Positive(youngsModulusPascals) / Require.Positive(densityKilogramsPerCubicMetre))
            / (2 * Math.PI * Require.Positive(radiusMetres));
        return (unit * Math.Sqrt(lower), unit * Math.Sqrt(upper));
    }

    /// <summary>Lower frequency of a thin closed sphere under inner pressure, Hz: without the mass and stiffness of the gas.</summary>
    /// <remarks>
    /// ω² = ω₀² + (n − 1)(n + 2) p/(2σR), ω₀ that of <see cref="SphereFrequencies"/>, σ the mass per area: in spherical harmonics
    /// the tension pR/2 with the pressure that stays normal is (n − 1)(n + 2) p/(2R) times the displacement squared, along and
    /// across alike. Derived here; for n ≥ 2 the volume does not change, so the gas keeps its pressure.
    /// </remarks>
    public static double PressurisedSphereFrequency(
        double radiusMetres,
        double youngsModulusPascals,
        double densityKilogramsPerCubicMetre,
        double poissonRatio,
        double thicknessMetres,
        double pressurePascals,
        int waves
    )
    {
        double lamb =
            2
            * Math.PI
            * SphereFrequencies(
                radiusMetres,
                youngsModulusPascals,
                densityKilogramsPerCubicMetre,
                poissonRatio,
                Require.AtLeast(2, waves)
            ).Lower;
        double areal = densityKilogramsPerCubicMetre * Require.Positive(thicknessMetres);
        double added = (waves - 1.0) * (waves + 2.0) * Require.Finite(pressurePascals) / (2 * areal * radiusMetres);
        return Math.Sqrt(Math.Max(0, lamb * lamb + added)) / (2 * Math.PI);
    }

    /// <summary>
    /// Frequency over Ω of a string that spins about one end, its other end free, beating out of the plane: √(n(2n − 1)),
    /// n = 1 the rigid flap.
    /// </summary>
    /// <remarks>The Legendre equation for the tension ½σΩ²(a² − r²); derived here.</remarks>
    public static double SpinningStringRatio(int order) => Math.Sqrt(Require.AtLeast(1, order) * (2.0 * order - 1));

    /// <summary>The s-th positive zero of the Bessel function J_n, to rounding.</summary>
    /// <remarks>
    /// Zeros of J_n interlace those of J_(n−1); J_0 by the large-argument expansion of section 10.21 of the Digital Library of
    /// Mathematical Functions, then bisection between neighbours. J_n by Bessel's integral.
    /// </remarks>
    public static double BesselZero(int order, int index)
    {
        Require.AtLeast(0, order);
        Require.AtLeast(1, index);
        double[] zeros = new double[order + index];
        for (int s = 0; s < zeros.Length; s++)
        {
            double guess = Math.PI * (s + 0.75);
            zeros[s] = Root(0, guess - 0.6, guess + 0.6);
        }
        for (int n = 1; n <= order; n++)
        {
            for (int s = 0; s + n < zeros.Length; s++)
            {
                zeros[s] = Root(n, zeros[s], zeros[s + 1]);
            }
        }
        return zeros[index - 1];
    }

    private static double Root(int order, double low, double high)
    {
        bool sign = BesselJ(order, low + 1e-9) > 0;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = BesselJ(order, middle) > 0 == sign ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }

    /// <summary>J_n(x) = (1/π) ∫₀^π cos(nθ − x sin θ) dθ by the trapezoidal rule, which converges faster than any power.</summary>
    internal static double BesselJ(int order, double x)
    {
        int count = 32 + (int)(2 * (Math.Abs(x) + order));
        double sum = 0;
        for (int i = 0; i < count; i++)
        {
            double angle = 2 * Math.PI * (i + 0.5) / count;
            sum += Math.Cos(order * angle - x * Math.Sin(angle));
        }
        return sum / count;
    }
}
