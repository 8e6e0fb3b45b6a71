using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>How far a ride may come, before it is flown: what tables must cover.</summary>
public static class RideReach
{
    private const int Steps = 400;

    /// <summary>
    /// Distance along the beam that a craft on the axis comes under its full thrust, m, with a tenth more thrust than it has: nothing
    /// is lost past its rim, no taper, no gravity. Straight boost, du/dt = F D²/m with u the celerity, by the midpoint rule.
    /// </summary>
    /// <param name="setup">What rides on what.</param>
    /// <param name="start">State at the start.</param>
    /// <param name="durationSeconds">Coordinate time, s.</param>
    /// <exception cref="PressureUnavailableException">The straight pose cannot be computed.</exception>
    public static double DistanceMetres(RideSetup setup, RideStart start, double durationSeconds)
    {
        ArgumentNullException.ThrowIfNull(setup);
        ArgumentNullException.ThrowIfNull(start);
        double push =
            1.1 * Math.Max(0, setup.Engine.Evaluate(CraftPose.OnAxis).ForceNewtons.Z) / setup.Mass.MassKilograms;
        double gamma = 1 / Math.Sqrt(1 - Square(start.SpeedMetresPerSecond / Illumination.LightSpeed));
        double celerity = gamma * start.SpeedMetresPerSecond;
        double distance = 0;
        double step = durationSeconds / Steps;
        for (int i = 0; i < Steps; i++)
        {
            double half = celerity + 0.5 * step * push * Doppler(celerity);
            distance += step * Speed(half);
            celerity += step * push * Doppler(half);
        }
        return distance;
    }

    private static double Square(double x) => x * x;

    private static double Speed(double celerity) =>
        celerity / Math.Sqrt(1 + Square(celerity / Illumination.LightSpeed));

    // Irradiance in the rest frame over that in the laser's frame: (1 − β)/(1 + β).
    private static double Doppler(double celerity)
    {
        double beta = Speed(celerity) / Illumination.LightSpeed;
        return (1 - beta) / (1 + beta);
    }
}
