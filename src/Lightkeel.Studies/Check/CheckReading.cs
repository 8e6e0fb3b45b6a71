using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Writes an assessment down as a result.</summary>
internal static class CheckReading
{
    /// <summary>Regime of a craft whose light is followed by rays.</summary>
    public const string SeveralMeetings = "several-meetings";

    public static CheckResult Of(
        DesignModel model,
        RidingAssessment assessment,
        IReadOnlyList<CheckedMargin> margins,
        (CheckedSpin? Section, string? Reason) spin,
        (CheckedSurvival Survival, IReadOnlyList<CheckedLimit> Limits) survival
    )
    {
        MassProperties mass = model.Craft.Mass;
        StabilityReport report = assessment.Report;
        PressureReading at = assessment.Trim.Reading!.Value;
        CraftPose pose = assessment.Trim.Pose!.Value;
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        LightRegime regimes = LightRegime.Assess(model.Craft);
        RegimeVerdict regime = regimes.For(pose.BeamFromBody.Transposed * light.Direction);
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        return new()
        {
            MassKilograms = mass.MassKilograms,
            CenterOfMassMetres = Components(mass.CenterOfMassMetres),
            InertiaKilogramSquareMetres = Rows(mass.InertiaKilogramSquareMetres),
            MassParts =
            [
                .. model.Parts.Select(p => new CheckedPart(
                    p.Name,
                    p.BodyMoments.MassKilograms,
                    Components(p.BodyMoments.CentroidMetres)
                )),
            ],
            SpeedMetresPerSecond = model.Design.Start.SpeedMetresPerSecond,
            SpinRadiansPerSecond = model.Design.Start.SpinRadiansPerSecond,
            ThrustNewtons = at.ForceNewtons.Z,
            AccelerationMetresPerSecondSquared = at.ForceNewtons.Z / mass.MassKilograms,
            InterceptedWatts = at.InterceptedWatts,
            AbsorbedWatts = at.AbsorbedWatts,
            InterceptedFraction = at.InterceptedWatts / (light.IrradianceFactor * model.Beam.PowerWatts),
            AxisIrradianceWattsPerSquareMetre = model.Beam.Irradiance(0, 0),
            EncircledFraction = model.Beam.Profile.EncircledFraction(radius),
            Trim = TrimOf(assessment.Trim, pose),
            Jacobian = report.Model.Jacobian,
            JacobianRelativeError = report.Model.RelativeError,
            Verdict = report.Verdict.Word(),
            Rides = report.Verdict.Rides() && spin.Section is not { Finding: "linear-only" },
            GrowthPerSecond = report.GrowthPerSecond,
            EFoldingSeconds = report.EFoldingSeconds,
            EFoldingReason = report.EFoldingSeconds is null ? "Nothing grows exponentially." : null,
            Modes = [.. report.Modes.Select(ModeOf)],
            ModeFrame = report.Frame switch
            {
                Physics.Stability.ModeFrame.Beam => "beam",
                Physics.Stability.ModeFrame.Body => "body",
                _ => "periodic",
            },
            Explanation = Explanation(report, spin.Section),
            Spin = spin.Section,
            SpinReason = spin.Reason,
            Margins = margins,
            Limits = survival.Limits,
            Survival = survival.Survival,
            Engine = assessment.Engine.Name,
            LightRegime = regime.Certainty switch
            {
                _ when !regime.IsSingleBounce => SeveralMeetings,
                RegimeCertainty.Proven => "proven",
                RegimeCertainty.AtLimit => "at-limit",
                _ => "sampled",
            },
            LightRegimeText = regime.Reason,
            Neglected = Neglected(regimes),
        };
    }

    // A finding that overturns the linear headline comes before it, any other behind; the general warning gives way to it.
    private static IReadOnlyList<string> Explanation(StabilityReport report, CheckedSpin? spin)
    {
        IReadOnlyList<string> linear = StabilityExplanation.Explain(report);
        if (spin is null)
        {
            return linear;
        }
        IEnumerable<string> rest = linear.Skip(1).Where(s => s != StabilityWarnings.SpinTrap).Append(spin.RegimeText);
        return spin.Finding == "linear-only"
            ? [spin.Sentence, "In the linear picture: " + linear[0], .. rest]
            : [linear[0], spin.Sentence, .. rest];
    }

    /// <summary>What the force law leaves out for a craft, sentence by sentence.</summary>
    public static IReadOnlyList<string> Neglected(LightRegime regime) =>
        [.. new[] { regime.StrayLightCaution, regime.HeatCaution }.OfType<string>()];

    private static CheckedTrim TrimOf(LateralTrim trim, in CraftPose pose)
    {
        // The rotation vector of the attitude, across the beam: sin θ · axis from the antisymmetric part.
        Mat3 r = pose.BeamFromBody;
        Vec3 axis = 0.5 * new Vec3(r.Row2.Y - r.Row1.Z, r.Row0.Z - r.Row2.X, r.Row1.X - r.Row0.Y);
        double sine = axis.Length;
        double scale = sine > 0 ? trim.TiltRadians / sine : 0;
        return new(
            [pose.OffsetXMetres, pose.OffsetYMetres],
            [scale * axis.X, scale * axis.Y],
            trim.IsDisplaced,
            trim.Summary
        );
    }

    private static CheckedMode ModeOf(StabilityMode mode)
    {
        double? tilt = mode.Shape.TiltPerOffsetRadiansPerMetre;
        return new(
            mode.GrowthPerSecond,
            mode.FrequencyHertz,
            mode.Multiplicity,
            tilt,
            tilt is null ? "The mode has no offset." : null
        );
    }

    private static double[] Components(Vec3 v) => [v.X, v.Y, v.Z];

    private static double[][] Rows(Mat3 m) => [Components(m.Row0), Components(m.Row1), Components(m.Row2)];
}
