using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Figures of a check: the craft in its beam to scale, force and torque curves, roots in the complex plane.</summary>
internal static class CheckFigures
{
    private const int OutlinePoints = 64;
    private static readonly Tone[] Growing = [Tone.Ember, Tone.Amber];
    private static readonly Tone[] Quiet = [Tone.Indigo, Tone.Teal, Tone.Plum, Tone.Sky];

    public static IReadOnlyList<Figure> Of(DesignModel model, CheckResult r) =>
        [
            Section(model, r),
            Forces(model, r),
            Roots(model, r),
            .. r.Spin is { } spin
                ? [SpinFigures.Of(TitleOf(model, "a tilted spin axis"), spin)]
                : Array.Empty<Figure>(),
            .. SurvivalFigures.Of(model, r),
        ];

    private static string TitleOf(DesignModel model, string what) =>
        model.Design.Title.Length > 0 ? $"{model.Design.Title}: {what}" : what;

    private static Figure Section(DesignModel model, CheckResult r)
    {
        double radius = model.Craft.Surfaces.Max(s =>
            s.Shape.MaximumRadiusMetres + new Vec3(s.OriginMetres.X, s.OriginMetres.Y, 0).Length
        );
        double beam = Math.Max(1.15 * radius, Math.Min(1.1 * model.Beam.Profile.ExtentMetres, 3 * radius));
        return new()
        {
            Name = "section",
            Title = TitleOf(model, "craft and beam in section"),
            Note =
                "Light travels towards +z. The craft is drawn to scale, untilted on the beam axis; dashed lines on the left mark its rim.",
            Panels = [Irradiance(model, beam, radius), Craft(model, r, 1.2 * radius)],
            Columns = 2,
        };
    }

    private static Panel Irradiance(DesignModel model, double half, double rim)
    {
        const int Points = 241;
        double[] x = [.. Enumerable.Range(0, Points).Select(i => half * (2.0 * i / (Points - 1) - 1))];
        double[] y = [.. x.Select(v => 1e-6 * model.Beam.Irradiance(v, 0))];
        return new()
        {
            Title = "Irradiance across the beam",
            X = new("x", "m") { Minimum = -half, Maximum = half },
            Y = new("irradiance", "MW/m²") { Minimum = 0 },
            Items =
            [
                new BandSeries(x, [.. y.Select(_ => 0.0)], y) { Tone = Tone.Amber },
                new LineSeries(x, y) { Tone = Tone.Ember },
                new MarkerLine(-rim, IsVertical: true) { Tone = Tone.Indigo },
                new MarkerLine(rim, IsVertical: true) { Tone = Tone.Indigo },
            ],
            Legend = LegendPlace.None,
        };
    }

    private static Panel Craft(DesignModel model, CheckResult r, double half)
    {
        List<PlotItem> items = [];
        foreach (PlacedSurface surface in model.Craft.Surfaces)
        {
            foreach (int side in (int[])[1, -1])
            {
                (double[] x, double[] z) = Outline(surface, side);
                items.Add(
                    new LineSeries(x, z)
                    {
                        Tone = Tone.Indigo,
                        Label = side > 0 && model.Craft.Surfaces.Count > 1 ? surface.Name : null,
                        Dash = LineDash.Solid,
                    }
                );
            }
        }
        Vec3 center = model.Craft.Mass.CenterOfMassMetres;
        Tone[] tones = [Tone.Teal, Tone.Plum, Tone.Sky, Tone.Ink];
        int shown = 0;
        foreach (MassPart part in model.Parts.Where(p => p is not ThinShell))
        {
            items.Add(PartItem(part, tones[shown++ % tones.Length]));
        }
        items.Add(
            new ScatterSeries([center.X], [center.Z])
            {
                Tone = Tone.Ember,
                IsHollow = true,
                Label = "centre of mass",
            }
        );
        (double low, double high) = HeightRange(model);
        double room = 0.12 * Math.Max(high - low, half);
        double arrow = 0.5 * room + 0.1 * half;
        double[] at = [-0.6 * half, 0, 0.6 * half];
        items.Add(
            new ArrowSeries(
                at,
                [.. at.Select(_ => low - room - arrow)],
                [.. at.Select(_ => 0.0)],
                [.. at.Select(_ => arrow)]
            )
            {
                Tone = Tone.Amber,
                Label = "light",
            }
        );
        return new()
        {
            Title = "Craft",
            X = new("x", "m") { Minimum = -half, Maximum = half },
            Y = new("z", "m") { Minimum = low - room - 1.2 * arrow, Maximum = high + room },
            Items = items,
            EqualAspect = true,
            Legend = LegendPlace.Outside,
        };
    }

    private static PlotItem PartItem(MassPart part, Tone tone)
    {
        Vec3 c = part.BodyMoments.CentroidMetres;
        if (part is RodMass rod)
        {
            Vec3 half = 0.5 * rod.LengthMetres * (part.Placement.BodyFromPart * rod.Direction);
            return new LineSeries([c.X - half.X, c.X + half.X], [c.Z - half.Z, c.Z + half.Z])
            {
                Tone = tone,
                Label = part.Name,
                Dash = LineDash.Solid,
            };
        }
        return new ScatterSeries([c.X], [c.Z]) { Tone = tone, Label = part.Name };
    }

    private static (double[] X, double[] Z) Outline(PlacedSurface surface, int side)
    {
        List<double> xs = [];
        List<double> zs = [];
        for (int p = 0; p < surface.Shape.Pieces.Count; p++)
        {
            (double start, double end) = surface.Shape.Pieces[p];
            for (int i = 0; i <= OutlinePoints; i++)
            {
                MeridianPoint m = surface.Shape.At(p, start + (end - start) * i / OutlinePoints);
                Vec3 body =
                    surface.OriginMetres + surface.BodyFromSurface * new Vec3(side * m.RadiusMetres, 0, m.HeightMetres);
                xs.Add(body.X);
                zs.Add(body.Z);
            }
        }
        return ([.. xs], [.. zs]);
    }

    private static (double Low, double High) HeightRange(DesignModel model)
    {
        IEnumerable<double> heights = model
            .Craft.Surfaces.SelectMany(s => Outline(s, 1).Z.Concat(Outline(s, -1).Z))
            .Concat(model.Parts.Select(p => p.BodyMoments.CentroidMetres.Z))
            .Append(model.Craft.Mass.CenterOfMassMetres.Z);
        return (heights.Min(), heights.Max());
    }

    private static Figure Forces(DesignModel model, CheckResult r)
    {
        List<Panel> panels = [];
        IReadOnlyList<ForceScan> scans = ForceScan.Of(model, r);
        foreach (ForceScan scan in scans)
        {
            string towards = scan.Unit == "m" ? "offset x" : "tilt about y";
            panels.Add(Curve(scan, towards, "lateral force", "N", v => v.ForceNewtons.X));
            panels.Add(Curve(scan, towards, "torque about y", "N m", v => v.TorqueNewtonMetres.Y));
        }
        return new()
        {
            Name = "forces",
            Title = TitleOf(model, "force and torque against offset and tilt"),
            Note = ScanNote(scans),
            Panels = panels,
            Columns = 2,
        };
    }

    private static string ScanNote(IReadOnlyList<ForceScan> scans)
    {
        if (scans.Count < 2)
        {
            return "Untilted. Tilt curves are left out: any tilt makes light bounce twice.";
        }
        string end =
            scans[1].End < ForceScan.LargestTilt
                ? FormattableString.Invariant($" Beyond {scans[1].End:G3} rad of tilt light would bounce twice.")
                : "";
        return "Untilted for the offset curves, on the axis for the tilt curves. Force restores where it has the sign opposite to the offset."
            + end;
    }

    private static Panel Curve(
        ForceScan scan,
        string coordinate,
        string name,
        string unit,
        Func<PressureReading, double> value
    )
    {
        double[] y = [.. scan.Readings.Select(value)];
        // Rounding noise of a curve that is zero by symmetry is drawn as zero.
        double thrust = scan.Readings.Max(v => v.ForceNewtons.Length);
        bool isZero = y.All(v => Math.Abs(v) < 1e-9 * thrust);
        return new()
        {
            X = new(coordinate, scan.Unit),
            Y = isZero ? new(name, unit) { Minimum = -thrust, Maximum = thrust } : new(name, unit),
            Items =
            [
                new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid },
                new MarkerLine(0, IsVertical: true) { Tone = Tone.Grey, Dash = LineDash.Solid },
                new LineSeries(scan.At, isZero ? [.. y.Select(_ => 0.0)] : y) { Tone = Tone.Indigo },
            ],
            Legend = LegendPlace.None,
        };
    }

    private static Figure Roots(DesignModel model, CheckResult r)
    {
        double[] growth = [.. r.Modes.SelectMany(m => (double[])[m.GrowthPerSecond, m.GrowthPerSecond])];
        double[] angular =
        [
            .. r.Modes.SelectMany(m => (double[])[2 * Math.PI * m.FrequencyHertz, -2 * Math.PI * m.FrequencyHertz]),
        ];
        double size = Math.Max(growth.Concat(angular).Max(Math.Abs), 1e-12);
        List<PlotItem> items =
        [
            new MarkerLine(0, IsVertical: true)
            {
                Tone = Tone.Grey,
                Dash = LineDash.Solid,
                Text = "neutral",
            },
            new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Dotted },
        ];
        for (int i = 0; i < r.Modes.Count; i++)
        {
            CheckedMode m = r.Modes[i];
            double w = 2 * Math.PI * m.FrequencyHertz;
            bool grows = m.GrowthPerSecond > 0;
            items.Add(
                new ScatterSeries([m.GrowthPerSecond, m.GrowthPerSecond], [w, -w])
                {
                    Tone = grows ? Growing[i % Growing.Length] : Quiet[i % Quiet.Length],
                    IsHollow = !grows,
                    Label =
                        m.FrequencyHertz > 0
                            ? FormattableString.Invariant(
                                $"{m.FrequencyHertz:G4} Hz, growth {m.GrowthPerSecond:G3} 1/s"
                            )
                            : FormattableString.Invariant($"no swing, growth {m.GrowthPerSecond:G3} 1/s"),
                }
            );
        }
        return new()
        {
            Name = "roots",
            Title = TitleOf(model, $"roots of the linear motion ({r.Verdict})"),
            Note =
                "Right of the neutral line a motion grows; on it the craft swings for ever, the best a lossless craft can do.",
            Panels =
            [
                new()
                {
                    X = new("growth rate", "1/s") { Minimum = -1.25 * size, Maximum = 1.25 * size },
                    Y = new("angular frequency", "rad/s") { Minimum = -1.25 * size, Maximum = 1.25 * size },
                    Items = items,
                    Legend = LegendPlace.Outside,
                },
            ],
        };
    }
}
