using ScottPlot;
using ScottPlot.AxisPanels;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>The look of panels: white, a light grid, type that is readable on a slide.</summary>
internal static class PanelStyle
{
    public const float LabelSize = 28;
    public const float TickSize = 24;
    public const float NoteSize = 23;
    public const float PanelTitleSize = 28;

    /// <summary>How far labels beside an axis are lowered so that digits are centred on their tick, in text sizes.</summary>
    private const float TickDrop = 0.16f;

    public static void Apply(Plot plot, Panel panel, float size)
    {
        plot.FigureBackground.Color = Colors.White;
        plot.DataBackground.Color = Colors.White;
        plot.Grid.MajorLineColor = Palette.GridLine;
        plot.Grid.MajorLineWidth = 1.6f * size;
        plot.Grid.MinorLineColor = Palette.GridLine.WithOpacity(0.5);
        plot.Grid.MinorLineWidth =
            panel.X.Scale == AxisScale.Logarithmic || panel.Y.Scale == AxisScale.Logarithmic ? size : 0;
        foreach (IAxis axis in plot.Axes.GetAxes())
        {
            axis.Label.FontName = FigureFonts.Family;
            axis.Label.FontSize = LabelSize * size;
            axis.Label.Bold = false;
            axis.Label.SubpixelText = true;
            axis.Label.ForeColor = Palette.Ink;
            ApplyTicks(axis, size);
        }
        SetDistances(plot, size);
        HideFarSides(plot);
        ApplyTitle(plot, panel.Title, size);
        plot.HideLegend();
    }

    public static void ApplyTicks(IAxis axis, float size)
    {
        axis.TickLabelStyle.FontName = FigureFonts.Family;
        axis.TickLabelStyle.FontSize = TickSize * size;
        axis.TickLabelStyle.ForeColor = Palette.Muted;
        axis.TickLabelStyle.SubpixelText = true;
        axis.TickLabelStyle.OffsetY = axis.Edge is Edge.Left or Edge.Right ? TickDrop * TickSize * size : 0;
        axis.MajorTickStyle.Length = 8 * size;
        axis.MajorTickStyle.Width = 1.8f * size;
        axis.MajorTickStyle.Color = Palette.Muted;
        axis.MinorTickStyle.Length = 4 * size;
        axis.MinorTickStyle.Width = 1.2f * size;
        axis.MinorTickStyle.Color = Palette.Muted;
        axis.FrameLineStyle.Color = Palette.Muted;
        axis.FrameLineStyle.Width = 1.8f * size;
    }

    private static void SetDistances(Plot plot, float size)
    {
        if (plot.Axes.Left is AxisBase left && plot.Axes.Bottom is AxisBase bottom)
        {
            left.PaddingBetweenTickAndAxisLabels = new(16 * size, 16 * size, 0, 0);
            bottom.PaddingBetweenTickAndAxisLabels = new(0, 0, 8 * size, 8 * size);
        }
    }

    private static void HideFarSides(Plot plot)
    {
        plot.Axes.Right.FrameLineStyle.Width = 0;
        plot.Axes.Top.FrameLineStyle.Width = 0;
    }

    private static void ApplyTitle(Plot plot, string? title, float size)
    {
        plot.Axes.Title.Label.Text = title ?? "";
        plot.Axes.Title.IsVisible = title is not null;
        plot.Axes.Title.Label.FontName = FigureFonts.Family;
        plot.Axes.Title.Label.FontSize = PanelTitleSize * size;
        plot.Axes.Title.Label.Bold = true;
        plot.Axes.Title.Label.ForeColor = Palette.Ink;
    }
}
