using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>Figure and tables about a spinning craft: averaged force and displaced trim against the tilt of the spin axis.</summary>
internal static class SpinFigures
{
    public static Figure Of(string title, CheckedSpin s) =>
        new()
        {
            Name = "spin",
            Title = title,
            Note =
                "Top: on the beam axis, positive towards the side to which the spin axis leans. Below: offset at which the craft rides with its spin axis tilted. "
                + "Marks on the zero line: rides of the full equations from the design's start with that tilt.",
            Panels = [Force(s), Trim(s)],
        };

    private static Panel Force(CheckedSpin s)
    {
        // Only what the panel shows, and one point beyond, so that its scale is that of the part looked at.
        double end = End(s);
        int shown = s.AveragedForce.TakeWhile(f => f.TiltRadians < end).Count() + 1;
        CheckedAverage[] curve = [.. s.AveragedForce.Take(shown)];
        return new()
        {
            Title = "Sideways force averaged over the spin",
            X = new("tilt of the angular momentum", "rad") { Minimum = 0, Maximum = End(s) },
            Y = new("sideways force", "N"),
            Items =
            [
                new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid },
                new LineSeries([.. curve.Select(f => f.TiltRadians)], [.. curve.Select(f => f.SidewaysNewtons)])
                {
                    Tone = Tone.Indigo,
                    Dash = LineDash.Solid,
                },
                Start(s, "start"),
            ],
            Legend = LegendPlace.None,
        };
    }

    private static Panel Trim(CheckedSpin s)
    {
        List<PlotItem> items = [new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid }];
        items.AddRange(Branch(s, stable: true, "displaced trim, stable", Tone.Indigo, LineDash.Solid));
        items.AddRange(Branch(s, stable: false, "displaced trim, unstable", Tone.Ember, LineDash.Dashed));
        items.AddRange(Rungs(s, "held", "ride held", Tone.Teal, hollow: false));
        items.AddRange(Rungs(s, "lost", "ride lost", Tone.Ember, hollow: true));
        items.AddRange(Rungs(s, "not-computable", "ride not computable", Tone.Grey, hollow: true));
        items.Add(Start(s, null));
        return new()
        {
            Title = "Displaced trim and rides",
            X = new("tilt of the angular momentum", "rad") { Minimum = 0, Maximum = End(s) },
            Y = new("offset of the trim", "m"),
            Items = items,
            Legend = LegendPlace.Outside,
        };
    }

    private static double End(CheckedSpin s)
    {
        double interest = Math.Max(
            s.StartTiltRadians,
            Math.Max(
                s.SmallestLostTiltRadians ?? 0,
                Math.Max(s.DisplacedTrimFoldRadians ?? 0, s.LargestHeldTiltRadians ?? 0)
            )
        );
        double trims = s.DisplacedTrim.Count > 0 ? s.DisplacedTrim.Max(t => t.TiltRadians) : 0;
        return Math.Min(1.3 * Math.Max(interest, trims), 1.02 * Math.Max(s.AveragedForce[^1].TiltRadians, interest));
    }

    private static MarkerLine Start(CheckedSpin s, string? text) =>
        new(s.StartTiltRadians, IsVertical: true)
        {
            Tone = Tone.Ink,
            Dash = LineDash.Dotted,
            Text = text,
        };

    // Runs of motions of one kind; each takes in the first motion after it, so that the line has no gaps.
    private static IEnumerable<PlotItem> Branch(CheckedSpin s, bool stable, string label, Tone tone, LineDash dash)
    {
        List<PlotPolyline> pieces = [];
        IReadOnlyList<CheckedCircle> trims = s.DisplacedTrim;
        for (int i = 0; i < trims.Count; )
        {
            int end = i;
            while (end < trims.Count && trims[end].IsStable == trims[i].IsStable)
            {
                end++;
            }
            if (trims[i].IsStable == stable)
            {
                CheckedCircle[] run = [.. trims.Skip(i).Take(Math.Min(end + 1, trims.Count) - i)];
                pieces.Add(new([.. run.Select(t => t.TiltRadians)], [.. run.Select(t => t.OffsetMetres)]));
            }
            i = end;
        }
        return pieces.Count == 0
            ? []
            :
            [
                new ContourSeries(pieces)
                {
                    Tone = tone,
                    Dash = dash,
                    Label = label,
                },
            ];
    }

    private static IEnumerable<PlotItem> Rungs(CheckedSpin s, string outcome, string label, Tone tone, bool hollow)
    {
        double end = End(s);
        double[] at = [.. s.Rungs.Where(r => r.Outcome == outcome && r.TiltRadians <= end).Select(r => r.TiltRadians)];
        return at.Length == 0
            ? []
            :
            [
                new ScatterSeries(at, [.. at.Select(_ => 0.0)])
                {
                    Tone = tone,
                    IsHollow = hollow,
                    Label = label,
                },
            ];
    }

    public static IEnumerable<ResultTable> Tables(CheckedSpin s)
    {
        yield return new(
            "spin-average",
            "Light averaged over the spin against the tilt of the angular momentum, on the axis",
            [
                TableColumn.Numbers("tilt_rad", [.. s.AveragedForce.Select(f => f.TiltRadians)]),
                TableColumn.Numbers("sideways_N", [.. s.AveragedForce.Select(f => f.SidewaysNewtons)]),
                TableColumn.Numbers("across_N", [.. s.AveragedForce.Select(f => f.AcrossNewtons)]),
                TableColumn.Numbers("thrust_N", [.. s.AveragedForce.Select(f => f.ThrustNewtons)]),
                TableColumn.Numbers("precession_rad_s", [.. s.AveragedForce.Select(f => f.PrecessionRadiansPerSecond)]),
            ]
        );
        yield return new(
            "spin-rides",
            "Rides from misaligned starts",
            [
                TableColumn.Numbers("tilt_rad", [.. s.Rungs.Select(r => r.TiltRadians)]),
                TableColumn.Texts("outcome", [.. s.Rungs.Select(r => r.Outcome)]),
                TableColumn.Numbers("time_s", [.. s.Rungs.Select(r => r.TimeSeconds)]),
                TableColumn.Numbers("max_offset_m", [.. s.Rungs.Select(r => r.MaximumOffsetMetres)]),
                TableColumn.Texts("averaged_outcome", [.. s.Rungs.Select(r => r.AveragedOutcome)]),
                TableColumn.Numbers("averaged_time_s", [.. s.Rungs.Select(r => r.AveragedTimeSeconds)]),
            ]
        );
        if (s.DisplacedTrim.Count > 0)
        {
            yield return new(
                "spin-trim",
                "Displaced trims: steady circular motions of the slow precession",
                [
                    TableColumn.Numbers("tilt_rad", [.. s.DisplacedTrim.Select(t => t.TiltRadians)]),
                    TableColumn.Numbers("offset_m", [.. s.DisplacedTrim.Select(t => t.OffsetMetres)]),
                    TableColumn.Numbers("rate_rad_s", [.. s.DisplacedTrim.Select(t => t.RateRadiansPerSecond)]),
                    TableColumn.Numbers("growth_1_s", [.. s.DisplacedTrim.Select(t => t.GrowthPerSecond)]),
                    TableColumn.Flags("stable", [.. s.DisplacedTrim.Select(t => t.IsStable)]),
                ]
            );
        }
    }
}
