using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>A column of a table: its header is the name with the unit behind it, for instance <c>radius_m</c>.</summary>
/// <param name="Name">Name without unit.</param>
/// <param name="Kind">What its numbers may be.</param>
/// <param name="Description">What it means, in one sentence.</param>
/// <param name="ExampleHeader">A header as it may stand in a file.</param>
public sealed record ColumnSpec(string Name, NumberKind Kind, string Description, string ExampleHeader)
{
    /// <summary>True when the column may be absent; its values are then zero.</summary>
    public bool IsOptional { get; init; }

    /// <summary>Reads a header: the unit it names, when it is a header of this column.</summary>
    /// <remarks>After the name, the first part multiplies and the others divide: <c>irradiance_W_m2</c> is in W/m^2.</remarks>
    /// <returns>True when the header begins with the name of this column.</returns>
    internal bool TryMatch(string header, out string unit, out Dimension? dimension)
    {
        unit = "";
        dimension = null;
        if (header != Name && !header.StartsWith(Name + "_", StringComparison.Ordinal))
        {
            return false;
        }
        string[] parts = header.Length == Name.Length ? [] : header[(Name.Length + 1)..].Split('_');
        unit = string.Join('/', parts.Select(Powered));
        dimension = Quantity.TryParse("1 " + unit, out Quantity one, out _) ? one.Dimension : null;
        return true;
    }

    /// <summary>Turns <c>m2</c> into <c>m^2</c>.</summary>
    private static string Powered(string part)
    {
        string symbol = part.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');
        return symbol.Length == 0 || symbol.Length == part.Length ? part : $"{symbol}^{part[symbol.Length..]}";
    }
}
