using System.Globalization;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>Survival for reading in a terminal or on a page.</summary>
internal static class SurvivalSummary
{
    /// <summary>The sections that follow those of the ride.</summary>
    public static IReadOnlyList<SummarySection> Of(CheckResult r) => [Limits(r), Heat(r), Mission(r), Hazards(r)];

    /// <summary>What may surprise.</summary>
    public static IEnumerable<ResultWarning> Warnings(CheckResult r)
    {
        if (r.Survival.Verdict == "fails")
        {
            yield return new("does-not-survive", r.Survival.Text);
        }
        foreach (CheckedFilmHeat film in r.Survival.Heat)
        {
            if (film is { AnyPoseKelvin: null, HottestKelvin: not null })
            {
                yield return new("hot-pose", $"{film.Sail}: {film.AnyPoseReason}");
            }
            if (film.TableText is { } table)
            {
                yield return new("share-table", $"{film.Sail}: {table}");
            }
        }
        foreach (string text in r.Survival.FilmModesText.Where(t => t.Contains("coincides", StringComparison.Ordinal)))
        {
            yield return new("film-mode-coincides", text);
        }
    }

    private static SummarySection Limits(CheckResult r) =>
        new("Does it survive?")
        {
            Rows = [new("verdict", r.Survival.Verdict), .. r.Limits.Select(Row)],
            Paragraphs = [r.Survival.Text],
        };

    private static SummaryRow Row(CheckedLimit limit)
    {
        string label = $"{limit.Name}, {limit.Subject}";
        if (limit.MarginFraction is not { } margin)
        {
            return new(label, "not assessed", "", limit.Text);
        }
        if (limit is not { ValueSi: { } value, AllowedSi: { } allowed })
        {
            return new(label, "fails", "", limit.Text);
        }
        string sign = limit.Bound == "upper" ? "allowed" : "needed";
        string shown =
            margin >= 100
                ? "margin above 100 times"
                : "margin " + (100 * margin).ToString("0.#", CultureInfo.InvariantCulture) + " %";
        string note = margin < 0 ? "FAILS, " + shown : shown;
        if (value == 0 && limit.Bound == "upper")
        {
            // Nothing of what is limited occurs: a ratio would say nothing.
            return new(label, "none", "", "holds: " + limit.Text);
        }
        return new(label, Usual(value, limit.Dimension), "", $"{sign} {Usual(allowed, limit.Dimension)}, {note}");
    }

    private static SummarySection Heat(CheckResult r)
    {
        List<SummaryRow> rows = [];
        foreach (CheckedFilmHeat f in r.Survival.Heat)
        {
            rows.Add(Kelvin($"{f.Sail}, hottest element", f.HottestKelvin, f.HottestReason));
            if (f.HottestKelvin is not null)
            {
                rows.Add(Kelvin("  in any pose (bound)", f.AnyPoseKelvin, f.AnyPoseReason));
                rows.Add(SummaryRow.OfPossible("  time constant", f.TimeConstantSeconds, "s", f.TimeConstantReason));
                if (f.RunawayKelvin is { } turning)
                {
                    bool far =
                        r.Limits.FirstOrDefault(l => l.Name == "runaway" && l.Subject == f.Sail)
                            ?.Text.Contains("No film lives", StringComparison.Ordinal)
                        ?? false;
                    string beyond = far
                        ? "far beyond what the film bears: the law of absorption carried on, no data"
                        : "";
                    rows.Add(
                        new(
                            "  turning point of runaway",
                            turning.ToString("F0", CultureInfo.InvariantCulture),
                            "K",
                            beyond
                        )
                    );
                }
            }
        }
        rows.AddRange(r.Survival.Bodies.Select(b => Kelvin(b.Name, b.TemperatureKelvin, b.TemperatureReason)));
        return new("Heat") { Rows = rows, Paragraphs = r.Survival.FilmModesText };
    }

    private static SummaryRow Kelvin(string label, double? value, string? reason) =>
        value is { } kelvin
            ? new(label, kelvin.ToString("F1", CultureInfo.InvariantCulture), "K")
            : new(label, "none", "", reason ?? "");

    private static SummarySection Mission(CheckResult r)
    {
        CheckedBudget b = r.Survival.MassBudget;
        List<SummaryRow> rows =
        [
            new("mass to plan with", Usual(b.PredictedKilograms, Dimension.OfMass)),
            SummaryRow.OfPossible("payload fraction", b.PayloadFraction, "", b.PayloadFractionReason),
            SummaryRow.Of(
                "beam power of each gram",
                1e-9 * b.PowerPerMassWattsPerKilogram,
                "MW/g",
                "at the present acceleration"
            ),
        ];
        if (r.Survival.Mission is { } m)
        {
            rows.Add(new("boost ends by", m.EndedBy));
            rows.Add(SummaryRow.Of("time", m.TimeSeconds, "s"));
            rows.Add(new("distance", Usual(m.DistanceMetres, Dimension.OfLength)));
            rows.Add(new("final speed", Usual(m.SpeedMetresPerSecond, Dimension.OfSpeed)));
            rows.Add(new("energy at the source", Usual(m.SourceJoules, Dimension.OfEnergy)));
            rows.Add(SummaryRow.Of("share that misses the craft", m.SpillOverFraction));
            rows.Add(SummaryRow.OfPossible("aperture to hold the spot", m.ApertureNeededMetres, "m", m.ApertureReason));
            rows.Add(SummaryRow.OfPossible("cost", m.CostValue, m.Currency, m.CostReason));
        }
        return new("Mass and mission")
        {
            Rows = rows,
            Paragraphs = r.Survival.MissionReason is { } reason ? [reason] : [],
        };
    }

    private static SummarySection Hazards(CheckResult r)
    {
        bool strong =
            r.AxisIrradianceWattsPerSquareMetre > CheckSummary.HazardousIrradiance
            || r.InterceptedWatts > CheckSummary.HazardousIrradiance;
        if (!strong)
        {
            return new("Hazards") { Paragraphs = [r.Survival.Hazards[^1]] };
        }
        const string Indicative = "indicative only; the laser safety officer decides";
        return new("Hazards")
        {
            Rows =
            [
                r.Survival.DirectHazardMetres is { } d
                    ? new("eye hazard of the direct beam to", Usual(d, Dimension.OfLength), "", Indicative)
                    : new("eye hazard of the direct beam", "no distance", "", r.Survival.DirectHazardReason ?? ""),
                r.Survival.ReflectedHazardMetres is { } e
                    ? new("of the reflected light to", Usual(e, Dimension.OfLength), "", Indicative)
                    : new("of the reflected light", "no distance", "", r.Survival.ReflectedHazardReason ?? ""),
            ],
            Paragraphs = r.Survival.Hazards,
        };
    }

    private static string Usual(double value, Dimension dimension) => CheckSummary.Usual(value, dimension);
}
