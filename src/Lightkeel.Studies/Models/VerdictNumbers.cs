namespace Lightkeel.Studies.Models;

/// <summary>Which numbers of a design the linear verdict at the start reads.</summary>
public static class VerdictNumbers
{
    private static readonly string[] Unread =
    [
        "ride.",
        "noise.",
        "dropout.",
        "scatter.",
        "start.offset",
        "start.tilt",
        "start.velocity",
        "start.rate",
        "start.roll",
        "beam.director.",
        "beam.wavelength",
        "surroundings.",
    ];

    /// <summary>Whether mass, light pressure at the trim or linear stability can depend on a number.</summary>
    /// <param name="path">Its dotted path.</param>
    public static bool AreRead(string path) =>
        !Array.Exists(Unread, prefix => path.StartsWith(prefix, StringComparison.Ordinal));
}
