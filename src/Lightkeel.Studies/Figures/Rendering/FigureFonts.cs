using ScottPlot;
using SkiaSharp;

namespace Lightkeel.Studies.Figures.Rendering;

/// <summary>The font that travels with the program, so that figures have text on machines without fonts.</summary>
internal sealed class FigureFonts : IFontResolver
{
    public const string Family = "DejaVu Sans";
    private static readonly Lazy<FigureFonts> Installed = new(Install);
    private readonly SKTypeface _regular = Load("DejaVuSans.ttf");
    private readonly SKTypeface _bold = Load("DejaVuSans-Bold.ttf");

    /// <summary>Makes the font the one that figures use. Cheap when already done.</summary>
    public static void Use() => _ = Installed.Value;

    public static SKTypeface Regular => Installed.Value._regular;

    public static SKTypeface Bold => Installed.Value._bold;

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        CreateTypeface(fontName, weight >= FontWeight.SemiBold, slant != FontSlant.Upright);

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) =>
        fontName == Family
            ? bold
                ? _bold
                : _regular
            : null;

    private static FigureFonts Install()
    {
        FigureFonts fonts = new();
        ScottPlot.Fonts.FontResolvers.Insert(0, fonts);
        ScottPlot.Fonts.Default = Family;
        return fonts;
    }

    private static SKTypeface Load(string file)
    {
        using Stream stream =
            typeof(FigureFonts).Assembly.GetManifestResourceStream("Lightkeel.Fonts." + file)
            ?? throw new InvalidOperationException($"The font {file} is missing from the program.");
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data);
    }
}
