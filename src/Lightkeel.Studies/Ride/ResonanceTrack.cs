using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Frequencies of the linear modes at one instant of a ride.</summary>
/// <param name="TimeSeconds">Coordinate time, s.</param>
/// <param name="FrequenciesHertz">Frequencies in coordinate time, rising, Hz; modes that do not swing are left out.</param>
public sealed record ResonancePoint(double TimeSeconds, IReadOnlyList<double> FrequenciesHertz);

/// <summary>How the linear modes move along a ride as power, Doppler shift and spread change the light on the craft.</summary>
internal static class ResonanceTrack
{
    private const int Points = 25;

    // Modes along x and y of a round craft in a round beam are one; what tells them apart is rounding and damping.
    private const double Alike = 1e-4;

    /// <summary>Modes at a few instants of a ride; instants without light or trim are left out.</summary>
    public static IReadOnlyList<ResonancePoint> Of(DesignModel model, RideResult flown, double accuracy)
    {
        List<ResonancePoint> points = [];
        IReadOnlyList<RideRecord> records = flown.Records;
        SurfaceQuadrature engine = new(model.Craft, model.Beam, Math.Max(accuracy, 1e-8));
        int before = -1;
        for (int i = 0; i < Points; i++)
        {
            int at = (int)((long)i * (records.Count - 1) / (Points - 1));
            if (at != before && At(model, engine, records[at]) is { } point)
            {
                points.Add(point);
            }
            before = at;
        }
        return points;
    }

    private static ResonancePoint? At(DesignModel model, SurfaceQuadrature engine, in RideRecord record)
    {
        if (record.PowerFactor <= 0)
        {
            return null;
        }
        ThisInstant light = new(engine, record.PowerFactor, record.BeamScale);
        try
        {
            RidingAssessment found = RidingAssessment.Of(
                model.Craft,
                model.Beam,
                light,
                record.SpinRadiansPerSecond,
                record.State.VelocityMetresPerSecond.Z
            );
            // Modes are of the craft's own time, which the laser sees slowed.
            double slow = 1 / record.State.LorentzFactor;
            List<double> frequencies = [];
            foreach (double f in found.Report.Modes.Select(m => slow * m.FrequencyHertz).Where(f => f > 0).Order())
            {
                if (frequencies.Count == 0 || f > frequencies[^1] * (1 + Alike))
                {
                    frequencies.Add(f);
                }
            }
            return frequencies.Count == 0 ? null : new(record.TimeSeconds, frequencies);
        }
        catch (PressureUnavailableException)
        {
            return null;
        }
    }

    /// <summary>The light of one instant: the nominal light, stronger or weaker and wider.</summary>
    private sealed class ThisInstant(IPressureEngine nominal, double power, double scale) : IPressureEngine
    {
        public string Name => nominal.Name;

        public double Accuracy => nominal.Accuracy;

        public PressureReading Evaluate(in CraftPose pose) => Scaled(nominal.Evaluate(pose with { BeamScale = scale }));

        public PressureDerivatives Differentiate(in CraftPose pose)
        {
            PressureDerivatives d = nominal.Differentiate(pose with { BeamScale = scale });
            return new(Scaled(d.ByOffsetX), Scaled(d.ByOffsetY), Scaled(d.ByTiltX), Scaled(d.ByTiltY), d.RelativeError);
        }

        private PressureReading Scaled(in PressureReading r) =>
            r with
            {
                ForceNewtons = power * r.ForceNewtons,
                TorqueNewtonMetres = power * r.TorqueNewtonMetres,
                InterceptedWatts = power * r.InterceptedWatts,
                AbsorbedWatts = power * r.AbsorbedWatts,
            };
    }
}
