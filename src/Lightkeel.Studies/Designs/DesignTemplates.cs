using System.Text;

namespace Lightkeel.Studies.Designs;

/// <summary>A commented design to begin with, as <c>lightkeel new KIND FILE</c> writes it.</summary>
/// <param name="Kind">The word that asks for it.</param>
/// <param name="Title">What it is, in a few words.</param>
/// <param name="SampleName">Name of the sample design whose text it is.</param>
public sealed record DesignTemplate(string Kind, string Title, string SampleName)
{
    /// <summary>The text of the design file.</summary>
    public string Text
    {
        get
        {
            using Stream stream =
                typeof(DesignTemplate).Assembly.GetManifestResourceStream($"designs/{SampleName}.toml")
                ?? throw new InvalidOperationException($"The sample design {SampleName} is not part of this build.");
            using StreamReader reader = new(stream, Encoding.UTF8);
            return reader.ReadToEnd();
        }
    }
}

/// <summary>The designs to begin with. Their scenarios are invented.</summary>
public static class DesignTemplates
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<DesignTemplate> All { get; } =
    [
        new("ball", "mirror ball on a ring beam, the courier Tern", "tern"),
        new("cone", "mouth-first cone with its bus on a boom, the courier Tern-C", "tern-c"),
        new("mirror", "concave spherical mirror with a boom, Shearwater", "shearwater"),
        new("rig", "laboratory levitation of a milligram cone, Bench", "bench"),
    ];

    /// <summary>The template of a kind, or null when there is none.</summary>
    /// <param name="kind">The word, for instance <c>ball</c>.</param>
    public static DesignTemplate? Find(string kind) => All.FirstOrDefault(t => t.Kind == kind);
}
