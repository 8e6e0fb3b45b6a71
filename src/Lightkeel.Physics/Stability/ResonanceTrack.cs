using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>Frequencies of the linear modes at one instant of a ride.</summary>
/// <param name="TimeSeconds">Coordinate time, s.</param>
/// <param name="DistanceMetres">Distance along the beam from the start, m.</param>
/// <param name="FrequenciesHertz">Frequencies in coordinate time, rising, Hz; modes that do not swing are left out.</param>
/// <param name="GrowthPerSecond">Growth of the fastest growing motion in coordinate time, 1/s; not above zero while the craft rides.</param>
public sealed record ResonanceInstant(
    double TimeSeconds,
    double DistanceMetres,
    IReadOnlyList<double> FrequenciesHertz,
    double GrowthPerSecond
);

/// <summary>How the linear modes move along a ride as power, Doppler shift and spread change the light on the craft.</summary>
public static class ResonanceTrack
{
    // Modes along x and y of a round craft in a round beam are one; what tells them apart is rounding.
    private const double Alike = 1e-4;

    /// <summary>Modes at a few instants of a ride; instants without light or trim are left out.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam at nominal power and designed size.</param>
    /// <param name="engine">Light pressure of that craft in that beam.</param>
    /// <param name="flown">The ride.</param>
    /// <param name="points">How many instants, 2 or more.</param>
    public static IReadOnlyList<ResonanceInstant> Of(
        SailCraft craft,
        Beam beam,
        IPressureEngine engine,
        RideResult flown,
        int points = 25
    )
    {
        ArgumentNullException.ThrowIfNull(flown);
        Numerics.Require.AtLeast(2, points);
        List<ResonanceInstant> found = [];
        IReadOnlyList<RideRecord> records = flown.Records;
        int before = -1;
        for (int i = 0; i < points; i++)
        {
            int at = (int)((long)i * (records.Count - 1) / (points - 1));
            if (at != before && At(craft, beam, engine, records[at]) is { } point)
            {
                found.Add(point);
            }
            before = at;
        }
        return found;
    }

    private static ResonanceInstant? At(SailCraft craft, Beam beam, IPressureEngine engine, in RideRecord record)
    {
        if (record.PowerFactor <= 0)
        {
            return null;
        }
        try
        {
            RidingAssessment found = RidingAssessment.Of(
                craft,
                beam,
                new InstantPressure(engine, record.PowerFactor, record.BeamScale),
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
            return frequencies.Count == 0
                ? null
                : new(record.TimeSeconds, record.DistanceMetres, frequencies, slow * found.Report.GrowthPerSecond);
        }
        catch (PressureUnavailableException)
        {
            return null;
        }
    }
}
