using System.Globalization;
using ScottPlot;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Ticks at round numbers of the shown unit: steps of 1, 2 or 5 times a power of ten.</summary>
internal sealed class LinearTicks(double factor, double pixelsPerTick) : ITickGenerator
{
    public Tick[] Ticks { get; private set; } = [];

    public int MaxTickCount { get; set; } = 1000;

    public void Regenerate(CoordinateRange range, Edge edge, PixelLength size, Paint paint, LabelStyle labelStyle)
    {
        (double low, double high) = (Math.Min(range.Min, range.Max) / factor, Math.Max(range.Min, range.Max) / factor);
        if (!double.IsFinite(low) || !double.IsFinite(high) || !(high > low))
        {
            Ticks = [];
            return;
        }
        double step = RoundStep((high - low) / Math.Max(2, size.Length / pixelsPerTick));
        if (edge is Edge.Bottom or Edge.Top)
        {
            step = WidenForLabels(step, low, high, size.Length, labelStyle.FontSize);
        }
        string format = Format(step);
        List<Tick> ticks = [];
        double first = Math.Ceiling(low / step - 1e-9);
        double last = Math.Floor(high / step + 1e-9);
        for (double k = first; k <= last && ticks.Count < MaxTickCount; k++)
        {
            string label = (k == 0 ? 0 : k * step).ToString(format, CultureInfo.InvariantCulture).Replace('-', '−');
            ticks.Add(Tick.Major(k * step * factor, label));
        }
        Ticks = [.. ticks];
    }

    internal static string Format(double step) =>
        "F" + Math.Clamp((int)Math.Ceiling(-Math.Log10(step) - 1e-9), 0, 15).ToString(CultureInfo.InvariantCulture);

    /// <summary>Widens the step until labels, at about 0.64 of their height per character, do not touch.</summary>
    private static double WidenForLabels(double step, double low, double high, float length, float height)
    {
        for (int tries = 0; tries < 6; tries++)
        {
            string longest = Math.Max(Math.Abs(low), Math.Abs(high))
                .ToString(Format(step), CultureInfo.InvariantCulture);
            double needed = (longest.Length + (low < 0 ? 1 : 0) + 1.2) * 0.64 * height;
            if (step / (high - low) * length >= needed)
            {
                break;
            }
            step = RoundStep(1.5 * step);
        }
        return step;
    }

    internal static double RoundStep(double raw)
    {
        double decade = Math.Pow(10, Math.Floor(Math.Log10(raw)));
        double lead = raw / decade;
        return decade
            * (
                lead <= 1 ? 1
                : lead <= 2 ? 2
                : lead <= 5 ? 5
                : 10
            );
    }
}
