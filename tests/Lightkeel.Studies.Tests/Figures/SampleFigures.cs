using Lightkeel.Studies.Figures;

namespace Lightkeel.Studies.Tests.Figures;

/// <summary>A figure of each kind. All data is invented.</summary>
public static class SampleFigures
{
    public static IReadOnlyList<Figure> All =>
        [Lines(), LogLines(), Heat(), LogHeat(), Verdicts(), Craft(), Grid(), Margins(), Surface()];

    public static Figure Surface()
    {
        double[][] Each(Func<double, double, double> of) =>
            [.. Range(-1, 1, 21).Select(y => Range(-1, 1, 21).Select(x => of(x, y)).ToArray())];
        return new()
        {
            Name = "surface",
            Title = "A saddle in perspective",
            Panels =
            [
                new()
                {
                    X = new("x", "m"),
                    Y = new("y", "m"),
                    Items =
                    [
                        new SurfaceMesh(Each((x, _) => x), Each((_, y) => y), Each((x, y) => 1e-3 * (x * x - y * y)))
                        {
                            ValueLabel = "potential",
                            ValueUnit = "J",
                            Lines = [new([-1, 1], [-1, 1])],
                        },
                    ],
                },
            ],
        };
    }

    public static Figure Lines()
    {
        double[] x = Range(-2, 2, 161);
        return new()
        {
            Name = "lines",
            Title = "Lateral force on a ball sail in a ring beam",
            Note = "Invented data. Band: interval of 95 %.",
            Panels =
            [
                new()
                {
                    X = new("offset from the beam axis", "m"),
                    Y = new("lateral force", "N"),
                    Items =
                    [
                        new BandSeries(x, Map(x, v => Force(v) - 2e-4), Map(x, v => Force(v) + 2e-4))
                        {
                            Label = "95 % interval",
                            Tone = Tone.Indigo,
                        },
                        new LineSeries(x, Map(x, Force)) { Label = "surface quadrature", Tone = Tone.Indigo },
                        new LineSeries(x, Map(x, v => 0.8 * Force(v))) { Label = "order 2" },
                        new LineSeries(x, Map(x, v => 0.6 * Force(v))) { Label = "order 4" },
                        new LineSeries(x, Map(x, v => 0.4 * Force(v))) { Label = "order 8" },
                        new LineSeries(x, Map(x, v => 0.2 * Force(v))) { Label = "order 16" },
                        new ScatterSeries(Range(-1.8, 1.8, 13), Map(Range(-1.8, 1.8, 13), Force))
                        {
                            Label = "ray tracing",
                        },
                        new MarkerLine(1.2, true) { Text = "rim 1.2 m", Tone = Tone.Ink },
                        new MarkerLine(0, false) { Tone = Tone.Grey, Dash = LineDash.Solid },
                    ],
                },
            ],
        };
    }

    public static Figure LogLines()
    {
        double[] f = [.. Range(-2, 4, 200).Select(v => Math.Pow(10, v))];
        return new()
        {
            Name = "log-lines",
            Title = "Pointing noise against the resonances of the craft",
            Panels =
            [
                new()
                {
                    X = new("frequency", "Hz") { Scale = AxisScale.Logarithmic },
                    Y = new("one-sided density", "m²/Hz") { Scale = AxisScale.Logarithmic },
                    Items =
                    [
                        new LineSeries(f, Map(f, v => 1e-8 / (1 + v * v / 4e4))) { Label = "expected" },
                        new LineSeries(f, Map(f, v => 3e-7 / (1 + v * v))) { Label = "allowed for 120 s" },
                        new MarkerLine(0.31, true) { Text = "lateral mode", Tone = Tone.Plum },
                        new MarkerLine(2.2, true) { Text = "tilt mode", Tone = Tone.Teal },
                    ],
                },
            ],
        };
    }

    public static Figure Heat()
    {
        double[] x = Range(0.3, 2.0, 60);
        double[] y = Range(0.1, 1.0, 40);
        return new()
        {
            Name = "heat",
            Title = "Growth rate over ring radius and width",
            Note = "Invented data. Hatched: no trim.",
            Panels =
            [
                new()
                {
                    X = new("ring radius", "m"),
                    Y = new("ring half-width", "m"),
                    Items =
                    [
                        new HeatMap(
                            x,
                            y,
                            Cells(x, y, (a, b) => a < 0.45 && b < 0.2 ? null : Math.Sin(3 * a) * Math.Cos(4 * b))
                        )
                        {
                            ValueLabel = "growth rate",
                            ValueUnit = "1/s",
                            Colours = HeatColours.Diverging,
                        },
                        new ContourSeries([new(Map(y, b => 1.05 + 0.1 * Math.Sin(5 * b)), y)])
                        {
                            Label = "boundary of stability",
                            TextOnLine = "0",
                        },
                        new ScatterSeries([1.05], [0.45]) { Label = "design", Tone = Tone.Amber },
                    ],
                },
            ],
        };
    }

    public static Figure LogHeat()
    {
        double[] x = [.. Range(-3, 1, 30).Select(v => Math.Pow(10, v))];
        double[] y = [1, 2, 5, 10, 20];
        return new()
        {
            Name = "log-heat",
            Title = "Depth of the well over mass and power",
            Panels =
            [
                new()
                {
                    X = new("mass", "kg") { Scale = AxisScale.Logarithmic },
                    Y = new("power", "GW"),
                    Items =
                    [
                        new HeatMap(x, y, Cells(x, y, (a, b) => 1e-9 * b / a))
                        {
                            ValueLabel = "depth",
                            ValueUnit = "J",
                            Scale = AxisScale.Logarithmic,
                        },
                    ],
                },
            ],
        };
    }

    public static Figure Verdicts()
    {
        double[] x = Range(40, 90, 51);
        double[] y = Range(-1.5, 0.5, 41);
        string[] names = ["neutrally stable", "damped", "divergent", "flutter", "undecided"];
        Tone[] tones = [Tone.Sky, Tone.Indigo, Tone.Ember, Tone.Amber, Tone.Mist];
        return new()
        {
            Name = "verdicts",
            Title = "Verdict over half-angle and height of the bus",
            Panels =
            [
                new()
                {
                    X = new("half-angle", "deg"),
                    Y = new("height of the bus", "m"),
                    Items =
                    [
                        new CategoryMap(
                            x,
                            y,
                            [
                                .. y.Select(b =>
                                    (IReadOnlyList<int>)
                                        [
                                            .. x.Select(a =>
                                                b > 0.2 ? 2
                                                : a < 52 ? 3
                                                : b < -1 ? 1
                                                : a > 85 ? 4
                                                : a > 70 && b > 0 ? -1
                                                : 0
                                            ),
                                        ]
                                ),
                            ],
                            [.. names.Zip(tones, (name, tone) => new MapCategory(name, tone))]
                        ),
                        new ScatterSeries([65], [-0.6]) { Label = "this design", Tone = Tone.Ink },
                    ],
                },
            ],
        };
    }

    public static Figure Craft()
    {
        double[] angle = Range(0, 2 * Math.PI, 121);
        return new()
        {
            Name = "craft",
            Title = "The craft in the beam, cross-section",
            Panels =
            [
                new()
                {
                    X = new("across the beam", "m"),
                    Y = new("along the beam", "m"),
                    EqualAspect = true,
                    Items =
                    [
                        new PolygonArea(Map(angle, a => 1.2 * Math.Cos(a)), Map(angle, a => 1.2 * Math.Sin(a)))
                        {
                            Label = "canopy",
                        },
                        new ArrowSeries(
                            [-1, -0.5, 0, 0.5, 1],
                            [-2.2, -2.2, -2.2, -2.2, -2.2],
                            [0, 0, 0, 0, 0],
                            [0.7, 0.7, 0.7, 0.7, 0.7]
                        )
                        {
                            Label = "light",
                            Tone = Tone.Amber,
                        },
                        new ScatterSeries([0], [0]) { Label = "centre of mass", Tone = Tone.Ink },
                        new TextNote(0, 0, "bus") { Side = TextSide.Above },
                    ],
                },
            ],
        };
    }

    public static Figure Grid()
    {
        double[] t = Range(0, 120, 400);
        Panel Of(string title, string label, string unit, Func<double, double> f, Tone tone) =>
            new()
            {
                Title = title,
                X = new("time", "s"),
                Y = new(label, unit),
                Items = [new LineSeries(t, Map(t, f)) { Tone = tone }],
            };
        return new()
        {
            Name = "grid",
            Title = "Tern courier: the ride",
            Columns = 2,
            Panels =
            [
                Of("Offset", "offset", "m", v => 0.05 * Math.Cos(0.8 * v) * Math.Exp(-v / 400), Tone.Indigo),
                Of("Tilt", "tilt", "rad", v => 2e-4 * Math.Sin(1.7 * v), Tone.Ember),
                Of("Speed", "speed", "m/s", v => 416 * v, Tone.Teal),
                Of("Temperature", "temperature", "K", v => 300 + 400 * (1 - Math.Exp(-v / 6)), Tone.Plum),
            ],
        };
    }

    public static Figure Margins() =>
        new()
        {
            Name = "margins",
            Title =
                "Modes in the complex plane of a craft with a title that is much too long to fit on one line of a slide at this size",
            Columns = 2,
            Panels =
            [
                new()
                {
                    X = new("growth rate", "1/s"),
                    Y = new("angular frequency", "rad/s"),
                    Items =
                    [
                        new ScatterSeries([-1e-6, 2e-6, -3e-6], [1.2, 3.4, 5.6]) { Label = "modes", IsHollow = true },
                        new MarkerLine(0, true) { Text = "neutral" },
                    ],
                },
                new()
                {
                    X = new("spin", "Hz"),
                    Y = new("frequency", "Hz"),
                    Items =
                    [
                        new LineSeries([0, 1, 2, 3], [0.2, 0.5, 1.1, 2.3]) { Label = "nutation", HasMarks = true },
                        new LineSeries([0, 1, 2, 3], [0.2, 0.1, 0.06, 0.03]) { Label = "precession", HasMarks = true },
                    ],
                },
            ],
        };

    private static double Force(double x) => -3e-3 * x * Math.Exp(-x * x / 0.8);

    private static double[] Range(double from, double to, int count) =>
        [.. Enumerable.Range(0, count).Select(i => from + (to - from) * i / (count - 1))];

    private static double[] Map(double[] x, Func<double, double> f) => [.. x.Select(f)];

    private static IReadOnlyList<IReadOnlyList<double?>> Cells(
        double[] x,
        double[] y,
        Func<double, double, double?> f
    ) => [.. y.Select(b => (IReadOnlyList<double?>)[.. x.Select(a => f(a, b))])];
}
