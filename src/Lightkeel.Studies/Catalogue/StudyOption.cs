namespace Lightkeel.Studies.Catalogue;

/// <summary>An option or argument of a study, as every front end sees it: command line, form, reference page.</summary>
/// <remarks>Made by the functions of <see cref="Option"/>. Immutable.</remarks>
public abstract record StudyOption
{
    private protected StudyOption(string name, OptionKind kind, string help) =>
        (Name, Kind, Help) = (Output.ResultName.Require(name), kind, help);

    /// <summary>Name, lower case with hyphens, without leading hyphens.</summary>
    public string Name { get; }

    /// <summary>What it takes.</summary>
    public OptionKind Kind { get; }

    /// <summary>What it means, one sentence.</summary>
    public string Help { get; }

    /// <summary>A unit of the dimension that a quantity must have; null for other kinds.</summary>
    public string? Unit { get; init; }

    /// <summary>The default, as a user would write it; null when there is none.</summary>
    public string? Default { get; init; }

    /// <summary>The words of a choice.</summary>
    public IReadOnlyList<string> Choices { get; init; } = [];

    /// <summary>Least number accepted, in SI units; null when unlimited.</summary>
    public double? Minimum { get; init; }

    /// <summary>Greatest number accepted, in SI units; null when unlimited.</summary>
    public double? Maximum { get; init; }

    /// <summary>True when it must be given.</summary>
    public bool IsRequired { get; init; }

    /// <summary>True when it may be given several times.</summary>
    public bool IsRepeatable { get; init; }

    /// <summary>True when it stands without a name, by its position.</summary>
    public bool IsPositional { get; init; }

    /// <summary>Placeholder of its value in help, in capitals; null for a usual one.</summary>
    public string? ValueName { get; init; }

    /// <summary>How it is written on the command line: <c>--name</c>, or <c>NAME</c> when positional.</summary>
    public string Written => IsPositional ? Placeholder : "--" + Name;

    /// <summary>Placeholder of its value: the stated one or one that follows from the kind.</summary>
    public string Placeholder =>
        ValueName
        ?? (
            IsPositional
                ? Name.ToUpperInvariant()
                : Kind switch
                {
                    OptionKind.Flag => "",
                    OptionKind.Choice => string.Join('|', Choices),
                    OptionKind.Integer => "N",
                    OptionKind.Number => "X",
                    OptionKind.Quantity => "QUANTITY",
                    OptionKind.File => "FILE",
                    OptionKind.Design => "DESIGN",
                    OptionKind.StudyFile => "STUDY",
                    _ => "TEXT",
                }
        );
}

/// <summary>An option whose value a study reads as one type.</summary>
/// <typeparam name="T">Type of a value.</typeparam>
public sealed record StudyOption<T> : StudyOption
    where T : notnull
{
    internal StudyOption(string name, OptionKind kind, string help)
        : base(name, kind, help) { }
}
