using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>A round tube as a boom, its root held by the sail and its tip free.</summary>
/// <remarks>
/// Slender beam theory. End conditions: clamped root, free tip with a body on it. A film that gives way at the root makes the
/// boom softer than this. Sources: Theory of Elastic Stability, 2nd ed. (1961), chapter 2; Formulas for Natural Frequency and Mode
/// Shape (1979), chapter 8.
/// </remarks>
public sealed record Tube
{
    /// <summary>Describes a tube.</summary>
    /// <param name="lengthMetres">Length, m.</param>
    /// <param name="outerRadiusMetres">Outer radius, m.</param>
    /// <param name="wallMetres">Wall, m, at most the radius (a solid rod).</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is not positive, or the wall is thicker than the radius.</exception>
    public Tube(double lengthMetres, double outerRadiusMetres, double wallMetres)
    {
        LengthMetres = Require.Positive(lengthMetres);
        OuterRadiusMetres = Require.Positive(outerRadiusMetres);
        WallMetres = Require.Between(wallMetres, 0, outerRadiusMetres, lowerIncluded: false);
        double inner = outerRadiusMetres - wallMetres;
        double outerSquare = outerRadiusMetres * outerRadiusMetres;
        double innerSquare = inner * inner;
        // π(a² − b²) without cancellation for thin walls.
        AreaSquareMetres = Math.PI * wallMetres * (outerRadiusMetres + inner);
        SecondMoment = 0.25 * AreaSquareMetres * (outerSquare + innerSquare);
    }

    /// <summary>Length, m.</summary>
    public double LengthMetres { get; }

    /// <summary>Outer radius, m.</summary>
    public double OuterRadiusMetres { get; }

    /// <summary>Wall, m.</summary>
    public double WallMetres { get; }

    /// <summary>Area of the section, m².</summary>
    public double AreaSquareMetres { get; }

    /// <summary>Second moment of area of the section, m⁴.</summary>
    public double SecondMoment { get; }

    /// <summary>Mass by its volume, kg.</summary>
    public double Mass(double densityKilogramsPerCubicMetre) =>
        Require.Positive(densityKilogramsPerCubicMetre) * AreaSquareMetres * LengthMetres;

    /// <summary>Euler load of a clamped-free column, π²EI/(4L²), N.</summary>
    public double BucklingLoad(double youngsModulusPascals) =>
        Math.PI * Math.PI * Require.Positive(youngsModulusPascals) * SecondMoment / (4 * LengthMetres * LengthMetres);

    /// <summary>
    /// Share of the boom's own weight that counts as tip load: the ratio of the Euler load to that of a column under its own weight,
    /// 7.8373 EI/L² in all. Sum by the rule of Dunkerley, on the safe side.
    /// </summary>
    public const double OwnWeightShare = Math.PI * Math.PI / 4 / 7.837347;

    /// <summary>First bending frequency with a body on the tip, under an even axial load, Hz.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="ownMassKilograms">Mass of the boom, kg, positive.</param>
    /// <param name="tipMassKilograms">Mass on its tip, kg, ≥ 0.</param>
    /// <param name="axialLoadNewtons">Axial load, N: positive pulls (stiffens), negative presses.</param>
    /// <returns>Frequency; zero when the load buckles the boom.</returns>
    /// <remarks>
    /// EI w″″ − P w″ = ρω² w, clamped at x = 0; at the tip w″ = 0 and EI w‴ − P w′ + mω² w = 0, in closed form. The rule ω² = ω₀² (1 + P/P_cr)
    /// would be a tenth too high for a boom that its load holds straight rather than its stiffness.
    /// </remarks>
    public double BendingFrequency(
        double youngsModulusPascals,
        double ownMassKilograms,
        double tipMassKilograms,
        double axialLoadNewtons
    )
    {
        double stiffness = Require.Positive(youngsModulusPascals) * SecondMoment;
        double load = Require.Finite(axialLoadNewtons) * LengthMetres * LengthMetres / stiffness;
        double ratio = Require.NotNegative(tipMassKilograms) / Require.Positive(ownMassKilograms);
        double scale = Math.Sqrt(stiffness * LengthMetres / ownMassKilograms) / (LengthMetres * LengthMetres);
        return LoadedRate(load, ratio) * scale / (2 * Math.PI);
    }

    /// <summary>ω √(ρL⁴/EI) of the first bending of a cantilever under an axial load, with a body on its tip.</summary>
    /// <param name="loadParameter">P L²/(EI), positive for pull.</param>
    /// <param name="tipMassRatio">Tip mass over own mass, ≥ 0.</param>
    /// <returns>It; zero from the Euler load on.</returns>
    public static double LoadedRate(double loadParameter, double tipMassRatio)
    {
        double p = Require.Finite(loadParameter);
        double mu = Require.NotNegative(tipMassRatio);
        double left = 1 + 4 * p / (Math.PI * Math.PI);
        // A load that is the Euler load to rounding buckles.
        if (left <= 1e-12)
        {
            return 0;
        }
        double root = CantileverRoot(mu);
        // The rule of the straight line is right at both ends of pressing and within a fifth for pulling: the root lies below twice it.
        double guess = root * root * Math.Sqrt(left);
        double from = 0.02 * guess;
        for (int i = 0; i < 400; i++)
        {
            double to = from + 0.01 * guess;
            if (Tip(from, p, mu) > 0 != Tip(to, p, mu) > 0)
            {
                return Between(w => Tip(w, p, mu), from, to);
            }
            from = to;
        }
        throw new ArithmeticException("The frequency of a boom under its load was not found.");
    }

    // Determinant of the two conditions at the tip for w = A (cosh αx − cos βx) + B (sinh αx/α − sin βx/β), α² − β² = p, αβ = ω, multiplied
    // out so that nothing cancels for strong pull, and divided by cosh α.
    private static double Tip(double rate, double p, double mu)
    {
        double big = 0.5 * (Math.Sqrt(p * p + 4 * rate * rate) + Math.Abs(p));
        // The smaller of the two squares without cancellation: their product is the square of the rate.
        double small = rate * rate / big;
        (double a2, double b2) = p >= 0 ? (big, small) : (small, big);
        (double a, double b) = (Math.Sqrt(a2), Math.Sqrt(b2));
        (double sine, double cosine) = Math.SinCos(b);
        double tanh = Math.Tanh(a);
        double square = rate * rate;
        return 2 * square / Math.Cosh(a)
            + (a2 * a2 + b2 * b2) * cosine
            + rate * p * tanh * sine
            + mu * square * (a2 + b2) * (tanh * cosine / a - sine / b);
    }

    /// <summary>Second bending frequency with a body on the tip, without axial load, Hz.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="ownMassKilograms">Mass of the boom, kg, positive.</param>
    /// <param name="tipMassKilograms">Mass on its tip, kg, ≥ 0.</param>
    public double SecondBendingFrequency(
        double youngsModulusPascals,
        double ownMassKilograms,
        double tipMassKilograms
    ) =>
        Hertz(
            CantileverRoot(Require.NotNegative(tipMassKilograms) / Require.Positive(ownMassKilograms), 2),
            youngsModulusPascals,
            ownMassKilograms
        );

    /// <summary>First bending frequency of the bare boom with both ends free, Hz: what is left where the sail does not hold it.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="ownMassKilograms">Mass of the boom, kg, positive.</param>
    public double FreeBendingFrequency(double youngsModulusPascals, double ownMassKilograms) =>
        Hertz(FreeRoot(1), youngsModulusPascals, ownMassKilograms);

    private double Hertz(double root, double youngsModulusPascals, double ownMassKilograms) =>
        root
        * root
        / (2 * Math.PI * LengthMetres * LengthMetres)
        * Math.Sqrt(
            Require.Positive(youngsModulusPascals) * SecondMoment * LengthMetres / Require.Positive(ownMassKilograms)
        );

    /// <summary>Root of the cantilever with a tip mass over its own mass.</summary>
    /// <param name="tipMassRatio">Tip mass over own mass, ≥ 0.</param>
    /// <param name="index">Which root, from 1.</param>
    public static double CantileverRoot(double tipMassRatio, int index = 1)
    {
        double mu = Require.NotNegative(tipMassRatio);
        Require.AtLeast(1, index);
        // Divided by cosh x; roots lie between π(k − 3/4), from above for heavy tips, and π(k − 1/2).
        double Value(double x) => 1 / Math.Cosh(x) + Math.Cos(x) + mu * x * (Math.Cos(x) * Math.Tanh(x) - Math.Sin(x));
        return index == 1
            ? Between(Value, 1e-8, 1.9)
            : Between(Value, Math.PI * (index - 0.76), Math.PI * (index - 0.49));
    }

    /// <summary>Root of a beam with both ends free, cos x cosh x = 1, past the motions of a rigid body.</summary>
    /// <param name="index">Which root, from 1.</param>
    public static double FreeRoot(int index)
    {
        double guess = Math.PI * (Require.AtLeast(1, index) + 0.5);
        return Between(x => Math.Cos(x) - 1 / Math.Cosh(x), guess - 0.1, guess + 0.1);
    }

    private static double Between(Func<double, double> value, double low, double high)
    {
        bool sign = value(low) > 0;
        for (int i = 0; i < 80; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = value(middle) > 0 == sign ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
