namespace Lightkeel.Physics.Units;

/// <summary>The unit symbols that are understood, for help texts and for the schema of design files.</summary>
public static class UnitNames
{
    private const string Power = @"(?:\^[-\u2212]?[0-9]+|\u207b?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+)?";

    /// <summary>Symbols that take a decimal prefix.</summary>
    public static IReadOnlyList<string> WithPrefix => UnitTable.PrefixedSymbols;

    /// <summary>Symbols that stand alone.</summary>
    public static IReadOnlyList<string> Alone { get; } = [.. UnitTable.Symbols.Except(UnitTable.PrefixedSymbols)];

    /// <summary>Decimal prefixes.</summary>
    public static IReadOnlyList<string> Prefixes => UnitTable.PrefixSymbols;

    /// <summary>A regular expression (ECMA-262) of unit expressions, without anchors.</summary>
    public static string ExpressionPattern { get; } = Product(1);

    private static string Symbol =>
        $"(?:[{string.Concat(Prefixes)}]?(?:{string.Join('|', WithPrefix)})|{string.Join('|', Alone)}|1)";

    private static string Product(int depth)
    {
        string factor = depth == 0 ? Symbol + Power : $@"(?:{Symbol}|\(\s*{Product(depth - 1)}\s*\)){Power}";
        return $@"{factor}(?:(?:\s*[*\u00b7\u22c5/]\s*|\s+){factor})*";
    }
}
