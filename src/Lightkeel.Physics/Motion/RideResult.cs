namespace Lightkeel.Physics.Motion;

/// <summary>What a ride cost, and what its numbers are worth.</summary>
/// <param name="Scheme">Method of integration.</param>
/// <param name="Tolerance">Tolerance of adaptive steps; null for fixed ones.</param>
/// <param name="FixedStepSeconds">Length of fixed steps, s; null for adaptive ones.</param>
/// <param name="AcceptedSteps">Steps taken.</param>
/// <param name="RejectedSteps">Steps tried and not taken.</param>
/// <param name="ForceEvaluations">Evaluations of the light pressure.</param>
/// <param name="Stretches">Stretches between breaks, each started anew.</param>
/// <param name="LargestLocalError">Largest local error over its tolerance; null for fixed steps, which have no estimate.</param>
/// <param name="LargestLocalErrorOf">The state variable that had it.</param>
/// <param name="LargestEngineError">Largest relative error of the light pressure that the engine vouched for.</param>
public sealed record RideNumerics(
    string Scheme,
    double? Tolerance,
    double? FixedStepSeconds,
    long AcceptedSteps,
    long RejectedSteps,
    long ForceEvaluations,
    int Stretches,
    double? LargestLocalError,
    string? LargestLocalErrorOf,
    double LargestEngineError
)
{
    /// <summary>Share of the light pressures that a table handed over to quadrature, 0 … 1.</summary>
    public double HandedOverFraction { get; init; }
}

/// <summary>A ride that was flown.</summary>
/// <param name="Outcome">How it ended.</param>
/// <param name="Final">The last instant.</param>
/// <param name="Records">Recorded instants, in order; the last one is the end.</param>
/// <param name="Peaks">Instants of largest offset, in order: the amplitude against time.</param>
/// <param name="MaximumOffsetMetres">Largest offset met, m: exact with peaks, else that of the records.</param>
/// <param name="MaximumTiltRadians">Largest tilt among records, peaks and the end, rad.</param>
/// <param name="KineticGainJoules">Gain of kinetic energy of the centre of mass, laser's frame, J.</param>
/// <param name="AngularMomentum">Account of the angular momentum about the nominal beam axis.</param>
/// <param name="Numerics">What it cost and what it is worth.</param>
public sealed record RideResult(
    RideOutcome Outcome,
    RideRecord Final,
    IReadOnlyList<RideRecord> Records,
    IReadOnlyList<RideRecord> Peaks,
    double MaximumOffsetMetres,
    double MaximumTiltRadians,
    double KineticGainJoules,
    AngularLedger AngularMomentum,
    RideNumerics Numerics
);
