using Lightkeel.Numerics;
using Lightkeel.Physics.Limits.FilmModes;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>How the rim of a plate is held.</summary>
public enum PlateRim
{
    /// <summary>Neither moves nor turns.</summary>
    Clamped,

    /// <summary>Does not move, turns freely.</summary>
    Supported,

    /// <summary>Free.</summary>
    Free,
}

/// <summary>A stiff flat disc: a round plate of even thickness that carries load by bending.</summary>
/// <remarks>
/// What a flat film has of its own where nothing stretches it. Thin elastic plates, D = E h³/[12(1 − ν²)]. Sources: Theory of Plates and
/// Shells, 2nd ed. (1959), sections 15 to 17 (deflection); Theory of Elastic Stability, 2nd ed. (1961), chapter 9 (buckling); Vibration of
/// Plates (1969), chapter 2 (frequency equations; its table for the free rim is off by up to 0.4 %).
/// </remarks>
public sealed record CircularPlate
{
    /// <summary>Describes a plate.</summary>
    /// <param name="radiusMetres">a, m.</param>
    /// <param name="thicknessMetres">h, m.</param>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="poissonRatio">ν, 0 … 0.5.</param>
    public CircularPlate(double radiusMetres, double thicknessMetres, double youngsModulusPascals, double poissonRatio)
    {
        RadiusMetres = Require.Positive(radiusMetres);
        ThicknessMetres = Require.Positive(thicknessMetres);
        PoissonRatio = Require.Between(poissonRatio, 0, 0.5);
        double h = thicknessMetres;
        BendingStiffness =
            Require.Positive(youngsModulusPascals) * h * h * h / (12 * (1 - poissonRatio * poissonRatio));
    }

    /// <summary>Radius, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>Thickness, m.</summary>
    public double ThicknessMetres { get; }

    /// <summary>Poisson's ratio.</summary>
    public double PoissonRatio { get; }

    /// <summary>D, N m.</summary>
    public double BendingStiffness { get; }

    /// <summary>Deflection of the middle under even load, m: q a⁴/(64 D), times (5 + ν)/(1 + ν) on a rim that turns.</summary>
    /// <param name="rim">Clamped or supported.</param>
    /// <param name="pressurePascals">q, Pa.</param>
    public double MiddleDeflection(PlateRim rim, double pressurePascals)
    {
        double clamped = Require.Finite(pressurePascals) * Math.Pow(RadiusMetres, 4) / (64 * BendingStiffness);
        return rim switch
        {
            PlateRim.Clamped => clamped,
            PlateRim.Supported => clamped * (5 + PoissonRatio) / (1 + PoissonRatio),
            _ => throw new ArgumentException("A free plate does not carry an even load.", nameof(rim)),
        };
    }

    /// <summary>Pressing force per length of the rim at which the plate buckles, N/m.</summary>
    /// <param name="rim">Clamped or supported.</param>
    /// <remarks>x² D/a² with J₁(x) = 0, or x J₀(x) = (1 − ν) J₁(x) on a rim that turns.</remarks>
    public double BucklingNewtonsPerMetre(PlateRim rim)
    {
        double x = rim switch
        {
            PlateRim.Clamped => MembraneForms.BesselZero(1, 1),
            PlateRim.Supported => Root(
                v => v * MembraneForms.BesselJ(0, v) - (1 - PoissonRatio) * MembraneForms.BesselJ(1, v),
                0.5,
                MembraneForms.BesselZero(0, 1)
            ),
            _ => throw new ArgumentException("A free plate cannot be pressed.", nameof(rim)),
        };
        return x * x * BendingStiffness / (RadiusMetres * RadiusMetres);
    }

    /// <summary>Frequency, Hz.</summary>
    /// <param name="rim">How the rim is held.</param>
    /// <param name="diameters">Nodal diameters.</param>
    /// <param name="circles">Nodal circles, not counting the rim.</param>
    /// <param name="arealDensityKilogramsPerSquareMetre">Mass per area, kg/m².</param>
    public double Frequency(PlateRim rim, int diameters, int circles, double arealDensityKilogramsPerSquareMetre) =>
        FrequencyParameter(rim, diameters, circles, PoissonRatio)
        / (2 * Math.PI * RadiusMetres * RadiusMetres)
        * Math.Sqrt(BendingStiffness / Require.Positive(arealDensityKilogramsPerSquareMetre));

    /// <summary>λ² = ω a² √(σ/D) of a plate, σ the mass per area.</summary>
    /// <param name="rim">How the rim is held.</param>
    /// <param name="diameters">Nodal diameters n.</param>
    /// <param name="circles">Nodal circles s, not counting the rim; a free plate moves as a rigid body with n &lt; 2 and s = 0: zero.</param>
    /// <param name="poissonRatio">ν, 0 … 0.5; without effect on a clamped rim.</param>
    /// <remarks>W = J_n(λ r/a) + C I_n(λ r/a); the two conditions at the rim have a solution where their determinant is zero.</remarks>
    public static double FrequencyParameter(PlateRim rim, int diameters, int circles, double poissonRatio)
    {
        int n = Require.AtLeast(0, diameters);
        int index = Require.AtLeast(0, circles);
        double nu = Require.Between(poissonRatio, 0, 0.5);
        if (rim == PlateRim.Free && n < 2)
        {
            if (index == 0)
            {
                return 0;
            }
            index--;
        }
        // Roots lie about π apart; steps of a tenth of that count them all.
        double step = 0.1 * Math.PI;
        double from = 0.3 + 0.5 * n;
        double before = Determinant(rim, n, from, nu);
        for (int i = 0; i < 4000; i++)
        {
            double to = from + step;
            double after = Determinant(rim, n, to, nu);
            if (before > 0 != after > 0 && index-- == 0)
            {
                double root = Root(x => Determinant(rim, n, x, nu), from, to);
                return root * root;
            }
            (from, before) = (to, after);
        }
        throw new ArithmeticException("The frequency of a plate was not found.");
    }

    // Scaled by e^x, so that I_n stays within the numbers.
    private static double Determinant(PlateRim rim, int n, double x, double nu)
    {
        (double j, double dj) = (MembraneForms.BesselJ(n, x), SlopeJ(n, x));
        double i = ScaledI(n, x);
        double di = ScaledI(n + 1, x) + n / x * i;
        double square = n * (double)n;
        switch (rim)
        {
            case PlateRim.Clamped:
                return j * di - i * dj;
            case PlateRim.Supported:
                return j * Moment(1, i, di) - i * Moment(-1, j, dj);
            default:
                return Moment(-1, j, dj) * Shear(1, i, di) - Moment(1, i, di) * Shear(-1, j, dj);
        }
        double Moment(int sign, double w, double slope) => sign * x * x * w - (1 - nu) * (x * slope - square * w);
        double Shear(int sign, double w, double slope) =>
            sign * x * x * x * slope - (1 - nu) * square * (x * slope - w);
    }

    private static double SlopeJ(int n, double x) =>
        n / x * MembraneForms.BesselJ(n, x) - MembraneForms.BesselJ(n + 1, x);

    // e^(−x) I_n(x) = (1/π) ∫₀^π e^(x (cos θ − 1)) cos nθ dθ by the trapezoidal rule, which converges faster than any power.
    private static double ScaledI(int n, double x)
    {
        int count = 32 + (int)(2 * (x + n));
        double sum = 0;
        for (int k = 0; k < count; k++)
        {
            double angle = 2 * Math.PI * (k + 0.5) / count;
            sum += Math.Exp(x * (Math.Cos(angle) - 1)) * Math.Cos(n * angle);
        }
        return sum / count;
    }

    private static double Root(Func<double, double> value, double low, double high)
    {
        bool sign = value(low) > 0;
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = value(middle) > 0 == sign ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
