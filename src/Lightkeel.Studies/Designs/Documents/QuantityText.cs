using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Documents;

/// <summary>What a text says when it is read as a quantity: the quantity, or what is wrong with it.</summary>
internal sealed record QuantityText(Quantity Quantity, string? Fault)
{
    public static QuantityText Read(string text) =>
        Quantity.TryParse(text, out Quantity quantity, out string? fault) ? new(quantity, null) : new(default, fault);
}
