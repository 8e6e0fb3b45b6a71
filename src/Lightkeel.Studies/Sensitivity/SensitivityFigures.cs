using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>A tornado per metric: what a small change of each number does to it, the largest on top.</summary>
internal static class SensitivityFigures
{
    private const int MostBars = 12;
    private const double HalfWidth = 0.36;

    // A bar this much shorter than the longest is not seen.
    private const double Visible = 2e-3;

    public static IReadOnlyList<Figure> Of(SensitivityInput input, SensitivityResult r) =>
        [.. r.Metrics.Select(m => Tornado(input, r, m)).OfType<Figure>()];

    private static Figure? Tornado(SensitivityInput input, SensitivityResult r, SensitivityMetric m)
    {
        double largest = m.Ranking.Count > 0 ? m.Ranking.Max(e => Math.Abs(e.ChangeSi ?? 0)) : 0;
        SensitivityEntry[] bars =
        [
            .. m
                .Ranking.Where(e => Math.Abs(e.ChangeSi ?? 0) > Visible * largest && SensitivitySummary.IsSure(e))
                .Take(MostBars),
        ];
        if (bars.Length == 0)
        {
            return null;
        }
        bool relative = m.ValueSi != 0;
        double scale = relative ? 100 / Math.Abs(m.ValueSi) : 1;
        string unit = relative ? "%" : m.Unit;
        return new()
        {
            Name = "tornado-" + m.Name.Replace('_', '-').ToLowerInvariant(),
            Title = $"{(input.Design.Title is { } title ? title + ": " : "")}{m.Text}",
            Note = FormattableString.Invariant(
                $"To first order, for a change of each number by {100 * r.StepFraction:G4} % of its value (of the craft's radius or mass, or of a radian, where it is zero). Dark: the number grows; light: it falls. Value {SummaryRow.Write(m.ValueSi)} {m.Unit}."
            ),
            Panels =
            [
                new()
                {
                    X = new($"change of {m.Text.Split(" (")[0]}", unit),
                    Y = new("", "")
                    {
                        Minimum = 0.4,
                        Maximum = bars.Length + 0.6,
                        Names = [.. bars.Reverse().Select(e => e.Path)],
                    },
                    Items =
                    [
                        .. bars.SelectMany((e, i) => Bar(scale * e.ChangeSi!.Value, bars.Length - i)),
                        new MarkerLine(0, IsVertical: true) { Tone = Tone.Ink, Dash = LineDash.Solid },
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };
    }

    private static IEnumerable<PlotItem> Bar(double change, int place)
    {
        yield return Rectangle(-change, place, Tone.Sky, 0.55);
        yield return Rectangle(change, place, Tone.Indigo, 0.85);
    }

    private static PolygonArea Rectangle(double to, int place, Tone tone, double opacity) =>
        new([0, to, to, 0], [place - HalfWidth, place - HalfWidth, place + HalfWidth, place + HalfWidth])
        {
            Tone = tone,
            Opacity = opacity,
            HasOutline = false,
        };
}
