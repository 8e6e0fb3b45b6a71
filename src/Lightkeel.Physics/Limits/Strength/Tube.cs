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

    /// <summary>First bending frequency with a body on the tip, Hz.</summary>
    /// <param name="youngsModulusPascals">E, Pa.</param>
    /// <param name="ownMassKilograms">Mass of the boom, kg, positive.</param>
    /// <param name="tipMassKilograms">Mass on its tip, kg, ≥ 0.</param>
    /// <param name="tipLoadNewtons">Axial load at the tip, N: positive pulls (stiffens), negative presses.</param>
    /// <returns>Frequency; zero when the load buckles the boom.</returns>
    /// <remarks>
    /// 1 + cos x cosh x + μ x (cos x sinh x − sin x cosh x) = 0, μ the mass ratio; the load by ω² = ω₀² (1 + P/P_cr), which is
    /// exact when the bent shapes agree.
    /// </remarks>
    public double BendingFrequency(
        double youngsModulusPascals,
        double ownMassKilograms,
        double tipMassKilograms,
        double tipLoadNewtons
    )
    {
        double root = CantileverRoot(Require.NotNegative(tipMassKilograms) / Require.Positive(ownMassKilograms));
        double perLength = ownMassKilograms / LengthMetres;
        double stiffness = Require.Positive(youngsModulusPascals) * SecondMoment;
        double angular = root * root / (LengthMetres * LengthMetres) * Math.Sqrt(stiffness / perLength);
        double loaded = 1 + tipLoadNewtons / BucklingLoad(youngsModulusPascals);
        return loaded > 0 ? angular * Math.Sqrt(loaded) / (2 * Math.PI) : 0;
    }

    /// <summary>First root of the cantilever with a tip mass over its own mass.</summary>
    public static double CantileverRoot(double tipMassRatio)
    {
        double mu = Require.NotNegative(tipMassRatio);
        // Divided by cosh x; positive below the root.
        double Value(double x) => 1 / Math.Cosh(x) + Math.Cos(x) + mu * x * (Math.Cos(x) * Math.Tanh(x) - Math.Sin(x));
        (double low, double high) = (1e-8, 1.9);
        for (int i = 0; i < 80; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Value(middle) > 0 ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
