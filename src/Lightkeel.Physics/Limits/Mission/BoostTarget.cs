namespace Lightkeel.Physics.Limits.Mission;

/// <summary>What ends a boost; the first that is met does.</summary>
/// <param name="LightTimeSeconds">Coordinate time from the first light on the craft, s.</param>
/// <param name="Beta">Axial speed over that of light; null for none.</param>
/// <param name="DistanceMetres">Distance from the start, m; null for none.</param>
public sealed record BoostTarget(double LightTimeSeconds, double? Beta, double? DistanceMetres);

/// <summary>Why a boost ended.</summary>
public enum BoostEnd
{
    /// <summary>The time was over.</summary>
    Time,

    /// <summary>The target speed was reached.</summary>
    Speed,

    /// <summary>The target distance was reached.</summary>
    Distance,

    /// <summary>The source went dark.</summary>
    LightOff,
}

/// <summary>A straight boost at one instant.</summary>
/// <param name="SourceSeconds">Emission time of the light that meets the craft, s.</param>
/// <param name="TimeSeconds">Coordinate time, s.</param>
/// <param name="ProperSeconds">Time on the craft, s.</param>
/// <param name="Rapidity">Rapidity along the beam.</param>
/// <param name="DistanceMetres">Distance from the start, m.</param>
/// <param name="SourceJoules">Energy that has left the source, J.</param>
/// <param name="MeetingJoules">What of it meets the craft, J at the source.</param>
public readonly record struct BoostInstant(
    double SourceSeconds,
    double TimeSeconds,
    double ProperSeconds,
    double Rapidity,
    double DistanceMetres,
    double SourceJoules,
    double MeetingJoules
)
{
    /// <summary>Speed over that of light.</summary>
    public double Beta => Math.Tanh(Rapidity);

    /// <summary>Irradiance at the craft over that at rest, D² = e^(−2 rapidity).</summary>
    public double DopplerSquare => Math.Exp(-2 * Rapidity);
}
