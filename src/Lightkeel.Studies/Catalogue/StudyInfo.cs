namespace Lightkeel.Studies.Catalogue;

/// <summary>How a study introduces itself, on every front end.</summary>
/// <param name="Id">Name of the command, lower case with hyphens.</param>
/// <param name="Title">A few words, such as a heading.</param>
/// <param name="Summary">One sentence without full stop, for lists of commands.</param>
public sealed record StudyInfo(string Id, string Title, string Summary)
{
    /// <summary>What it does, what its results mean and where it holds; paragraphs are parted by empty lines.</summary>
    public string Help { get; init; } = "";

    /// <summary>Command lines without the program's name, each with a short explanation.</summary>
    public IReadOnlyList<StudyExample> Examples { get; init; } = [];

    /// <summary>Keys of the published sources it rests on.</summary>
    public IReadOnlyList<string> CitationKeys { get; init; } = [];
}

/// <summary>An example of use.</summary>
/// <param name="Arguments">The command line behind the program's name.</param>
/// <param name="Meaning">What it does.</param>
public sealed record StudyExample(string Arguments, string Meaning);
