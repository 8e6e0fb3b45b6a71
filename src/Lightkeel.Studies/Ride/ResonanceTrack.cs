using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Frequencies of the linear modes at one instant of a ride.</summary>
/// <param name="TimeSeconds">Coordinate time, s.</param>
/// <param name="FrequenciesHertz">Frequencies in coordinate time, rising, Hz; modes that do not swing are left out.</param>
public sealed record ResonancePoint(double TimeSeconds, IReadOnlyList<double> FrequenciesHertz);

/// <summary>The resonance track of a ride as it stands in its results.</summary>
internal static class ResonanceTrack
{
    /// <summary>Modes at a few instants of a ride; instants without light or trim are left out.</summary>
    public static IReadOnlyList<ResonancePoint> Of(DesignModel model, RideResult flown, double accuracy)
    {
        SurfaceQuadrature engine = new(model.Craft, model.Beam, Math.Max(accuracy, 1e-8));
        return
        [
            .. Physics
                .Stability.ResonanceTrack.Of(model.Craft, model.Beam, engine, flown)
                .Select(p => new ResonancePoint(p.TimeSeconds, p.FrequenciesHertz)),
        ];
    }
}
