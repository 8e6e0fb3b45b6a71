using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Well;

/// <summary>Writes a measurement down as a result.</summary>
internal static class WellReading
{
    private const int CurlPoints = 24;
    private const string NotPotential =
        "The force has no potential; slice_work_J gives the work along the ray at fixed attitude, which is not one.";

    public static WellResult Of(WellInput input, WellMeasurement m)
    {
        DesignModel model = input.Design.Model;
        WellRay ray = m.Well.Pass;
        double end = m is { Stiffness.Low: > 0, Well.RimMetres: { } edge }
            ? Math.Min(2 * edge, ray.LengthMetres)
            : ray.LengthMetres;
        double[] radius = [.. Enumerable.Range(0, input.Points).Select(i => end * i / (input.Points - 1))];
        double[] work = [.. radius.Select(ray.Work)];
        bool held = m.Light.HasPotential && m.Well.RimMetres is not null && m.Stiffness.Low > 0;
        string? none = held ? null : WhyNone(m);
        double? depth = held ? m.Well.DepthJoules : null;
        double mass = model.Craft.Mass.MassKilograms;
        CraftPose bottom = m.Trim.Pose!.Value;
        WellHolding? holding =
            depth is { } height
            && Frequency(m.Stiffness.Low, mass, true) is { } low
            && Frequency(m.Stiffness.High, mass, true) is { } high
                ? WellHoldingReading.Of(model, height, low, high)
                : null;
        return new()
        {
            HasPotential = m.Light.HasPotential,
            PotentialText = m.Light.Reason,
            Finding = held ? "well" : none!,
            BottomOffsetMetres = [bottom.OffsetXMetres, bottom.OffsetYMetres],
            AngleRadians = ray.AngleRadians,
            RadiusMetres = radius,
            PotentialJoules = m.Light.HasPotential ? work : null,
            PotentialReason = m.Light.HasPotential ? null : NotPotential,
            SliceWorkJoules = m.Light.HasPotential ? null : work,
            ForceNewtons = [.. radius.Select(ray.Force)],
            RimRadiusMetres = held ? m.Well.RimMetres : null,
            RimReason = none,
            DepthJoules = depth,
            DepthReason = none,
            DepthErrorJoules = held ? m.Well.DepthErrorJoules : null,
            DepthErrorReason = none,
            DepthPerPowerSeconds = depth / model.Beam.PowerWatts,
            DepthPerPowerReason = none,
            EscapeSpeedMetresPerSecond = depth is { } d ? Math.Sqrt(2 * d / mass) : null,
            EscapeSpeedReason = none,
            FrequencyHertz = Frequency(m.Stiffness.Low, mass, m.Light.HasPotential),
            FrequencyReason = FrequencyReason(m.Stiffness.Low, m.Light.HasPotential),
            HighFrequencyHertz = Frequency(m.Stiffness.High, mass, m.Light.HasPotential),
            HighFrequencyReason = FrequencyReason(m.Stiffness.High, m.Light.HasPotential),
            Swings = held ? m.Swings : [],
            SwingsReason = held ? m.SwingsReason : none,
            FarPotentialJoules = m.Light.HasPotential ? m.Well.FarJoules : null,
            FarReason = m.Light.HasPotential ? null : NotPotential,
            Holding = holding,
            HoldingReason = holding is null ? none ?? "The well is too shallow or too stiff for a time." : null,
            Rays = [.. m.Well.Rays.Select(RimOf)],
            Curl = m.Light.HasPotential ? null : CurlOf(m, radius[^1]),
            Engine = m.Engine.Name,
        };
    }

    private static string WhyNone(WellMeasurement m)
    {
        if (!m.Light.HasPotential)
        {
            return "not a potential: " + m.Light.Reason;
        }
        string why =
            m.Stiffness.Low <= 0
                ? "the light pushes the craft away from where its lateral forces balance."
                : "on some ray the force pulls back to the end of the beam without letting go, or not at all.";
        return "no well: " + why;
    }

    private static double? Frequency(double stiffness, double mass, bool potential) =>
        potential && stiffness > 0 ? Math.Sqrt(stiffness / mass) / (2 * Math.PI) : null;

    private static string? FrequencyReason(double stiffness, bool potential) =>
        !potential ? "Offset and tilt swing together; check gives their modes."
        : stiffness > 0 ? null
        : "no well: nothing pulls back.";

    private static WellRim RimOf(WellRay ray) =>
        new(
            ray.AngleRadians,
            ray.RimMetres,
            ray.RimMetres is { } rim ? ray.Work(rim) : null,
            ray.RimMetres is null ? "Along this ray the force never turns from pulling back to pushing away." : null
        );

    private static WellCurl[] CurlOf(WellMeasurement m, double end)
    {
        CraftPose bottom = m.Trim.Pose!.Value;
        (double sin, double cos) = Math.SinCos(m.Well.Pass.AngleRadians);
        List<WellCurl> curl = [];
        for (int i = 0; i <= CurlPoints; i++)
        {
            double radius = end * i / CurlPoints;
            double[][] k = m
                .Engine.Differentiate(
                    bottom with
                    {
                        OffsetXMetres = bottom.OffsetXMetres + radius * cos,
                        OffsetYMetres = bottom.OffsetYMetres + radius * sin,
                    }
                )
                .LateralJacobian();
            double byTilt = k[0][3];
            double byOffset = k[3][0];
            curl.Add(new(radius, k[1][0] - k[0][1], byTilt - byOffset, Math.Abs(byTilt) + Math.Abs(byOffset)));
        }
        return [.. curl];
    }
}
