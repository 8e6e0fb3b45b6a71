using System.Reflection;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli;

/// <summary>What the command line needs from the rest of the program.</summary>
internal sealed record CommandServices
{
    /// <summary>The studies: one command each.</summary>
    public required StudyCatalogue Catalogue { get; init; }

    /// <summary>Reads quantities and opens designs.</summary>
    public required IInputReader Reader { get; init; }

    /// <summary>Starter designs of the command <c>new</c>; without any there is no such command.</summary>
    public IReadOnlyList<StarterDesign> Starters { get; init; } = [];

    /// <summary>The JSON Schema of design files, for the command <c>schema</c>; null for no such command.</summary>
    public Func<string>? DesignSchema { get; init; }

    /// <summary>Writes the JSON Schema of search studies; null without one.</summary>
    public Func<string>? SearchSchema { get; init; }

    /// <summary>Version of the program.</summary>
    public string Version { get; init; } = VersionOfAssembly();

    private static string VersionOfAssembly() =>
        typeof(CommandServices).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>() is { } attribute
            ? attribute.InformationalVersion.Split('+')[0]
            : "0.0.0";
}

/// <summary>A commented design to start from.</summary>
/// <param name="Kind">Word on the command line.</param>
/// <param name="Summary">What it describes, one sentence without full stop.</param>
/// <param name="Text">Makes its text.</param>
internal sealed record StarterDesign(string Kind, string Summary, Func<string> Text);
