using System.Buffers.Binary;
using System.Xml.Linq;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Figures.Rendering;
using SkiaSharp;
using Xunit;

namespace Lightkeel.Studies.Tests.Figures;

public sealed class FigureRendererTests
{
    public static TheoryData<string> Names => [.. SampleFigures.All.Select(figure => figure.Name)];

    /// <summary>PNG (ISO/IEC 15948): eight bytes of signature, then the header chunk with width and height.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public void Png_OfEachKind_IsAPictureOfTheSizeAskedFor_AndNotBlank(string name)
    {
        byte[] png = FigureRenderer.ToPng(Sample(name), 640, 360);
        Assert.Equal([137, 80, 78, 71, 13, 10, 26, 10], png[..8]);
        Assert.Equal(640, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        Assert.Equal(360, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
        using SKBitmap picture = SKBitmap.Decode(png);
        int inked = picture.Pixels.Count(pixel => pixel != SKColors.White);
        Assert.InRange(inked, 640 * 360 / 100, 640 * 360);
        Assert.Contains(picture.Pixels.Take(640 * 34), pixel => pixel.Red < 100); // the title has ink: there is a font
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Svg_OfEachKind_IsXmlWithTitleAxesAndScale(string name)
    {
        Figure figure = Sample(name);
        XElement svg = XDocument.Parse(FigureRenderer.ToSvg(figure)).Root!;
        XNamespace space = "http://www.w3.org/2000/svg";
        Assert.Equal("0 0 1600 900", (string)svg.Attribute("viewBox")!);
        Assert.Equal(figure.Title, (string)svg.Element(space + "title")!);
        string[] texts = [.. svg.Descendants(space + "text").Select(text => text.Value.Trim())];
        Assert.Contains(texts, text => text.StartsWith(figure.Panels[0].X.Label, StringComparison.Ordinal));
        Assert.Contains(texts, text => text.StartsWith(figure.Panels[^1].Y.Label, StringComparison.Ordinal));
        Assert.All(
            svg.Descendants(space + "text"),
            text => Assert.StartsWith("DejaVu Sans, ", (string)text.Attribute("font-family")!, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Figures_AreTheSameBytes_DrawnAgainOrByManyThreads()
    {
        Figure figure = SampleFigures.Lines();
        byte[] png = FigureRenderer.ToPng(figure, 640, 360);
        string svg = FigureRenderer.ToSvg(figure);
        Parallel.For(
            0,
            4,
            _ =>
            {
                Assert.Equal(png, FigureRenderer.ToPng(figure, 640, 360));
                Assert.Equal(svg, FigureRenderer.ToSvg(figure));
            }
        );
    }

    [Fact]
    public void Svg_HasDashesAsShapes_AndPrefixesOnAxes()
    {
        string svg = FigureRenderer.ToSvg(SampleFigures.Lines());
        Assert.DoesNotContain("stroke-dasharray", svg, StringComparison.Ordinal);
        Assert.Contains("(mN)", svg, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(100, 900)]
    public void Size_ThatIsTooSmall_IsRefused(int width, int height) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => FigureRenderer.ToPng(SampleFigures.Craft(), width, height));

    [Theory]
    [MemberData(nameof(Names))]
    public void Json_OfEachKind_ComesBackTheSame(string name)
    {
        byte[] json = FigureJson.Write(Sample(name));
        Assert.Equal(json, FigureJson.Write(FigureJson.Read(json)));
    }

    private static Figure Sample(string name) => SampleFigures.All.Single(figure => figure.Name == name);
}
