using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>Regular expressions for quantities, so that an editor marks a missing or misspelt unit while typing.</summary>
/// <remarks>They know symbols and form, not dimensions: the reader is stricter.</remarks>
internal static class QuantityPattern
{
    private const string Number = @"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?";

    /// <summary>A number with a unit.</summary>
    public static string WithUnit { get; } = $@"^\s*{Number}\s*{UnitNames.ExpressionPattern}\s*$";

    /// <summary>A pure number, also in percent or parts per million.</summary>
    public static string Pure { get; } = $@"^\s*{Number}\s*(?:%|ppm)?\s*$";

    /// <summary>A number with or without a unit.</summary>
    public static string Any { get; } = $@"^\s*{Number}\s*(?:{UnitNames.ExpressionPattern})?\s*$";
}
