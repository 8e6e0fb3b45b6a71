using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Models;

/// <summary>Reads quantities and design files for the catalogue.</summary>
public sealed class DesignInputReader : IInputReader
{
    /// <inheritdoc/>
    public string? ReadQuantity(string text, string unit, out double siValue)
    {
        Dimension dimension = Quantity.TryParse("1 " + unit, out Quantity one, out _)
            ? one.Dimension
            : throw new ArgumentException($"\"{unit}\" is no unit.", nameof(unit));
        bool read = Quantity.TryParse(text, dimension, out siValue, out string? fault);
        return read ? null : fault;
    }

    /// <inheritdoc/>
    public IOpenDesign OpenDesign(DesignRequest request) => OpenedDesign.Open(request);
}
