namespace Lightkeel.Physics.Materials;

/// <summary>What is known of a material. A property that nobody stated is absent, not zero. Immutable; safe to share.</summary>
/// <param name="Name">Its name in design files.</param>
/// <param name="Description">What it is, in a few words.</param>
/// <param name="Values">The properties that are known.</param>
public sealed record Material(
    string Name,
    string Description,
    IReadOnlyDictionary<MaterialProperty, SourcedValue> Values
)
{
    /// <summary>A material of which nothing is known.</summary>
    public static Material Unknown { get; } =
        new("unknown", "no material is named", new Dictionary<MaterialProperty, SourcedValue>());

    /// <summary>A property with its source, or null when it is not known.</summary>
    public SourcedValue? Find(MaterialProperty property) => Values.GetValueOrDefault(property);

    /// <summary>The value of a property in SI units, or null when it is not known.</summary>
    public double? Value(MaterialProperty property) => Find(property)?.Value;

    /// <summary>The same material with some properties stated otherwise.</summary>
    /// <param name="name">The new name.</param>
    /// <param name="stated">The properties that replace those of the table.</param>
    public Material With(string name, IEnumerable<KeyValuePair<MaterialProperty, double>> stated)
    {
        ArgumentNullException.ThrowIfNull(stated);
        Dictionary<MaterialProperty, SourcedValue> values = new(Values);
        foreach ((MaterialProperty property, double value) in stated)
        {
            values[property] = new(value, $"the design, material.{name}.{property.Key()}", Provenance.Design);
        }
        return new(name, Description, values);
    }
}
