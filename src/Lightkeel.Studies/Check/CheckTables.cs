using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Check;

/// <summary>Tables of a check.</summary>
internal static class CheckTables
{
    public static IReadOnlyList<ResultTable> Of(DesignModel model, CheckResult r)
    {
        List<ResultTable> tables = [Modes(r), Jacobian(r), .. SurvivalTables.Of(r)];
        if (r.Margins.Count > 0)
        {
            tables.Add(Margins(r));
        }
        if (r.Spin is { } spin)
        {
            tables.AddRange(SpinFigures.Tables(spin));
        }
        tables.AddRange(ForceScan.Of(model, r).Select(s => s.Table()));
        return tables;
    }

    private static ResultTable Modes(CheckResult r) =>
        new(
            "modes",
            "Linear modes",
            [
                TableColumn.Numbers("growth_1_s", [.. r.Modes.Select(m => m.GrowthPerSecond)]),
                TableColumn.Numbers("frequency_Hz", [.. r.Modes.Select(m => m.FrequencyHertz)]),
                TableColumn.Integers("multiplicity", [.. r.Modes.Select(m => (long)m.Multiplicity)]),
                TableColumn.Numbers("tilt_per_offset_rad_m", [.. r.Modes.Select(m => m.TiltPerOffsetRadiansPerMetre)]),
            ]
        );

    private static ResultTable Jacobian(CheckResult r)
    {
        string[] rows = ["force_x_N", "force_y_N", "torque_x_Nm", "torque_y_Nm"];
        string[] columns = ["per_x_m", "per_y_m", "per_tilt_x_rad", "per_tilt_y_rad"];
        return new(
            "jacobian",
            "Derivatives of force and torque at the trim",
            [
                TableColumn.Texts("row", rows),
                .. columns.Select((name, j) => TableColumn.Numbers(name, [.. r.Jacobian.Select(row => row[j])])),
            ]
        );
    }

    private static ResultTable Margins(CheckResult r)
    {
        IReadOnlyList<CheckedMargin> m = r.Margins;
        List<TableColumn> columns =
        [
            TableColumn.Texts("path", [.. m.Select(x => x.Path)]),
            TableColumn.Numbers("value", [.. m.Select(x => x.ValueSi)]),
            TableColumn.Texts("unit", [.. m.Select(x => x.Unit)]),
            TableColumn.Numbers("lower", [.. m.Select(x => x.LowerSi)]),
            TableColumn.Texts("lower_verdict", [.. m.Select(x => x.LowerVerdict)]),
            TableColumn.Texts("lower_reason", [.. m.Select(x => x.LowerReason)]),
            TableColumn.Numbers("upper", [.. m.Select(x => x.UpperSi)]),
            TableColumn.Texts("upper_verdict", [.. m.Select(x => x.UpperVerdict)]),
            TableColumn.Texts("upper_reason", [.. m.Select(x => x.UpperReason)]),
            TableColumn.Numbers("relative_margin", [.. m.Select(x => x.RelativeMarginFraction)]),
        ];
        for (int i = 0; i < r.Modes.Count; i++)
        {
            int mode = i;
            string number = (i + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);
            columns.Add(
                TableColumn.Numbers(
                    $"mode{number}_d_frequency_Hz",
                    [.. m.Select(x => Slope(x, mode)?.FrequencyHertzPerUnit)]
                )
            );
            columns.Add(
                TableColumn.Numbers(
                    $"mode{number}_d_growth_1_s",
                    [.. m.Select(x => Slope(x, mode)?.GrowthPerSecondPerUnit)]
                )
            );
        }
        return new("margins", "How far each number may move before the verdict changes", columns);
    }

    private static CheckedSensitivity? Slope(CheckedMargin margin, int mode) =>
        mode < margin.Modes.Count ? margin.Modes[mode] : null;
}

/// <summary>Force and torque along one coordinate through the trim, as far as light meets each element once.</summary>
/// <param name="Name">Name of the table.</param>
/// <param name="Label">Name of the coordinate.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="At">Values of the coordinate.</param>
/// <param name="Readings">Force and torque there.</param>
/// <param name="End">How far the scan goes either way.</param>
internal sealed record ForceScan(
    string Name,
    string Label,
    string Unit,
    IReadOnlyList<double> At,
    IReadOnlyList<PressureReading> Readings,
    double End
)
{
    /// <summary>Tilts are scanned to here, rad, or to where light would bounce twice.</summary>
    public const double LargestTilt = 0.5;

    private const int HalfPoints = 40;

    /// <summary>The scans over offset along x and over tilt about y, from the beam axis.</summary>
    public static IReadOnlyList<ForceScan> Of(DesignModel model, CheckResult r)
    {
        IPressureEngine engine = EngineChoice.Build(r.Engine, model, 1e-6);
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double reach = Math.Min(
            model.Beam.Profile.ExtentMetres + radius,
            4 * Math.Max(radius, model.Beam.Profile.FeatureLengthMetres)
        );
        double safe = LightRegime.Assess(model.Craft).MaximumSafeTiltRadians ?? Math.PI / 2;
        double tilt = Math.Min(LargestTilt, 0.999 * safe);
        double speed = model.Design.Start.SpeedMetresPerSecond;
        CraftPose Pose(double x, double angle) => CraftPose.From(x, 0, 0, angle, 0, new(0, 0, speed));
        List<ForceScan> scans = [Scan(engine, "force-offset", "offset", "m", reach, x => Pose(x, 0))];
        if (tilt > 1e-3)
        {
            scans.Add(Scan(engine, "force-tilt", "tilt", "rad", tilt, a => Pose(0, a)));
        }
        return scans;
    }

    /// <summary>The scan as a table.</summary>
    public ResultTable Table() =>
        new(
            Name,
            $"Force and torque against {Label}",
            [
                TableColumn.Numbers($"{Label}_{Unit}", At),
                TableColumn.Numbers("force_x_N", [.. Readings.Select(r => r.ForceNewtons.X)]),
                TableColumn.Numbers("force_z_N", [.. Readings.Select(r => r.ForceNewtons.Z)]),
                TableColumn.Numbers("torque_y_Nm", [.. Readings.Select(r => r.TorqueNewtonMetres.Y)]),
            ]
        );

    private static ForceScan Scan(
        IPressureEngine engine,
        string name,
        string label,
        string unit,
        double end,
        Func<double, CraftPose> pose
    )
    {
        List<double> at = [];
        List<PressureReading> readings = [];
        for (int i = -HalfPoints; i <= HalfPoints; i++)
        {
            double value = end * i / HalfPoints;
            try
            {
                readings.Add(engine.Evaluate(pose(value)));
                at.Add(value);
            }
            catch (PressureUnavailableException)
            {
                // A gap in the curve: the engine vouches for no number there.
            }
        }
        return new(name, label, unit, at, readings, end);
    }
}
