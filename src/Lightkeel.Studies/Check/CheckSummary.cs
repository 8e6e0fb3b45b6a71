using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>A check for reading in a terminal or on a page.</summary>
internal static class CheckSummary
{
    private const int MarginsShown = 8;

    /// <summary>Irradiance above which the summary reminds of the hazard; common practice, no source: far above any eye-safe level.</summary>
    public const double HazardousIrradiance = 1e3;

    public static StudySummary Of(CheckInput input, CheckResult r) =>
        new(Verdict(input, r), Statics(r), Modes(r), Margins(r), Limits(r));

    public static IReadOnlyList<ResultWarning> Warnings(CheckResult r)
    {
        List<ResultWarning> warnings = [];
        if (r.LightRegime == "at-limit")
        {
            warnings.Add(new("single-bounce-limit", r.LightRegimeText));
        }
        if (r.LightRegime == "sampled")
        {
            warnings.Add(new("single-bounce-sampled", r.LightRegimeText));
        }
        warnings.AddRange(r.Neglected.Select(text => new ResultWarning("neglected-light", text)));
        if (r.Trim.IsDisplaced)
        {
            warnings.Add(new("displaced-trim", r.Trim.Text));
        }
        if (r.AxisIrradianceWattsPerSquareMetre > HazardousIrradiance || r.InterceptedWatts > HazardousIrradiance)
        {
            warnings.Add(
                new(
                    "laser-hazard",
                    "An open beam of this power burns and blinds, directly and by reflections from a curved sail, and reaches aircraft and satellites. Plan any test with a laser safety officer, IEC 60825-1 and local law; only licensed people operate such a beam."
                )
            );
        }
        return warnings;
    }

    private static SummarySection Verdict(CheckInput input, CheckResult r) =>
        new(input.Design.Title ?? "Does it ride?")
        {
            Rows =
            [
                new(
                    "verdict",
                    r.Verdict,
                    "",
                    r.Rides ? "rides"
                        : r.Verdict == "undecided" ? ""
                        : "does not ride"
                ),
                SummaryRow.Of("growth rate", r.GrowthPerSecond, "1/s"),
                SummaryRow.OfPossible("e-folding time", r.EFoldingSeconds, "s", r.EFoldingReason),
            ],
            Paragraphs = r.Explanation,
        };

    private static SummarySection Statics(CheckResult r) =>
        new("Statics")
        {
            Rows =
            [
                SummaryRow.Of("mass", 1e3 * r.MassKilograms, "g"),
                new("centre of mass", Three(r.CenterOfMassMetres), "m", "body axes"),
                new(
                    "moments of inertia",
                    Three([
                        r.InertiaKilogramSquareMetres[0][0],
                        r.InertiaKilogramSquareMetres[1][1],
                        r.InertiaKilogramSquareMetres[2][2],
                    ]),
                    "kg m^2",
                    "about the centre of mass"
                ),
                SummaryRow.Of("thrust", r.ThrustNewtons, "N"),
                SummaryRow.Of("acceleration", r.AccelerationMetresPerSecondSquared, "m/s^2"),
                SummaryRow.Of(
                    "intercepted power",
                    1e-6 * r.InterceptedWatts,
                    "MW",
                    FormattableString.Invariant($"{100 * r.InterceptedFraction:0.##} % of the beam")
                ),
                SummaryRow.Of("absorbed power", r.AbsorbedWatts, "W"),
                SummaryRow.Of("irradiance on the axis", 1e-6 * r.AxisIrradianceWattsPerSquareMetre, "MW/m^2"),
                new("light meets each element once", r.LightRegime, "", ""),
            ],
        };

    private static SummarySection Modes(CheckResult r) =>
        new($"Linear modes ({r.ModeFrame} axes)")
        {
            Rows =
            [
                .. r.Modes.Select(
                    (m, i) =>
                        new SummaryRow(
                            FormattableString.Invariant($"mode {i + 1}"),
                            m.FrequencyHertz > 0 ? SummaryRow.Write(m.FrequencyHertz) + " Hz" : "no swing",
                            "",
                            FormattableString.Invariant($"growth {SummaryRow.Write(m.GrowthPerSecond)} 1/s")
                                + (m.Multiplicity > 1 ? FormattableString.Invariant($", {m.Multiplicity} motions") : "")
                                + (
                                    m.TiltPerOffsetRadiansPerMetre is { } tilt
                                        ? FormattableString.Invariant(
                                            $", tilt {SummaryRow.Write(tilt)} rad per m of offset"
                                        )
                                        : ", pure tilt"
                                )
                        )
                ),
            ],
        };

    private static SummarySection Margins(CheckResult r)
    {
        CheckedMargin[] nearest =
        [
            .. r
                .Margins.Where(m => m.LowerSi is not null || m.UpperSi is not null)
                .OrderBy(m => m.RelativeMarginFraction ?? double.MaxValue)
                .Take(MarginsShown),
        ];
        return new("Margins: how far a number may move before the verdict changes")
        {
            Rows = [.. nearest.Select(Row)],
            Paragraphs =
                r.Margins.Count == 0 ? ["Not asked for."]
                : nearest.Length == 0 ? ["No number of the design changes the verdict within the range searched."]
                : r.Margins.Count > nearest.Length
                    ? [FormattableString.Invariant($"The nearest of {r.Margins.Count}; --json or --out give all.")]
                : [],
        };
    }

    private static SummaryRow Row(CheckedMargin m)
    {
        string lower = m.LowerSi is { } l ? $"{m.LowerVerdict} below {SummaryRow.Write(l)}" : "free below";
        string upper = m.UpperSi is { } u ? $"{m.UpperVerdict} above {SummaryRow.Write(u)}" : "free above";
        string note = m.RelativeMarginFraction is { } f ? FormattableString.Invariant($"{100 * f:0.###} % away") : "";
        return new(
            m.Path,
            $"{SummaryRow.Write(m.ValueSi)} {m.Unit}".TrimEnd(),
            "",
            $"{lower}, {upper}" + (note.Length > 0 ? $" ({note})" : "")
        );
    }

    private static SummarySection Limits(CheckResult r) =>
        new("Limits") { Paragraphs = [r.LimitsReason ?? "All limits hold."] };

    private static string Three(double[] v) => string.Join(", ", v.Select(SummaryRow.Write));
}
