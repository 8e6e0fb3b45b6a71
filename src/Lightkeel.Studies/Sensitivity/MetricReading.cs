using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>How a metric goes with the power of the beam when nothing else changes.</summary>
internal enum PowerLaw
{
    /// <summary>In no way that is known beforehand.</summary>
    Unknown,

    /// <summary>Not at all.</summary>
    Constant,

    /// <summary>In proportion: light pressure is linear in the irradiance.</summary>
    Linear,

    /// <summary>As the root: a squared rate is a stiffness over an inertia.</summary>
    Root,
}

/// <summary>One metric of a design.</summary>
/// <param name="Name">Name with unit.</param>
/// <param name="Text">What it is.</param>
/// <param name="Unit">SI unit.</param>
/// <param name="Value">Value, SI.</param>
/// <param name="Noise">Bound of its error from the error of the light pressure.</param>
/// <param name="Power">How it goes with the power.</param>
internal sealed record Metric(string Name, string Text, string Unit, double Value, double Noise, PowerLaw Power);

/// <summary>The metrics of a verdict, each followed from the design as it is to designs nearby.</summary>
internal static class MetricReading
{
    /// <summary>The metrics of an assessment, in the order of the present one; null where a mode has no single continuation.</summary>
    public static IReadOnlyList<Metric?> Of(
        DesignModel model,
        RidingAssessment assessment,
        StabilityReport present,
        WellProbe? well
    )
    {
        StabilityReport report = assessment.Report;
        PressureReading at = assessment.Trim.Reading!.Value;
        double mass = model.Craft.Mass.MassKilograms;
        double thrust = at.ForceNewtons.Z;
        double relative = Math.Max(at.RelativeError, 1e-15);
        List<Metric?> metrics =
        [
            new("mass_kg", "mass", "kg", mass, 1e-15 * mass, PowerLaw.Constant),
            new("thrust_N", "thrust", "N", thrust, relative * Math.Abs(thrust), PowerLaw.Linear),
            new(
                "acceleration_m_s2",
                "acceleration",
                "m/s^2",
                thrust / mass,
                relative * Math.Abs(thrust) / mass,
                PowerLaw.Linear
            ),
            new(
                "intercepted_W",
                "intercepted power",
                "W",
                at.InterceptedWatts,
                relative * at.InterceptedWatts,
                PowerLaw.Linear
            ),
            .. Stiffness(report),
            Growth(report, present),
            .. Modes(report, present),
        ];
        if (double.IsFinite(present.Clearance))
        {
            double noise = 4 * report.Model.RelativeError + 1e-15;
            metrics.Add(
                double.IsFinite(report.Clearance)
                    ? new("riding_clearance", "signed riding clearance", "", report.Clearance, noise, PowerLaw.Unknown)
                    : null
            );
        }
        if (well is not null)
        {
            metrics.AddRange(well.Metrics(model, assessment.Trim.Pose!.Value));
        }
        return metrics;
    }

    private static IEnumerable<Metric> Stiffness(StabilityReport report)
    {
        double[][] k = report.Model.Jacobian;
        double error = report.Model.RelativeError + 1e-15;
        double lateral = Math.Max(Math.Abs(k[0][0]), Math.Abs(k[1][1]));
        double tilt = Math.Max(Math.Abs(k[2][2]), Math.Abs(k[3][3]));
        double pull = Math.Max(Math.Abs(k[0][3]), Math.Abs(k[1][2]));
        double twist = Math.Max(Math.Abs(k[3][0]), Math.Abs(k[2][1]));
        yield return new(
            "lateral_stiffness_N_m",
            "lateral stiffness (above zero pulls back)",
            "N/m",
            -0.5 * (k[0][0] + k[1][1]),
            error * lateral,
            PowerLaw.Linear
        );
        yield return new(
            "tilt_stiffness_Nm_rad",
            "tilt stiffness (above zero rights the craft)",
            "N m/rad",
            -0.5 * (k[2][2] + k[3][3]),
            error * tilt,
            PowerLaw.Linear
        );
        yield return new(
            "force_per_tilt_N_rad",
            "lateral force per tilt",
            "N/rad",
            0.5 * (k[0][3] - k[1][2]),
            error * pull,
            PowerLaw.Linear
        );
        yield return new(
            "torque_per_offset_N",
            "torque per offset",
            "N",
            0.5 * (k[3][0] - k[2][1]),
            error * twist,
            PowerLaw.Linear
        );
    }

    private static Metric? Growth(StabilityReport report, StabilityReport present) =>
        report.Verdict != present.Verdict
            ? null
            : new(
                "growth_rate_1_s",
                "growth rate",
                "1/s",
                report.GrowthPerSecond,
                report.GrowthErrorPerSecond,
                RootLaw(report)
            );

    private static IEnumerable<Metric?> Modes(StabilityReport report, StabilityReport present)
    {
        int number = 0;
        foreach (StabilityMode mode in present.Modes.Where(m => m.FrequencyHertz > 0))
        {
            number++;
            StabilityMode? here = ReferenceEquals(report, present)
                ? mode
                : ModeMatch.Follow(mode, report, present.Model.GyrationRadiusMetres);
            yield return here is null || report.Verdict != present.Verdict
                ? null
                : new(
                    FormattableString.Invariant($"mode{number}_frequency_Hz"),
                    FormattableString.Invariant($"frequency of swing {number}"),
                    "Hz",
                    here.FrequencyHertz,
                    here.FrequencyErrorHertz,
                    RootLaw(report)
                );
        }
    }

    // Without spin all rates go with the root of the light; with spin they compare with the spin.
    private static PowerLaw RootLaw(StabilityReport report) =>
        report.Model.SpinRadiansPerSecond == 0 ? PowerLaw.Root : PowerLaw.Unknown;
}
