using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Figures.Rendering;
using Xunit;

namespace Lightkeel.Studies.Tests.Figures;

/// <summary>
/// Colours keep apart for eyes of every kind. Colour space: OKLab, with its published matrices; simulated colour vision:
/// IEEE Trans. Vis. Comput. Graph. 15, 1291 (2009), table for severity 1.0.
/// </summary>
public sealed class ColourTests
{
    private static readonly double[][] Normal =
    [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
    ];
    private static readonly double[][] Protan =
    [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ];
    private static readonly double[][] Deutan =
    [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ];
    private static readonly double[][] Tritan =
    [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ];

    private static readonly Tone[] SeriesTones =
    [
        Tone.Indigo,
        Tone.Ember,
        Tone.Teal,
        Tone.Amber,
        Tone.Plum,
        Tone.Sky,
        Tone.Ink,
    ];

    [Fact]
    public void AnyTwoTones_StayApart_ForEveryKindOfColourVision()
    {
        foreach (double[][] vision in (double[][][])[Normal, Protan, Deutan, Tritan])
        {
            double[][] seen = [.. SeriesTones.Select(tone => OkLab(Times(vision, Linear(Palette.Of(tone)))))];
            for (int i = 0; i < seen.Length; i++)
            {
                for (int j = 0; j < i; j++)
                {
                    Assert.True(Distance(seen[i], seen[j]) > 0.065, $"{SeriesTones[i]} and {SeriesTones[j]}");
                }
            }
        }
    }

    [Fact]
    public void TonesOfLines_DifferInDashOrMark_ForPrintInGrey()
    {
        string[] looks =
        [
            .. SeriesTones.Select(tone =>
                string.Join('/', Palette.StrokeOf(tone, LineDash.Automatic, 4).Dash)
                + Palette.MarkOf(tone, hollow: false)
            ),
        ];
        Assert.Equal(looks.Length, looks.Distinct().Count());
    }

    [Fact]
    public void AreasOfVerdictsAndFates_DifferInLightness_ForPrintInGrey()
    {
        // CIE 1976 lightness L* of each area; ten steps of a hundred are seen side by side (common practice, no source).
        Tone[][] maps =
        [
            [Tone.Sky, Tone.Amber, Tone.Plum, Tone.Teal, Tone.Mist],
            [Tone.Sky, Tone.Amber, Tone.Plum, Tone.Grey, Tone.Mist],
            [Tone.Sky, Tone.Amber, Tone.Plum, Tone.Ember, Tone.Mist],
        ];
        foreach (Tone[] tones in maps)
        {
            double[] lightness = [.. tones.Select(t => Cie(Linear(Palette.FillOf(t)))).Order()];
            for (int i = 1; i < lightness.Length; i++)
            {
                Assert.InRange(lightness[i] - lightness[i - 1], 9.5, 100);
            }
        }
    }

    private static double Cie(double[] linear)
    {
        double y = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2];
        return 116 * Math.Cbrt(y) - 16;
    }

    [Fact]
    public void SequentialColours_GrowLighterEvenly()
    {
        double[] lightness =
        [
            .. Enumerable.Range(0, 101).Select(i => OkLab(Linear(ColourMap.Sequential.GetColor(i / 100.0)))[0]),
        ];
        double mean = (lightness[^1] - lightness[0]) / 100;
        for (int i = 1; i < lightness.Length; i++)
        {
            Assert.InRange(lightness[i] - lightness[i - 1], 0.5 * mean, 1.5 * mean); // eight bits per colour leave this much
        }
    }

    [Fact]
    public void DivergingColours_AreAsDarkAtBothEnds_AndLightestInTheMiddle()
    {
        double[] lightness =
        [
            .. Enumerable.Range(0, 101).Select(i => OkLab(Linear(ColourMap.Diverging.GetColor(i / 100.0)))[0]),
        ];
        Assert.Equal(lightness.Max(), lightness[50]);
        for (int i = 0; i < 50; i++)
        {
            Assert.Equal(lightness[i], lightness[100 - i], 0.02);
        }
    }

    private static double[] Linear(ScottPlot.Color colour) =>
        [.. new[] { colour.R, colour.G, colour.B }.Select(value => Decode(value / 255.0))];

    private static double Decode(double value) =>
        value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4);

    private static double[] OkLab(double[] rgb)
    {
        double[] cone = Times(
            [
                [0.4122214708, 0.5363325363, 0.0514459929],
                [0.2119034982, 0.6806995451, 0.1073969566],
                [0.0883024619, 0.2817188376, 0.6299787005],
            ],
            [.. rgb.Select(value => Math.Clamp(value, 0, 1))]
        );
        return Times(
            [
                [0.2104542553, 0.7936177850, -0.0040720468],
                [1.9779984951, -2.4285922050, 0.4505937099],
                [0.0259040371, 0.7827717662, -0.8086757660],
            ],
            [.. cone.Select(Math.Cbrt)]
        );
    }

    private static double[] Times(double[][] matrix, double[] vector) =>
        [.. matrix.Select(row => row.Zip(vector, (a, b) => a * b).Sum())];

    private static double Distance(double[] a, double[] b) => Math.Sqrt(a.Zip(b, (x, y) => (x - y) * (x - y)).Sum());
}
