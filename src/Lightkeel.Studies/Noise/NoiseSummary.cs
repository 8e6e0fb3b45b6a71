using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Noise;

/// <summary>The noise study for reading in a terminal or on a page.</summary>
internal static class NoiseSummary
{
    public static StudySummary Of(NoiseInput input, NoiseResult r)
    {
        List<SummarySection> sections = [Escape(input, r), Heating(r)];
        if (r.Budget.Count > 0)
        {
            sections.Add(Budget(r));
        }
        sections.Add(Allowed(r));
        sections.Add(Boost(r));
        if (r.Tolerance is { } tolerance)
        {
            sections.Add(Tolerance(tolerance));
        }
        return new([.. sections]);
    }

    private static SummarySection Escape(NoiseInput input, NoiseResult r) =>
        new(input.Design.Title ?? "Noise and escape")
        {
            Rows =
            [
                SummaryRow.OfPossible("mean exit time", r.MeanExitTimeSeconds, "s", r.MeanExitTimeReason),
                new("by", r.Method),
                SummaryRow.OfPossible("error of its mesh", r.MeanExitErrorSeconds, "s", r.MeanExitErrorReason),
                SummaryRow.OfPossible(
                    $"loss probability over {SummaryRow.Write(r.DurationSeconds)} s",
                    r.LossProbability,
                    "",
                    r.LossProbabilityReason
                ),
                .. r is { LossProbability: { } p, LossErrorProbability: { } e }
                    ? [SummaryRow.Of("  known to", e, "", p < e ? "the probability is below that" : "")]
                    : Array.Empty<SummaryRow>(),
                .. r.Rides.SelectMany(Flown),
                .. r.ClosedForms.Select(c => SummaryRow.Of($"closed form, {c.Name}", c.MeanExitTimeSeconds, "s")),
                new("dominant noise", r.DominantNoise ?? "none"),
            ],
        };

    private static IEnumerable<SummaryRow> Flown(NoiseRides x)
    {
        yield return new(
            x.Kind == "splitting" ? "  by splitting" : $"  by {x.Rides} {x.Kind} rides",
            SummaryRow.Write(x.LossProbability),
            "",
            $"95 %: {SummaryRow.Write(x.Interval95[0])} to {SummaryRow.Write(x.Interval95[1])}{(x.Agrees == false ? ", DISAGREES" : "")}"
        );
        // While most are held, losses that come late make this mean too long; without a well there is no other.
        bool tells = x.Kind == "full" || x.Lost > x.Rides / 2;
        if (tells && x.ShortestSeconds is { } least)
        {
            yield return new(
                $"  mean exit by {x.Kind} rides",
                x.MeanExitTimeSeconds is { } mean ? SummaryRow.Write(mean) : "unknown",
                "s",
                (
                    x.LongestSeconds is { } most
                        ? $"95 %: {SummaryRow.Write(least)} to {SummaryRow.Write(most)}"
                        : $"none lost; above {SummaryRow.Write(least)}"
                ) + ", as if losses came at a constant rate"
            );
        }
    }

    private static SummarySection Heating(NoiseResult r) =>
        new("Heating of the linear modes")
        {
            Rows =
            [
                .. r.Modes.Select(
                    (m, i) =>
                        SummaryRow.Of(
                            $"mode {i + 1}",
                            m.FrequencyHertz,
                            "Hz",
                            FormattableString.Invariant($"part in the beam's motion {m.ParticipationFactor:G4}")
                        )
                ),
                .. r
                    .Heating.Where(h => h.EnergyGrowthWatts > 0 || h.GrowthPerSecond > 0)
                    .Select(h =>
                        h.EnergyGrowthWatts > 0
                            ? SummaryRow.Of(
                                $"  {h.Noise} ({h.Source})",
                                h.EnergyGrowthWatts,
                                "W",
                                FormattableString.Invariant(
                                    $"at {h.ListensHertz:G4} Hz; rms amplitude after the boost {h.OffsetMetres:G4} m"
                                )
                            )
                            : SummaryRow.Of(
                                $"  {h.Noise} ({h.Source})",
                                h.GrowthPerSecond,
                                "1/s",
                                FormattableString.Invariant(
                                    $"at {h.ListensHertz:G4} Hz; {h.FoldsFactor:G4} e-folds over the boost"
                                )
                            )
                    ),
                .. Pairs(r),
                .. r.FilmModes.Select(m =>
                    SummaryRow.Of($"film mode ({m.Diameters}, {m.Circles}) of {m.Sail}", m.FrequencyHertz, "Hz")
                ),
            ],
            Paragraphs = [.. r.ModesReason is { } reason ? [reason] : Array.Empty<string>(), .. r.FilmModesText],
        };

    // Only where there are pairs: a mode on its own is told above.
    private static IEnumerable<SummaryRow> Pairs(NoiseResult r) =>
        r.Modes.Count < 2
            ? []
            : r.Parametric.SelectMany(p =>
                (IEnumerable<SummaryRow>)
                    [
                        SummaryRow.OfPossible(
                            $"  {p.Noise} ({p.Source}), all together",
                            p.GrowthPerSecond,
                            "1/s",
                            p.GrowthReason
                        ),
                        .. p
                            .Resonances.Where(l => l.FirstHertz != l.SecondHertz)
                            .Select(l =>
                                SummaryRow.Of(
                                    FormattableString.Invariant(
                                        $"    {l.Kind} of {l.FirstHertz:G6} and {l.SecondHertz:G6} Hz"
                                    ),
                                    l.GrowthPerSecond,
                                    "1/s",
                                    FormattableString.Invariant($"at {l.ListensHertz:G4} Hz")
                                )
                            ),
                    ]
            );

    private static SummarySection Budget(NoiseResult r) =>
        new("Budget")
        {
            Rows =
            [
                .. r.Budget.Select(b => new SummaryRow(
                    $"{b.Noise} ({b.Source})",
                    b.ShareFraction is { } s ? SummaryRow.Write(s) : "none",
                    "",
                    b.AllowedFactor is { } f
                        ? FormattableString.Invariant($"share of the loss; may grow alone by {f:G3}")
                        : b.AllowedReason ?? ""
                )),
                SummaryRow.OfPossible("all together may grow by", r.AllowedFactor, "", r.AllowedFactorReason),
            ],
        };

    private static SummarySection Allowed(NoiseResult r) =>
        new($"Allowed for a loss probability of {SummaryRow.Write(r.AllowedLossProbability)}")
        {
            Rows =
            [
                .. r.AllowedWhite.Select(a =>
                    SummaryRow.Of(
                        $"white {a.Source}",
                        a.DensityPerHertz,
                        a.Source == "pointing" ? "m²/Hz" : "1/Hz",
                        "one-sided, alone; the mask in allowed_density is higher where orbits do not listen"
                    )
                ),
            ],
            Paragraphs = r.AllowedReason is { } reason ? [reason] : [],
        };

    private static SummarySection Tolerance(NoiseTolerance t) =>
        new("Tolerance: scatter and noise together")
        {
            Rows =
            [
                SummaryRow.Of(
                    "designs that ride",
                    t.RidingFraction,
                    "",
                    $"95 %: {SummaryRow.Write(t.RidingInterval95[0])} to {SummaryRow.Write(t.RidingInterval95[1])}; {t.Evaluations} computed"
                ),
                SummaryRow.Of("loss probability over all of them", t.LossProbability),
                .. t.ExitPercentilesSeconds.Zip(
                    (string[])["5", "50", "95"],
                    (s, p) => SummaryRow.Of($"mean exit time, percentile {p}", s, "s")
                ),
                .. t.Inputs.Select(i =>
                    SummaryRow.Of(
                        $"{i.Path} ({i.Spread})",
                        i.TotalFraction,
                        "",
                        $"of the variance of its logarithm, 95 %: {SummaryRow.Write(i.TotalInterval95[0])} to {SummaryRow.Write(i.TotalInterval95[1])}; alone {SummaryRow.Write(i.FirstOrderFraction)}"
                    )
                ),
            ],
            Paragraphs = t.InputsReason is { } reason ? [reason] : [],
        };

    private static SummarySection Boost(NoiseResult r) =>
        new("Along the boost")
        {
            Rows =
            [
                .. r
                    .Track.Where((_, i) => i == 0 || i == r.Track.Count - 1)
                    .Select(p => new SummaryRow(
                        $"modes at {SummaryRow.Write(p.TimeSeconds)} s",
                        string.Join(", ", p.FrequenciesHertz.Select(SummaryRow.Write)),
                        "Hz"
                    )),
                .. r.Crossings.Select(c => new SummaryRow(c.Noise, c.Text)),
                SummaryRow.OfPossible(
                    "steering could damp out to",
                    r.Steering.DampingRangeMetres,
                    "m",
                    r.Steering.DampingReason
                ),
            ],
            Paragraphs = [r.Steering.Finding],
        };
}
