namespace Lightkeel.Physics.Motion;

/// <summary>How the beam differs from its design at one source time.</summary>
/// <param name="OffsetXMetres">Beam axis at the craft along beam x, m, angles left out.</param>
/// <param name="OffsetYMetres">Beam axis at the craft along beam y, m, angles left out.</param>
/// <param name="PowerFactor">Power over scheduled power, not negative; 0 in a drop-out.</param>
/// <param name="WidthFactor">Size over designed size, positive; the power is kept.</param>
public readonly record struct BeamState(
    double OffsetXMetres,
    double OffsetYMetres,
    double PowerFactor,
    double WidthFactor
)
{
    /// <summary>Turn of the beam at its director that moves its axis along beam x, rad: times the range, a length.</summary>
    public double AngleXRadians { get; init; }

    /// <summary>Turn of the beam at its director that moves its axis along beam y, rad: times the range, a length.</summary>
    public double AngleYRadians { get; init; }

    /// <summary>The beam as designed.</summary>
    public static BeamState AsDesigned => new(0, 0, 1, 1);
}

/// <summary>What disturbs the beam, as a function of source time: pointing, power, width, drop-outs.</summary>
/// <remarks>Pure: the same time gives the same state, whatever was asked before. Called from one thread per ride.</remarks>
public interface IBeamDisturbance
{
    /// <summary>State of the beam when the light left the source.</summary>
    /// <param name="sourceSeconds">Source time, s; may lie a step before 0 or after the ride's end.</param>
    BeamState At(double sourceSeconds);

    /// <summary>
    /// Source times at which the state jumps or has a kink, increasing. Adaptive rides stop and start anew there; a jump
    /// that is not listed costs many short steps.
    /// </summary>
    IReadOnlyList<double> BreaksSeconds { get; }

    /// <summary>
    /// Highest frequency in the disturbance, Hz; 0 when it changes at breaks only. Steps longer than half its period are
    /// refused (fixed) or not taken (adaptive).
    /// </summary>
    double HighestFrequencyHertz { get; }
}

/// <summary>The beam as designed, for ever.</summary>
public sealed class SteadyBeam : IBeamDisturbance
{
    /// <inheritdoc/>
    public IReadOnlyList<double> BreaksSeconds => [];

    /// <inheritdoc/>
    public double HighestFrequencyHertz => 0;

    /// <inheritdoc/>
    public BeamState At(double sourceSeconds) => BeamState.AsDesigned;
}
