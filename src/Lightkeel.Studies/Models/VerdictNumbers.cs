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
        "material.",
        "limits.",
        "budget.",
        "mission.",
    ];

    // Keys inside sections that it reads, which only survival looks at.
    private static readonly string[] UnreadEnds =
    [
        ".internal_pressure",
        ".absorptivity",
        ".emissivity",
        ".outer_radius",
        ".wall",
    ];

    /// <summary>Whether mass, light pressure at the trim or linear stability can depend on a number.</summary>
    /// <param name="path">Its dotted path.</param>
    public static bool AreRead(string path) =>
        !Array.Exists(Unread, prefix => path.StartsWith(prefix, StringComparison.Ordinal))
        && !Array.Exists(UnreadEnds, end => path.EndsWith(end, StringComparison.Ordinal))
        && !IsHeatLaw(path);

    // surface.NAME.heat.KEY
    private static bool IsHeatLaw(string path) => path.Split('.') is ["surface", _, "heat", ..];
}
