using System.Collections.Frozen;

namespace Lightkeel.Physics.Units;

/// <summary>The closed table of unit symbols and decimal prefixes that files and flags may use.</summary>
/// <remarks>
/// Symbols and prefixes follow the SI Brochure, 9th edition (2019), tables 2 to 8. The speed of light is exact in the SI;
/// the astronomical unit is 149 597 870 700 m exactly (IAU 2012 Resolution B2).
/// </remarks>
internal static class UnitTable
{
    private static readonly FrozenDictionary<string, int> Prefixes = new Dictionary<string, int>
    {
        ["Q"] = 30,
        ["R"] = 27,
        ["Y"] = 24,
        ["Z"] = 21,
        ["E"] = 18,
        ["P"] = 15,
        ["T"] = 12,
        ["G"] = 9,
        ["M"] = 6,
        ["k"] = 3,
        ["m"] = -3,
        ["u"] = -6,
        ["\u00b5"] = -6, // micro sign
        ["\u03bc"] = -6, // Greek small letter mu
        ["n"] = -9,
        ["p"] = -12,
        ["f"] = -15,
        ["a"] = -18,
        ["z"] = -21,
        ["y"] = -24,
        ["r"] = -27,
        ["q"] = -30,
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, UnitOfMeasure> WithPrefix = new Dictionary<string, UnitOfMeasure>
    {
        ["m"] = Decimal(0, Dimension.OfLength),
        ["g"] = Decimal(-3, Dimension.OfMass),
        ["s"] = Decimal(0, Dimension.OfTime),
        ["K"] = Decimal(0, Dimension.OfTemperature),
        ["rad"] = Decimal(0, Dimension.OfAngle),
        ["Hz"] = Decimal(0, Dimension.OfFrequency),
        ["N"] = Decimal(0, Dimension.OfForce),
        ["Pa"] = Decimal(0, Dimension.OfPressure),
        ["J"] = Decimal(0, Dimension.OfEnergy),
        ["W"] = Decimal(0, Dimension.OfPower),
    }.ToFrozenDictionary();

    private static readonly FrozenDictionary<string, UnitOfMeasure> Alone = new Dictionary<string, UnitOfMeasure>
    {
        ["cm"] = Decimal(-2, Dimension.OfLength),
        ["dm"] = Decimal(-1, Dimension.OfLength),
        ["%"] = Decimal(-2, Dimension.None),
        ["ppm"] = Decimal(-6, Dimension.None),
        ["min"] = new(60, 1, 0, Dimension.OfTime),
        ["h"] = new(3600, 1, 0, Dimension.OfTime),
        ["d"] = new(86400, 1, 0, Dimension.OfTime),
        ["deg"] = new(Math.PI, 180, 0, Dimension.OfAngle),
        ["\u00b0"] = new(Math.PI, 180, 0, Dimension.OfAngle),
        ["arcmin"] = new(Math.PI, 10800, 0, Dimension.OfAngle),
        ["arcsec"] = new(Math.PI, 648000, 0, Dimension.OfAngle),
        ["rpm"] = new(1, 60, 0, Dimension.OfFrequency),
        ["c"] = new(299792458, 1, 0, Dimension.OfSpeed),
        ["AU"] = new(149597870700, 1, 0, Dimension.OfLength),
        ["au"] = new(149597870700, 1, 0, Dimension.OfLength),
    }.ToFrozenDictionary();

    /// <summary>Words that people write for units, and the symbols that they mean.</summary>
    private static readonly FrozenDictionary<string, string> Words = new Dictionary<string, string>
    {
        ["sec"] = "s",
        ["second"] = "s",
        ["hr"] = "h",
        ["hour"] = "h",
        ["day"] = "d",
        ["minute"] = "min",
        ["metre"] = "m",
        ["meter"] = "m",
        ["micron"] = "um",
        ["gram"] = "g",
        ["watt"] = "W",
        ["newton"] = "N",
        ["joule"] = "J",
        ["kelvin"] = "K",
        ["pascal"] = "Pa",
        ["hertz"] = "Hz",
        ["degree"] = "deg",
        ["radian"] = "rad",
        ["percent"] = "%",
    }.ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>Every symbol without prefixes, in the order of the alphabet.</summary>
    public static IReadOnlyList<string> Symbols { get; } =
    [.. WithPrefix.Keys.Concat(Alone.Keys).Order(StringComparer.Ordinal)];

    /// <summary>The symbols that take a prefix.</summary>
    public static IReadOnlyList<string> PrefixedSymbols { get; } = [.. WithPrefix.Keys.Order(StringComparer.Ordinal)];

    /// <summary>The prefixes.</summary>
    public static IReadOnlyList<string> PrefixSymbols { get; } = [.. Prefixes.Keys.Order(StringComparer.Ordinal)];

    /// <summary>Finds a symbol: alone first (so <c>min</c> is the minute), then as prefix and unit.</summary>
    public static bool TryFind(ReadOnlySpan<char> symbol, out UnitOfMeasure unit)
    {
        var alone = Alone.GetAlternateLookup<ReadOnlySpan<char>>();
        var prefixed = WithPrefix.GetAlternateLookup<ReadOnlySpan<char>>();
        if (alone.TryGetValue(symbol, out unit) || prefixed.TryGetValue(symbol, out unit))
        {
            return true;
        }
        var prefixes = Prefixes.GetAlternateLookup<ReadOnlySpan<char>>();
        if (
            symbol.Length > 1
            && prefixes.TryGetValue(symbol[..1], out int shift)
            && prefixed.TryGetValue(symbol[1..], out unit)
        )
        {
            unit = unit with { Shift = unit.Shift + shift };
            return true;
        }
        return false;
    }

    /// <summary>What to say about a symbol that is not in the table: the reason or the likely meaning, if there is one.</summary>
    public static string Hint(string symbol)
    {
        if (symbol is "degC" or "\u00b0C" or "C" or "degF")
        {
            return " (temperatures are written in kelvin, K)";
        }
        if (symbol is "rev" or "turn")
        {
            return " (turns are written in deg or rad, turns per time in Hz or rpm)";
        }
        if (Words.TryGetValue(symbol, out string? meant) || Words.TryGetValue(symbol.TrimEnd('s'), out meant))
        {
            return $" (write \"{meant}\")";
        }
        string[] likely =
        [
            .. Symbols
                .Concat(PrefixedSymbols.SelectMany(u => PrefixSymbols.Where(IsAscii).Select(p => p + u)))
                .Where(s => s.Equals(symbol, StringComparison.OrdinalIgnoreCase))
                .Distinct()
                .Order(StringComparer.Ordinal)
                .Take(3),
        ];
        return likely.Length == 0 ? "" : $" (did you mean {string.Join(" or ", likely.Select(s => $"\"{s}\""))}?)";
    }

    private static bool IsAscii(string text) => text.All(char.IsAscii);

    private static UnitOfMeasure Decimal(int shift, Dimension dimension) => new(1, 1, shift, dimension);
}
