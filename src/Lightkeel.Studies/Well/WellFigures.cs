using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Well;

/// <summary>Figures of a well: section, bowl from above, frequency against amplitude; for other craft slice work and curl.</summary>
internal static class WellFigures
{
    private const int BowlPoints = 97;
    private const int BowlRows = 61;
    private const int BowlColumns = 145;
    private const double FigureAccuracy = 1e-6;

    public static IReadOnlyList<Figure> Of(WellInput input, WellResult r)
    {
        List<Figure> figures = [Section(input, r)];
        if (r.HasPotential)
        {
            figures.AddRange(Bowls(input, r));
        }
        if (r.Swings.Count > 0)
        {
            figures.Add(Swings(input, r));
        }
        if (r.Holding is { } holding)
        {
            figures.Add(WellHoldingFigure.Of(TitleOf(input, "how long the well holds (scale)"), holding));
        }
        if (r.Curl is { } curl)
        {
            figures.Add(Curl(input, curl));
        }
        return figures;
    }

    private static string TitleOf(WellInput input, string what) =>
        input.Design.Title is { } title ? $"{title}: {what}" : what;

    private static Figure Section(WellInput input, WellResult r)
    {
        IReadOnlyList<double> work = (r.PotentialJoules ?? r.SliceWorkJoules)!;
        string name = r.HasPotential ? "potential over the bottom" : "slice work (not a potential)";
        string distance = r.HasPotential ? "distance from the bottom" : "distance from the trim";
        List<PlotItem> top = [new LineSeries(r.RadiusMetres, work) { Tone = Tone.Indigo, Label = name }];
        List<PlotItem> below =
        [
            new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid },
            new LineSeries(r.RadiusMetres, r.ForceNewtons) { Tone = Tone.Indigo },
        ];
        if (r is { RimRadiusMetres: { } rim, DepthJoules: { } depth })
        {
            top.Add(
                new MarkerLine(depth, IsVertical: false)
                {
                    Tone = Tone.Ember,
                    Text = $"depth {SummaryRow.Write(depth)} J",
                }
            );
            MarkerLine edge = new(rim, IsVertical: true) { Tone = Tone.Ink, Text = $"rim {SummaryRow.Write(rim)} m" };
            top.Add(edge);
            below.Add(edge with { Text = null });
        }
        return new()
        {
            Name = "section",
            Title = TitleOf(
                input,
                r.HasPotential ? "potential well in section" : "slice work along a ray, NOT a potential"
            ),
            Note = r.HasPotential
                ? "Below zero the force pulls back. Beyond the rim the craft leaves."
                : "At fixed attitude. Force and torque of this craft have no potential; see the curl.",
            Panels =
            [
                new()
                {
                    X = new(distance, "m"),
                    Y = new(name, "J"),
                    Items = top,
                    Legend = LegendPlace.None,
                },
                new()
                {
                    X = new(distance, "m"),
                    Y = new("force outward", "N"),
                    Items = below,
                    Legend = LegendPlace.None,
                },
            ],
        };
    }

    private static IEnumerable<Figure> Bowls(WellInput input, WellResult r)
    {
        double half = 1.3 * (r.RimRadiusMetres ?? 0.5 * r.RadiusMetres[^1]);
        DesignModel model = input.Design.Model;
        CraftState state = new(r.BottomOffsetMetres, model.Design.Start.SpeedMetresPerSecond);
        LateralWell well = LateralWell.Measure(
            EngineChoice.Build(input.Engine, model, FigureAccuracy),
            model.Beam,
            new(state.Pose, Math.Sqrt(2) * half) { Threads = Environment.ProcessorCount }
        );
        double[] at = [.. Enumerable.Range(0, BowlPoints).Select(i => half * (2.0 * i / (BowlPoints - 1) - 1))];
        double?[][] values = [.. at.Select(y => at.Select(x => (double?)WellBowl.Potential(well, x, y)).ToArray())];
        List<PlotItem> items =
        [
            new HeatMap(at, at, values) { ValueLabel = "potential over the bottom", ValueUnit = "J" },
        ];
        IReadOnlyList<PlotPolyline> rim = [];
        if (r.DepthJoules is { } depth)
        {
            double[] shares = [0.2, 0.4, 0.6, 0.8];
            foreach (double share in shares)
            {
                ContourSeries level = WellBowl.Contour(at, values, share * depth, Tone.Grey, null);
                items.Add(level);
                items.AddRange(WellBowl.Named(level, share));
            }
            ContourSeries pass =
                well.IsRound && r.RimRadiusMetres is { } edge
                    ? WellBowl.Circle(edge, Tone.Ink, "lowest pass (rim)")
                    : WellBowl.Contour(at, values, depth, Tone.Ink, "height of the lowest pass");
            items.Add(pass);
            rim = pass.Pieces;
        }
        yield return new()
        {
            Name = "bowl",
            Title = TitleOf(input, "potential well from above"),
            Note = "Grey: levels as shares of the depth, inside and outside of the rim. Distances from the bottom.",
            Panels =
            [
                new()
                {
                    X = new("x", "m"),
                    Y = new("y", "m"),
                    Items = items,
                    EqualAspect = true,
                    Legend = LegendPlace.Outside,
                },
            ],
        };
        yield return Perspective(input, r, well, half, rim);
    }

    // Points on circles, so that the edge of the picture is one.
    private static Figure Perspective(
        WellInput input,
        WellResult r,
        LateralWell well,
        double half,
        IReadOnlyList<PlotPolyline> rim
    )
    {
        double edge = r.RimRadiusMetres is null ? half : 1.15 / 1.3 * half;
        double[] radii = [.. Enumerable.Range(0, BowlRows).Select(i => edge * i / (BowlRows - 1))];
        double[] angles = [.. Enumerable.Range(0, BowlColumns).Select(j => 2 * Math.PI * j / (BowlColumns - 1))];
        double[][] Each(Func<double, double, double> of) =>
            [.. radii.Select(s => angles.Select(a => of(s * Math.Cos(a), s * Math.Sin(a))).ToArray())];
        return new()
        {
            Name = "bowl-perspective",
            Title = TitleOf(input, "potential well"),
            Note = r.RimRadiusMetres is null
                ? "Distances from the bottom."
                : "Black: height of the lowest pass; a craft with less energy stays inside. Distances from the bottom.",
            Panels =
            [
                new()
                {
                    X = new("x", "m"),
                    Y = new("y", "m"),
                    Items =
                    [
                        new SurfaceMesh(
                            Each((x, _) => x),
                            Each((_, y) => y),
                            Each((x, y) => WellBowl.Potential(well, x, y))
                        )
                        {
                            ValueLabel = "potential over the bottom",
                            ValueUnit = "J",
                            Lines = WellBowl.Within(rim, edge),
                            LineValue = r.DepthJoules ?? 0,
                        },
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };
    }

    private static Figure Swings(WellInput input, WellResult r) =>
        new()
        {
            Name = "frequency",
            Title = TitleOf(input, "frequency against amplitude"),
            Note =
                "Swings through the bottom along the ray over the lowest pass; at the rim the frequency falls to zero.",
            Panels =
            [
                new()
                {
                    X = new("amplitude", "m") { Minimum = 0 },
                    Y = new("frequency", "Hz") { Minimum = 0 },
                    Items =
                    [
                        new LineSeries(
                            [.. r.Swings.Select(s => s.AmplitudeMetres)],
                            [.. r.Swings.Select(s => s.FrequencyHertz)]
                        )
                        {
                            Tone = Tone.Indigo,
                        },
                        new MarkerLine(r.RimRadiusMetres ?? 0, IsVertical: true) { Tone = Tone.Ink, Text = "rim" },
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };

    private static Figure Curl(WellInput input, IReadOnlyList<WellCurl> curl)
    {
        double[] radius = [.. curl.Select(c => c.RadiusMetres)];
        return new()
        {
            Name = "curl",
            Title = TitleOf(input, "curl of force and torque"),
            Note = "A field with a potential has no curl. Here a loop through offset and tilt gains or loses energy.",
            Panels =
            [
                new()
                {
                    X = new("distance from the trim", "m"),
                    Y = new("dFx/dtilt − dTy/dx", "N"),
                    Items =
                    [
                        new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid },
                        new LineSeries(radius, [.. curl.Select(c => c.OffsetTiltNewtons)]) { Tone = Tone.Indigo },
                    ],
                    Legend = LegendPlace.None,
                },
            ],
        };
    }

    private readonly record struct CraftState(double[] Offset, double Speed)
    {
        public Physics.Pressure.CraftPose Pose =>
            Physics.Pressure.CraftPose.From(Offset[0], Offset[1], velocityMetresPerSecond: new(0, 0, Speed));
    }
}
