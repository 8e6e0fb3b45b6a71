using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>Design texts that tests begin with, and ways to spoil them.</summary>
internal static class DesignSamples
{
    /// <summary>The smallest sound design.</summary>
    public const string Small = """
        title = "small"

        [beam]
        power = "1 kW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1 m"

        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1.2 m"
        surface = "foil"
        areal_density = "0.11 g/m^2"

        [surface.foil]
        kind = "mirror"
        """;

    public static string Tern => DesignTemplates.Find("ball")!.Text;

    public static string Cone => DesignTemplates.Find("cone")!.Text;

    public static string Replaced(this string text, string old, string with) =>
        text.Contains(old, StringComparison.Ordinal)
            ? text.Replace(old, with, StringComparison.Ordinal)
            : throw new ArgumentException($"The sample does not contain {old}.");

    public static IReadOnlyList<DesignFault> Faults(string text) => DesignDocument.Parse(text, "d.toml").Read().Faults;

    public static string Listed(string text) => string.Join('\n', Faults(text));
}
