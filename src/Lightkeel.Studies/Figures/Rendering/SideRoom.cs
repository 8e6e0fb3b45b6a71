namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Room beside the axes of a panel, pixels. The same for all panels of a column, their axes stand above one another.</summary>
/// <param name="Left">For the labels of the vertical axis.</param>
/// <param name="Right">For a legend.</param>
internal readonly record struct SideRoom(float Left, float Right)
{
    /// <summary>Whether a panel's axes fill the room that its rectangle leaves: not those of equal scales, colour bars or surfaces.</summary>
    public static bool Fits(Panel panel) =>
        !panel.EqualAspect && !panel.Items.Any(item => item is HeatMap or CategoryMap or SurfaceMesh);

    /// <summary>The larger of two.</summary>
    public SideRoom Or(SideRoom other) => new(Math.Max(Left, other.Left), Math.Max(Right, other.Right));
}
