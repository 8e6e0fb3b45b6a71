using ScottPlot;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Colours, dashes and marks of the tones.</summary>
/// <remarks>
/// Chosen in the OKLab colour space so that any two tones stay apart for full colour vision and for simulated protan, deutan and
/// tritan vision (matrices of IEEE Trans. Vis. Comput. Graph. 15, 1291 (2009), severity 1): least distance 0.07, and differ
/// in lightness, dash and mark for print in grey.
/// </remarks>
internal static class Palette
{
    public static readonly Color Ink = Color.FromHex("#2F3136");
    public static readonly Color Muted = Color.FromHex("#5C616B");
    public static readonly Color GridLine = Color.FromHex("#E3E6EB");
    public const float LineWidth = 4;
    public const float ContourWidth = 3.5f;
    public const float MarkerLineWidth = 2.5f;
    public const float MarkSize = 15;

    private static readonly Tone[] Order =
    [
        Tone.Indigo,
        Tone.Ember,
        Tone.Teal,
        Tone.Amber,
        Tone.Plum,
        Tone.Sky,
        Tone.Ink,
    ];

    public static Color Of(Tone tone) =>
        tone switch
        {
            Tone.Indigo => Color.FromHex("#253D9E"),
            Tone.Ember => Color.FromHex("#D0560A"),
            Tone.Teal => Color.FromHex("#128C7E"),
            Tone.Amber => Color.FromHex("#E3AA2B"),
            Tone.Plum => Color.FromHex("#A0307F"),
            Tone.Sky => Color.FromHex("#6AAEE8"),
            Tone.Grey => Color.FromHex("#8A909B"),
            Tone.Mist => Color.FromHex("#D5D9E0"),
            _ => Ink,
        };

    /// <summary>
    /// The colour of an area of a map of kinds: the tone, lighter or darker, so that kinds side by side differ by ten steps of lightness
    /// (CIE 1976, 0 to 100) and more and stay apart in a print in grey.
    /// </summary>
    public static Color FillOf(Tone tone) =>
        tone switch
        {
            Tone.Mist => Color.FromHex("#ECEEF2"),
            Tone.Sky => Color.FromHex("#A8D4F7"),
            Tone.Amber => Color.FromHex("#DB981F"),
            Tone.Grey => Color.FromHex("#868C97"),
            Tone.Ember => Color.FromHex("#C24E07"),
            Tone.Teal => Color.FromHex("#0D776B"),
            Tone.Plum => Color.FromHex("#8A286D"),
            _ => Of(tone),
        };

    /// <summary>The dash of a line: a line that is alone in its panel needs none.</summary>
    public static LineDash DashOf(LineSeries line, Panel panel) =>
        line.Dash == LineDash.Automatic && panel.Items.OfType<LineSeries>().Count() == 1 ? LineDash.Solid : line.Dash;

    /// <summary>A line's look: its colour, and a dash that is its tone's own unless another is asked for.</summary>
    public static Stroke StrokeOf(Tone tone, LineDash dash, float width)
    {
        float[] dashes = dash switch
        {
            LineDash.Solid => [],
            LineDash.Dashed => [3.5f, 2],
            LineDash.Dotted => [0.8f, 1.5f],
            _ => tone switch
            {
                Tone.Ember => [4.5f, 1.8f],
                Tone.Teal => [4.5f, 1.5f, 1, 1.5f],
                Tone.Amber => [1.2f, 1.4f],
                Tone.Plum => [6.5f, 1.5f, 1, 1.5f, 1, 1.5f],
                Tone.Sky => [2.5f, 1.3f],
                _ => [],
            },
        };
        return new(Of(tone), width, [.. dashes.Select(length => length * Math.Max(width, 2))]);
    }

    public static MarkerStyle MarkStyleOf(Tone tone, bool hollow, float size) =>
        new()
        {
            Shape = MarkOf(tone, hollow),
            Size = MarkSize * size,
            FillColor = Of(tone),
            LineColor = Of(tone),
            LineWidth = 3f * size,
            OutlineColor = hollow ? Of(tone) : Colors.White,
            OutlineWidth = hollow ? 0 : 1.5f * size,
        };

    public static MarkerShape MarkOf(Tone tone, bool hollow) =>
        tone switch
        {
            Tone.Ember => hollow ? MarkerShape.OpenSquare : MarkerShape.FilledSquare,
            Tone.Teal => hollow ? MarkerShape.OpenTriangleUp : MarkerShape.FilledTriangleUp,
            Tone.Amber => hollow ? MarkerShape.OpenDiamond : MarkerShape.FilledDiamond,
            Tone.Plum => hollow ? MarkerShape.OpenTriangleDown : MarkerShape.FilledTriangleDown,
            Tone.Sky => MarkerShape.OpenCircle,
            Tone.Ink => MarkerShape.Eks,
            _ => hollow ? MarkerShape.OpenCircle : MarkerShape.FilledCircle,
        };

    /// <summary>Gives each item its tone: its own, or the next that no item of the panel has.</summary>
    public static Tone[] Assign(IReadOnlyList<PlotItem> items)
    {
        HashSet<Tone> used = [.. items.Select(item => item.Tone)];
        Queue<Tone> free = new(Order.Where(tone => !used.Contains(tone)));
        return [.. items.Select(item => item.Tone != Tone.Automatic ? item.Tone : Next(item, free))];
    }

    private static Tone Next(PlotItem item, Queue<Tone> free) =>
        item is TextNote or MarkerLine or HeatMap or CategoryMap or ContourSeries ? Tone.Ink
        : free.Count > 0 ? free.Dequeue()
        : Tone.Grey;
}
