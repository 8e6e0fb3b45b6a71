using System.Globalization;
using Lightkeel.Physics.Units;
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
        new([
            Verdict(input, r),
            .. r.Spin is { } spin ? [SpinSummary.Of(spin)] : Array.Empty<SummarySection>(),
            Statics(r),
            Modes(r),
            Margins(r),
            .. SurvivalSummary.Of(r),
        ]);

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
        warnings.AddRange(SpinSummary.Warnings(r));
        if (r.AxisIrradianceWattsPerSquareMetre > HazardousIrradiance || r.InterceptedWatts > HazardousIrradiance)
        {
            warnings.Add(
                new(
                    "laser-hazard",
                    "An open beam of this power burns and blinds, directly and by reflections from a curved sail, and reaches aircraft and satellites. Plan any test with a laser safety officer, IEC 60825-1 and local law; only licensed people operate such a beam."
                )
            );
        }
        warnings.AddRange(SurvivalSummary.Warnings(r));
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
                        : r.Spin is { Finding: "linear-only" } ? "rides only in the linear picture"
                        : r.Verdict == "undecided" ? ""
                        : "does not ride"
                ),
                SummaryRow.Of("growth rate", r.GrowthPerSecond, "1/s"),
                SummaryRow.OfPossible("e-folding time", r.EFoldingSeconds, "s", r.EFoldingReason),
            ],
            Paragraphs = r.Explanation,
        };

    private static SummarySection Statics(CheckResult r)
    {
        bool moves = r.SpeedMetresPerSecond != 0;
        List<SummaryRow> rows =
        [
            new("mass", Usual(r.MassKilograms, Dimension.OfMass)),
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
            new("thrust", Usual(r.ThrustNewtons, Dimension.OfForce)),
            SummaryRow.Of("acceleration", r.AccelerationMetresPerSecondSquared, "m/s^2"),
            new(
                "intercepted power",
                Usual(r.InterceptedWatts, Dimension.OfPower),
                "",
                FormattableString.Invariant($"{100 * r.InterceptedFraction:0.##} % of the beam")
            ),
            new("absorbed power", Usual(r.AbsorbedWatts, Dimension.OfPower)),
            new(
                "irradiance on the axis",
                Usual(r.AxisIrradianceWattsPerSquareMetre, Dimension.OfIrradiance),
                "",
                "as the laser sends it"
            ),
            r.LightRegime == CheckReading.SeveralMeetings
                ? new("light meets the craft", "more than once", "", "followed by rays from bounce to bounce")
                : new SummaryRow("light meets each element once", r.LightRegime),
        ];
        if (moves)
        {
            rows.Insert(0, new("axial speed", Usual(r.SpeedMetresPerSecond, Dimension.OfSpeed)));
        }
        return new("Statics")
        {
            Rows = rows,
            Paragraphs = moves
                ?
                [
                    "Thrust, powers and modes are those in the craft's rest frame at this speed; time there is proper time.",
                ]
                : [],
        };
    }

    // Six digits in the unit that it is shown in.
    internal static string Usual(double value, Dimension dimension)
    {
        string[] parts = Quantity.Format(value, dimension).Split(' ', 2);
        string number = Rounded(double.Parse(parts[0], CultureInfo.InvariantCulture))
            .ToString("R", CultureInfo.InvariantCulture);
        return parts.Length == 2 ? $"{number} {parts[1]}" : number;
    }

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
            .. r.Margins.Where(m => !double.IsPositiveInfinity(Distance(m))).OrderBy(Distance).Take(MarginsShown),
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

    // Relative distance to the nearest end of either kind; a number that is zero is measured as it stands.
    private static double Distance(CheckedMargin m)
    {
        double?[] ends = [m.LowerSi, m.UpperSi, m.NotComputableBelowSi, m.NotComputableAboveSi];
        double scale = m.ValueSi != 0 ? Math.Abs(m.ValueSi) : 1;
        return ends.Min(e => e is { } end ? Math.Abs(end - m.ValueSi) / scale : double.PositiveInfinity);
    }

    private static SummaryRow Row(CheckedMargin m)
    {
        string Shown(double value) => Usual(value, m.Dimension);
        string Side(double? change, string? verdict, double? unknown, string word) =>
            change is { } at ? $"{verdict} {word} {Shown(at)}"
            : unknown is { } beyond ? $"not computable {word} {Shown(beyond)}"
            : $"free {word}";
        double distance = Distance(m);
        string note = m.ValueSi != 0 ? $" ({Percent(distance)} away)" : "";
        return new(
            m.Path,
            Shown(m.ValueSi),
            "",
            Side(m.LowerSi, m.LowerVerdict, m.NotComputableBelowSi, "below")
                + ", "
                + Side(m.UpperSi, m.UpperVerdict, m.NotComputableAboveSi, "above")
                + note
        );
    }

    private static string Percent(double fraction) =>
        (100 * fraction).ToString("G3", CultureInfo.InvariantCulture) + " %";

    private static double Rounded(double value) =>
        double.Parse(value.ToString("G6", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private static string Three(double[] v) => string.Join(", ", v.Select(SummaryRow.Write));
}
