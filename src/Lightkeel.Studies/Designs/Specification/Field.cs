using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>One key of a design file: what it is called, what it means and what it takes.</summary>
/// <remarks>The same object reads the key, addresses its numbers, and writes its part of the schema and of the reference page.</remarks>
public abstract class Field
{
    private protected Field(string key, string description, bool isRequired)
    {
        Key = key;
        Description = description;
        IsRequired = isRequired;
    }

    /// <summary>The key as it is written in the file.</summary>
    public string Key { get; }

    /// <summary>What it means, in one sentence.</summary>
    public string Description { get; }

    /// <summary>True when the key must be given.</summary>
    public bool IsRequired { get; }

    /// <summary>What it takes, for messages and for the reference page: <c>expected …</c>.</summary>
    public abstract string Accepted { get; }

    /// <summary>What holds when the key is absent, as it would be written; null when nothing does.</summary>
    public virtual string? DefaultText => null;

    /// <summary>The schema of the value.</summary>
    internal abstract JsonObject Schema();

    /// <summary>Follows a path into the value and makes the change at its end.</summary>
    /// <param name="current">The value now, or null when the key is absent.</param>
    /// <param name="path">The path, standing behind this key.</param>
    /// <returns>The changed value, or null when the path leads nowhere (the path then holds the fault).</returns>
    internal virtual Node? Change(Node? current, PathChange path) => path.Last(null, current);
}

/// <summary>A key of a design file whose value has a type.</summary>
/// <typeparam name="T">Type of the value.</typeparam>
public abstract class Field<T> : Field
{
    private protected Field(string key, string description, bool isRequired)
        : base(key, description, isRequired) { }

    /// <summary>Reads a value that is there.</summary>
    internal abstract T Read(TableReading table, Node node);

    /// <summary>The value of an absent, optional key.</summary>
    internal abstract T Absent(TableReading table);

    /// <summary>A harmless value to go on with after a fault.</summary>
    internal abstract T Placeholder { get; }
}
