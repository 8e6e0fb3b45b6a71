using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Ride;

/// <summary>An ensemble for reading: summary, warnings, figures, tables, and how the run ended.</summary>
internal static class EnsemblePages
{
    private const int MostSteps = 500;

    public static StudyPresentation Of(RideInput input, RideEnsembleResult r)
    {
        (StudyEnding ending, string? reason) = EndingOf(r);
        return new()
        {
            Summary = new(Outcome(input, r), Spread(r)),
            Warnings = Warnings(input, r),
            MakeFigures = () => Figures(input, r),
            MakeTables = () => [RideTable(r), BandTable(r)],
            Ending = ending,
            EndingReason = reason,
        };
    }

    private static (StudyEnding, string?) EndingOf(RideEnsembleResult r)
    {
        if (r.IsStopped)
        {
            return (
                StudyEnding.Interrupted,
                FormattableString.Invariant(
                    $"{r.Rides} of {r.Asked} rides were finished; the numbers are those of these rides."
                )
            );
        }
        if (r.Undecided > 0)
        {
            return (
                StudyEnding.AccuracyNotReached,
                FormattableString.Invariant(
                    $"{r.Undecided} of {r.Rides} rides could not be computed to their end. Fly one of them alone with --ride to see why; the table of rides names them."
                )
            );
        }
        string[] moved = [.. TwinCautions.That(r).Where(c => !c.Twins.HeldFractionStands).Select(c => c.Text)];
        return moved.Length > 0 ? (StudyEnding.AccuracyNotReached, string.Join(" ", moved)) : (StudyEnding.Done, null);
    }

    private static List<ResultWarning> Warnings(RideInput input, RideEnsembleResult r)
    {
        List<ResultWarning> warnings = RideCautions.Of(input, r);
        warnings.AddRange(TwinCautions.That(r).Select(c => new ResultWarning(c.Code, c.Text)));
        if (r.Disturbances.Count == 0 && r.Scatter.Count == 0)
        {
            warnings.Add(
                new(
                    "rides-all-alike",
                    "Nothing differs from ride to ride: the design has no noise and no scatter, so all rides are the same."
                )
            );
        }
        return warnings;
    }

    private static SummarySection Outcome(RideInput input, RideEnsembleResult r) =>
        new(input.Design.Title ?? "Rides")
        {
            Rows =
            [
                SummaryRow.Of("rides", r.Rides),
                SummaryRow.Of("held", r.Held),
                SummaryRow.Of("lost", r.Lost),
                SummaryRow.Of("could not be computed", r.Undecided),
                SummaryRow.Of(
                    "held fraction",
                    r.HeldFraction,
                    "",
                    $"95 % interval {SummaryRow.Write(r.Interval95[0])} to {SummaryRow.Write(r.Interval95[1])}"
                ),
            ],
            Paragraphs = r.Scatter.Count > 0 ? ["Scattered: " + string.Join("; ", r.Scatter) + "."] : [],
        };

    private static SummarySection Spread(RideEnsembleResult r)
    {
        List<SummaryRow> rows =
        [
            SummaryRow.Of("largest offset, median", r.MaximumOffset.MedianMetres, "m"),
            SummaryRow.Of("largest offset, 95th percentile", r.MaximumOffset.UpperMetres, "m"),
        ];
        if (r.DirectionError is { } d)
        {
            rows.Add(SummaryRow.Of("final direction off the beam, median", d.MedianRadians, "rad", "held rides"));
            rows.Add(SummaryRow.Of("final direction off the beam, 95th percentile", d.UpperRadians, "rad"));
        }
        if (r.LossTimesSeconds.Count > 0)
        {
            double[] losses = [.. r.LossTimesSeconds.Order()];
            rows.Add(SummaryRow.Of("first loss", losses[0], "s"));
            rows.Add(SummaryRow.Of("half of the lost rides lost by", losses[(losses.Length - 1) / 2], "s"));
        }
        if (r.Numerics.Convergence is { } c)
        {
            rows.AddRange(RideCautions.StepRows(c).Select(row => row with { Label = "ride 0, " + row.Label }));
        }
        rows.AddRange(RideCautions.EngineRows(r));
        rows.AddRange(TwinCautions.Rows(r));
        return new("Spread") { Rows = rows, Paragraphs = [r.Numerics.StepsText] };
    }

    private static List<Figure> Figures(RideInput input, RideEnsembleResult r)
    {
        List<Figure> figures = [];
        if (r.Bands.TimeSeconds.Length >= 2)
        {
            figures.Add(BandFigure(input, r));
        }
        if (r.Lost > 0)
        {
            figures.Add(LossFigure(input, r));
        }
        return figures;
    }

    private static Figure BandFigure(RideInput input, RideEnsembleResult r)
    {
        RideBands b = r.Bands;
        return new()
        {
            Name = "bands",
            Title = SingleRideFigures.TitleOf(input, FormattableString.Invariant($"offset over {r.Rides} rides")),
            Note = FormattableString.Invariant(
                $"Largest offset of each ride over its last swing. A lost ride counts with {r.LostAtMetres:G4} m from its loss on. Held: {r.Held} of {r.Rides}, 95 % interval {r.Interval95[0]:0.####} to {r.Interval95[1]:0.####}."
            ),
            Panels =
            [
                new()
                {
                    X = new("time in the laser's frame", "s"),
                    Y = new("offset", "m") { Minimum = 0 },
                    Items =
                    [
                        new BandSeries(b.TimeSeconds, b.OffsetMetres[0], b.OffsetMetres[4])
                        {
                            Tone = Tone.Sky,
                            Label = "5 % to 95 %",
                        },
                        new BandSeries(b.TimeSeconds, b.OffsetMetres[1], b.OffsetMetres[3])
                        {
                            Tone = Tone.Teal,
                            Label = "25 % to 75 %",
                        },
                        new LineSeries(b.TimeSeconds, b.OffsetMetres[2]) { Tone = Tone.Indigo, Label = "median" },
                    ],
                },
            ],
        };
    }

    private static Figure LossFigure(RideInput input, RideEnsembleResult r)
    {
        double[] times = [.. r.LossTimesSeconds.Order()];
        List<double> x = [0];
        List<long> left = [r.Rides];
        // Steps closer than the figure can show are drawn as one.
        int every = Math.Max(1, times.Length / MostSteps);
        for (int i = every - 1; i < times.Length; i += every)
        {
            x.AddRange([times[i], times[i]]);
            left.AddRange([left[^1], r.Rides - i - 1]);
        }
        x.Add(Math.Max(r.Bands.TimeSeconds[^1], times[^1]));
        left.Add(r.Rides - times.Length);
        ConfidenceInterval[] shares = [.. left.Select(n => Proportion.ClopperPearson(n, r.Rides))];
        return new()
        {
            Name = "survival",
            Title = SingleRideFigures.TitleOf(input, "share of rides not lost"),
            Note =
                r.Undecided == 0
                    ? null
                    : FormattableString.Invariant(
                        $"{r.Undecided} rides that could not be computed to their end count as not lost."
                    ),
            Panels =
            [
                new()
                {
                    X = new("time in the laser's frame", "s"),
                    Y = new("share of rides not lost") { Minimum = 0, Maximum = 1.02 },
                    Items =
                    [
                        new BandSeries(x, [.. shares.Select(c => c.Lower)], [.. shares.Select(c => c.Upper)])
                        {
                            Tone = Tone.Sky,
                            Label = "95 % (Clopper–Pearson)",
                        },
                        new LineSeries(x, [.. left.Select(n => (double)n / r.Rides)])
                        {
                            Tone = Tone.Indigo,
                            Dash = LineDash.Solid,
                            Label = "flown",
                        },
                    ],
                },
            ],
        };
    }

    private static ResultTable RideTable(RideEnsembleResult r) =>
        new(
            "rides",
            "The rides one by one",
            [
                TableColumn.Integers("ride", [.. r.Flown.Select(f => (long)f.RideNumber)]),
                TableColumn.Texts("outcome", [.. r.Flown.Select(f => RideWords.Of(f.Ending))]),
                TableColumn.Texts("ended_by", [.. r.Flown.Select(f => RideWords.Of(f.Reason))]),
                TableColumn.Numbers("time_s", [.. r.Flown.Select(f => f.TimeSeconds)]),
                TableColumn.Numbers("max_offset_m", [.. r.Flown.Select(f => f.MaximumOffsetMetres)]),
                TableColumn.Numbers("speed_m_s", [.. r.Flown.Select(f => f.SpeedMetresPerSecond)]),
                TableColumn.Numbers("direction_error_rad", [.. r.Flown.Select(f => f.DirectionErrorRadians)]),
            ]
        );

    private static ResultTable BandTable(RideEnsembleResult r) =>
        new(
            "bands",
            "Percentiles over rides of the largest offset over the last swing",
            [
                TableColumn.Numbers("time_s", r.Bands.TimeSeconds),
                .. r.Bands.OffsetMetres.Select(
                    (row, i) =>
                        TableColumn.Numbers(
                            FormattableString.Invariant($"offset_p{100 * r.Bands.ProbabilityValues[i]:00}_m"),
                            row
                        )
                ),
            ]
        );
}
