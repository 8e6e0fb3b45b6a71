using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Chance.Air;

/// <summary>Numbers of Kolmogorov turbulence that turn a site into a spectrum of tilt: Fried's length, Greenwood's frequency, Noll's residuals.</summary>
/// <remarks>
/// Plane wave, upward or downward, zenith angle as stated. Sources: Journal of the Optical Society of America 56, 1372 (1966) (r₀);
/// 67, 390 (1977), doi:10.1364/JOSA.67.000390 (f_G); 66, 207 (1976), doi:10.1364/JOSA.66.000207 (residuals). Pure.
/// </remarks>
public static class Turbulence
{
    // Over the aperture with the piston removed, exact for Kolmogorov turbulence, in (D/r₀)^{5/3} rad².
    private const double PistonRemoved = 1.0324216;

    /// <summary>Strength C_n² of the Hufnagel-Valley model at a height, m^(−2/3).</summary>
    /// <param name="heightMetres">Height over the ground, m.</param>
    /// <param name="highWindMetresPerSecond">Wind of the upper air W, m/s; 21 in the model called 5/7.</param>
    /// <param name="groundStrength">A, m^(−2/3); 1.7e-14 in it.</param>
    /// <remarks>0.00594 (W/27)² (10⁻⁵ h)¹⁰ e^{−h/1000} + 2.7e-16 e^{−h/1500} + A e^{−h/100}.</remarks>
    public static double HufnagelValley(
        double heightMetres,
        double highWindMetresPerSecond = 21,
        double groundStrength = 1.7e-14
    )
    {
        double h = Require.NotNegative(heightMetres);
        double wind = highWindMetresPerSecond / 27;
        return 0.00594 * wind * wind * Math.Pow(1e-5 * h, 10) * Math.Exp(-h / 1000)
            + 2.7e-16 * Math.Exp(-h / 1500)
            + groundStrength * Math.Exp(-h / 100);
    }

    /// <summary>Fried's length r₀ = (0.423 k² sec ζ ∫ C_n² dh)^{−3/5}, m.</summary>
    /// <param name="strength">C_n² against height in m, m^(−2/3).</param>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    /// <param name="zenithRadians">Angle from the zenith, rad, below π/2.</param>
    public static double FriedMetres(Func<double, double> strength, double wavelengthMetres, double zenithRadians = 0)
    {
        double k = 2 * Math.PI / Require.Positive(wavelengthMetres);
        double column = Integral(strength) / Math.Cos(Require.Between(zenithRadians, 0, 1.57));
        return Math.Pow(0.423 * k * k * column, -0.6);
    }

    /// <summary>Greenwood's frequency 2.31 λ^{−6/5} (sec ζ ∫ C_n² v^{5/3} dh)^{3/5}, Hz.</summary>
    /// <param name="strength">C_n² against height in m, m^(−2/3).</param>
    /// <param name="wind">Wind across the path against height, m/s.</param>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    /// <param name="zenithRadians">Angle from the zenith, rad, below π/2.</param>
    public static double GreenwoodHertz(
        Func<double, double> strength,
        Func<double, double> wind,
        double wavelengthMetres,
        double zenithRadians = 0
    )
    {
        ArgumentNullException.ThrowIfNull(strength);
        ArgumentNullException.ThrowIfNull(wind);
        double column =
            Integral(h => strength(h) * Math.Pow(wind(h), 5.0 / 3)) / Math.Cos(Require.Between(zenithRadians, 0, 1.57));
        return 2.31 * Math.Pow(Require.Positive(wavelengthMetres), -1.2) * Math.Pow(column, 0.6);
    }

    /// <summary>Greenwood's frequency of one layer, 0.427 v/r₀, Hz.</summary>
    /// <param name="windMetresPerSecond">Wind across the path, m/s.</param>
    /// <param name="friedMetres">r₀, m.</param>
    public static double GreenwoodOfLayerHertz(double windMetresPerSecond, double friedMetres) =>
        0.427 * Require.NotNegative(windMetresPerSecond) / Require.Positive(friedMetres);

    /// <summary>Phase variance left over an aperture when the first Zernike modes are corrected, rad² per (D/r₀)^{5/3}.</summary>
    /// <param name="modes">How many modes in Noll's order: 1 is the piston alone, 3 the tilts too; 1 to 10⁶.</param>
    public static double NollResidual(int modes)
    {
        Require.AtLeast(1, modes);
        double left = PistonRemoved;
        int order = 1;
        int taken = 1;
        while (taken < modes)
        {
            int here = Math.Min(order + 1, modes - taken);
            left -= here * ModeVariance(order);
            taken += here;
            order++;
        }
        return left;
    }

    /// <summary>Variance of the tilt about one axis, rad²: 0.182 (λ/D)² (D/r₀)^{5/3}.</summary>
    /// <param name="wavelengthMetres">Wavelength, m.</param>
    /// <param name="apertureMetres">Diameter D, m.</param>
    /// <param name="friedMetres">r₀, m.</param>
    public static double TiltVariance(double wavelengthMetres, double apertureMetres, double friedMetres)
    {
        double spread = Require.Positive(wavelengthMetres) / Require.Positive(apertureMetres);
        double noll = Math.Pow(apertureMetres / Require.Positive(friedMetres), 5.0 / 3) * ModeVariance(1);
        // A tilt of the wavefront by an angle is a Noll coefficient of π/2 of it over λ/D.
        return 4 / (Math.PI * Math.PI) * spread * spread * noll;
    }

    // (n + 1) Γ(n − 5/6)/Γ(n + 23/6) of successive orders, from that of the tilt, 0.44888.
    private static double ModeVariance(int order)
    {
        double variance = 0.4488789;
        for (int n = 1; n < order; n++)
        {
            variance *= (n + 2.0) / (n + 1) * (n - 5.0 / 6) / (n + 23.0 / 6);
        }
        return variance;
    }

    // To 60 km in panels that grow with height.
    private static double Integral(Func<double, double> f)
    {
        ArgumentNullException.ThrowIfNull(f);
        double sum = 0;
        double low = 0;
        for (double high = 50; low < 6e4; high *= 1.25)
        {
            sum += GaussLegendre.Order(20).Integrate(f, low, high);
            low = high;
        }
        return sum;
    }
}
