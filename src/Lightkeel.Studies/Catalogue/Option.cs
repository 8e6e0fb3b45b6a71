namespace Lightkeel.Studies.Catalogue;

/// <summary>Makes options. A study keeps each in a static field, lists it, and reads its value by it.</summary>
/// <example>
/// <code>
/// private static readonly StudyOption&lt;long&gt; Rides = Option.Integer("rides", "How many rides are flown.") with { Default = "1", Minimum = 1 };
/// </code>
/// </example>
public static class Option
{
    /// <summary>A pure number.</summary>
    public static StudyOption<double> Number(string name, string help) => new(name, OptionKind.Number, help);

    /// <summary>A number with a unit; the study reads it in SI units.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="help">What it means.</param>
    /// <param name="unit">A unit of the dimension it must have, such as <c>m</c>.</param>
    public static StudyOption<double> Quantity(string name, string help, string unit) =>
        new(name, OptionKind.Quantity, help) { Unit = unit };

    /// <summary>A whole number.</summary>
    public static StudyOption<long> Integer(string name, string help) => new(name, OptionKind.Integer, help);

    /// <summary>Any text.</summary>
    public static StudyOption<string> Text(string name, string help, string? valueName = null) =>
        new(name, OptionKind.Text, help) { ValueName = valueName };

    /// <summary>A file that exists; the study reads its path.</summary>
    public static StudyOption<string> File(string name, string help) => new(name, OptionKind.File, help);

    /// <summary>A switch.</summary>
    public static StudyOption<bool> Flag(string name, string help) => new(name, OptionKind.Flag, help);

    /// <summary>One of several words.</summary>
    public static StudyOption<string> Choice(string name, string help, params IReadOnlyList<string> choices) =>
        new(name, OptionKind.Choice, help) { Choices = choices };

    /// <summary>A study file that names a design: the first argument of studies that need more than a design.</summary>
    /// <param name="help">What it means.</param>
    public static StudyOption<DesignRequest> StudyFile(string help) =>
        new("study", OptionKind.StudyFile, help) { IsPositional = true, IsRequired = true };

    /// <summary>The design that a study works on: its first argument.</summary>
    public static StudyOption<IOpenDesign> Design() =>
        new("design", OptionKind.Design, "The design file (TOML).") { IsPositional = true, IsRequired = true };
}
