namespace Lightkeel.Physics.Motion;

/// <summary>One way of integrating a ride.</summary>
internal interface IRideFlight
{
    /// <summary>Coordinate time reached, s.</summary>
    double TimeSeconds { get; }

    /// <summary>What it cost.</summary>
    RideNumerics Numerics { get; }

    /// <summary>Flies from the state to the end; the state is replaced by the last one.</summary>
    RideOutcome Fly(double[] state, CancellationToken cancellation);
}
