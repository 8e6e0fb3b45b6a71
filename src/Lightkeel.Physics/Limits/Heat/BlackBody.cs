using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Radiation of a black body.</summary>
/// <remarks>
/// Constants exact by the definition of the SI units (SI Brochure, 9th edition): σ = 2π⁵k⁴/(15 h³c²) and c₂ = hc/k, rounded
/// to the digits of double precision.
/// </remarks>
public static class BlackBody
{
    /// <summary>Stefan-Boltzmann constant, W/(m² K⁴).</summary>
    public const double StefanBoltzmann = 5.670374419184429e-8;

    /// <summary>Second radiation constant, m K.</summary>
    public const double SecondRadiation = 1.438776877503933e-2;

    /// <summary>Power radiated per area, σT⁴, W/m².</summary>
    /// <param name="temperatureKelvin">Temperature, K, ≥ 0.</param>
    public static double Exitance(double temperatureKelvin)
    {
        double square = Require.NotNegative(temperatureKelvin) * temperatureKelvin;
        return StefanBoltzmann * square * square;
    }

    /// <summary>Temperature at which a black body radiates a power per area, K.</summary>
    /// <param name="exitanceWattsPerSquareMetre">Power per area, W/m², ≥ 0.</param>
    public static double Temperature(double exitanceWattsPerSquareMetre) =>
        Math.Sqrt(Math.Sqrt(Require.NotNegative(exitanceWattsPerSquareMetre) / StefanBoltzmann));

    /// <summary>Share of the power that is radiated at wavelengths below one, to 1e-12.</summary>
    /// <param name="wavelengthMetres">Wavelength, m, positive.</param>
    /// <param name="temperatureKelvin">Temperature, K, positive.</param>
    /// <remarks>
    /// With x = c₂/(λT): (15/π⁴) Σ e^(−nx) (x³/n + 3x²/n² + 6x/n³ + 6/n⁴). Source: Fundamentals of Heat and Mass Transfer
    /// (Wiley), section 12.3, as a series by expansion of 1/(e^x − 1). Below x = 0.1 the Taylor series of the lower
    /// integral takes its place.
    /// </remarks>
    public static double FractionBelow(double wavelengthMetres, double temperatureKelvin)
    {
        double x = SecondRadiation / (Require.Positive(wavelengthMetres) * Require.Positive(temperatureKelvin));
        const double Scale = 15 / (Math.PI * Math.PI * Math.PI * Math.PI);
        if (x < 0.1)
        {
            double x2 = x * x;
            return 1 - Scale * x * x2 * (1.0 / 3 - x / 8 + x2 / 60 - x2 * x2 / 5040 + x2 * x2 * x2 / 272160);
        }
        double sum = 0;
        for (int n = 1; n <= 400; n++)
        {
            double decay = Math.Exp(-n * x);
            double inverse = 1.0 / n;
            double term = decay * inverse * (x * x * x + inverse * (3 * x * x + inverse * (6 * x + 6 * inverse)));
            sum += term;
            if (term < 1e-17)
            {
                break;
            }
        }
        return Scale * sum;
    }

    /// <summary>Wavelength below which a share of the power is radiated, m, to 1e-12.</summary>
    /// <param name="share">The share, strictly between 0 and 1.</param>
    /// <param name="temperatureKelvin">Temperature, K, positive.</param>
    public static double WavelengthBelow(double share, double temperatureKelvin)
    {
        Require.Between(share, 0, 1, lowerIncluded: false, upperIncluded: false);
        double kelvin = Require.Positive(temperatureKelvin);
        (double low, double high) = (1e-5 / kelvin, 1e3 / kelvin);
        for (int i = 0; i < 100 && high - low > 1e-14 * high; i++)
        {
            double middle = Math.Sqrt(low * high);
            (low, high) = FractionBelow(middle, kelvin) < share ? (middle, high) : (low, middle);
        }
        return Math.Sqrt(low * high);
    }
}
