using Lightkeel.Numerics;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>What rides on what: craft, light, and everything else that acts. Immutable; feeds any number of rides at once.</summary>
public sealed record RideSetup
{
    private readonly double _gravity;

    /// <summary>Light pressure at nominal power and designed size.</summary>
    public required IPressureEngine Engine { get; init; }

    /// <summary>Mass properties of the craft; the mass is the rest mass, and stays (heat is radiated as it comes).</summary>
    public required MassProperties Mass { get; init; }

    /// <summary>Nominal power of the source, W: for the energy account and the sizes of tolerances.</summary>
    public required double PowerWatts { get; init; }

    /// <summary>Length over which the beam changes, m: for the sizes of tolerances.</summary>
    public required double FeatureLengthMetres { get; init; }

    /// <summary>Power of the source against source time.</summary>
    public PowerSchedule Schedule { get; init; } = PowerSchedule.Constant;

    /// <summary>Where the light comes from; null when the beam keeps its size at any range.</summary>
    public BeamDirector? Director { get; init; }

    /// <summary>What disturbs the beam.</summary>
    public IBeamDisturbance Disturbance { get; init; } = new SteadyBeam();

    /// <summary>What disturbs the balance of the craft; null for nothing.</summary>
    public IImbalance? Imbalance { get; init; }

    /// <summary>
    /// Damping by rotation at the craft's straight pose on the axis, at rest and nominal power; null to leave it out. It
    /// turns with the craft, scales with the light on the craft, and is held over the ride: off the axis its own relative
    /// error is of the order of offset over beam size. Damping by lateral motion is exact, through the engine.
    /// </summary>
    public RateDamping? RotationDamping { get; init; }

    /// <summary>Uniform gravity along −z, m/s², not negative. Newtonian: meant for rigs, whose speeds are small.</summary>
    public double GravityMetresPerSecondSquared
    {
        get => _gravity;
        init => _gravity = Require.NotNegative(value);
    }

    /// <summary>Source times at which the light has a jump or a kink, increasing, s.</summary>
    internal double[] BreaksSeconds() =>
        [.. Schedule.BreaksSeconds.Concat(Disturbance.BreaksSeconds).Distinct().Order()];

    /// <summary>A setup for a craft in a beam, with damping by rotation at the straight pose where it can be had.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="engine">Light pressure of that craft in that beam.</param>
    /// <exception cref="PressureUnavailableException">The straight pose is not single-bounce.</exception>
    public static RideSetup For(SailCraft craft, Beam beam, IPressureEngine engine)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        return new()
        {
            Engine = engine,
            Mass = craft.Mass,
            PowerWatts = beam.PowerWatts,
            FeatureLengthMetres = beam.Profile.FeatureLengthMetres,
            RotationDamping = RateDamping.At(craft, beam, CraftPose.OnAxis, 1e-4),
        };
    }
}
