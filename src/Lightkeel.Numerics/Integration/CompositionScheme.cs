namespace Lightkeel.Numerics.Integration;

/// <summary>
/// Raises the order of a symmetric second-order step by composing it with itself: steps γ₁h, γ₂h, … in turn, palindromic,
/// so that the whole is symmetric (reversible) and keeps what the base step keeps.
/// </summary>
/// <remarks>Some γ are negative, so a step looks back in time by up to its own length.</remarks>
public sealed class CompositionScheme
{
    private readonly double[] _fractions;

    /// <summary>A composition as data.</summary>
    /// <param name="name">Name for reports.</param>
    /// <param name="order">Order of the composed step.</param>
    /// <param name="firstHalf">γ₁ … γ₍ₘ₎ of a palindrome γ₁ … γ₍ₘ₎ γ₀ γ₍ₘ₎ … γ₁; the middle one follows, since they sum to 1.</param>
    /// <param name="source">Where the numbers were published.</param>
    public CompositionScheme(string name, int order, ReadOnlySpan<double> firstHalf, string source)
    {
        (Name, Order, Source) = (name, order, source);
        int half = firstHalf.Length;
        _fractions = new double[2 * half + 1];
        double middle = 1;
        for (int i = 0; i < half; i++)
        {
            _fractions[i] = _fractions[^(i + 1)] = firstHalf[i];
            middle -= 2 * firstHalf[i];
        }
        _fractions[half] = middle;
    }

    /// <summary>The base step alone: order 2, one stage (Störmer–Verlet for separable systems).</summary>
    public static CompositionScheme Order2 { get; } =
        new("order 2, the base step", 2, [], "Acta Numerica 12, 399–450 (2003), doi:10.1017/S0962492902000144");

    /// <summary>Order 4, five stages, γ = 1/(4 − 4^⅓): small error constants for its order.</summary>
    public static CompositionScheme Order4 { get; } =
        new(
            "order 4, five stages",
            4,
            [1 / (4 - Math.Cbrt(4)), 1 / (4 - Math.Cbrt(4))],
            "Physics Letters A 146(6), 319–323 (1990), doi:10.1016/0375-9601(90)90962-N"
        );

    /// <summary>Order 6, nine stages.</summary>
    public static CompositionScheme Order6 { get; } =
        new(
            "order 6, nine stages",
            6,
            [0.39216144400731413928, 0.33259913678935943860, -0.70624617255763935981, 0.082213596293550800230],
            "Mathematics of Computation 66(219), 1089–1099 (1997), doi:10.1090/S0025-5718-97-00873-9"
        );

    /// <summary>Order 8, seventeen stages.</summary>
    public static CompositionScheme Order8 { get; } =
        new(
            "order 8, seventeen stages",
            8,
            [
                0.13020248308889008088,
                0.56116298177510838456,
                -0.38947496264484728641,
                0.15884190655515560090,
                -0.39590389413323757734,
                0.18453964097831570709,
                0.25837438768632204729,
                0.29501172360931029887,
            ],
            "Mathematics of Computation 66(219), 1089–1099 (1997), doi:10.1090/S0025-5718-97-00873-9"
        );

    /// <summary>Name for reports.</summary>
    public string Name { get; }

    /// <summary>Order of the composed step.</summary>
    public int Order { get; }

    /// <summary>Where the numbers were published.</summary>
    public string Source { get; }

    /// <summary>Fractions γ of the step, in order; they sum to 1.</summary>
    public ReadOnlySpan<double> Fractions => _fractions;
}
