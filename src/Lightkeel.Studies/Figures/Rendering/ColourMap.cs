using ScottPlot;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>Colours of heat maps, perceptually even: equal steps of value are equal steps of OKLab lightness.</summary>
internal sealed class ColourMap : IColormap
{
    /// <summary>Dark violet over teal to cream; lightness 0.24 to 0.95, hue turning once from 292 to 88 degrees.</summary>
    public static readonly ColourMap Sequential = new(
        "Lightkeel sequential",
        "21163F 222255 1C3069 01407C 03527B 016180 037185 04818A 09928C 0CA38B 03B582 5CBF7B 8AC978 B0D17C D1D989 EDE29C FFEDC3"
    );

    /// <summary>Blue over light grey to brown; lightness 0.355 at both ends and 0.955 in the middle.</summary>
    public static readonly ColourMap Diverging = new(
        "Lightkeel diverging",
        "21357A 2D4997 3860B6 4677D1 5D91E1 7BAAEB 9EC2F0 C6DAF1 F0F0F0 ECD2BF E7B392 DD9467 D0763E BE5917 A34300 853201 672301"
    );

    private readonly Color[] _stops;

    private ColourMap(string name, string stops)
    {
        Name = name;
        _stops = [.. stops.Split(' ').Select(stop => Color.FromHex("#" + stop))];
    }

    public string Name { get; }

    public static ColourMap Of(HeatColours colours) => colours == HeatColours.Diverging ? Diverging : Sequential;

    public Color GetColor(double position)
    {
        if (!double.IsFinite(position))
        {
            return Colors.Transparent;
        }
        double at = Math.Clamp(position, 0, 1) * (_stops.Length - 1);
        int below = Math.Min((int)at, _stops.Length - 2);
        return _stops[below].MixedWith(_stops[below + 1], at - below);
    }
}
