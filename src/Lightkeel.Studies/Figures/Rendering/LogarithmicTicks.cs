using System.Globalization;
using ScottPlot;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Ticks of a logarithmic axis, whose coordinate is the decimal logarithm: powers of ten, and 2 to 9 between.</summary>
internal sealed class LogarithmicTicks(double pixelsPerTick) : ITickGenerator
{
    public Tick[] Ticks { get; private set; } = [];

    public int MaxTickCount { get; set; } = 1000;

    public void Regenerate(CoordinateRange range, Edge edge, PixelLength size, Paint paint, LabelStyle labelStyle)
    {
        (double low, double high) = (Math.Min(range.Min, range.Max), Math.Max(range.Min, range.Max));
        if (!double.IsFinite(low) || !double.IsFinite(high) || !(high > low) || high - low > 700)
        {
            Ticks = [];
            return;
        }
        double decadesPerTick = (high - low) / Math.Max(2, size.Length / pixelsPerTick);
        int stride = Math.Max(1, (int)Math.Ceiling(decadesPerTick - 1e-9));
        bool labelBetween = high - low < 1.7;
        List<Tick> ticks = [];
        for (int decade = (int)Math.Floor(low); decade <= (int)Math.Ceiling(high); decade++)
        {
            for (int lead = 1; lead <= 9; lead++)
            {
                double at = decade + Math.Log10(lead);
                if (at < low - 1e-9 || at > high + 1e-9)
                {
                    continue;
                }
                bool major = lead == 1 ? decade % stride == 0 : labelBetween && lead is 2 or 5 && stride == 1;
                major &= lead == 1 || labelBetween;
                ticks.Add(major ? Tick.Major(at, Label(lead, decade)) : Tick.Minor(at));
            }
        }
        Ticks = [.. ticks];
    }

    private static string Label(int lead, int decade)
    {
        if (decade is >= -2 and <= 3)
        {
            return (lead * Math.Pow(10, decade)).ToString("0.##", CultureInfo.InvariantCulture);
        }
        string power = "10" + AxisUnits.Superscript(decade);
        return lead == 1 ? power : $"{lead.ToString(CultureInfo.InvariantCulture)}·{power}";
    }
}
