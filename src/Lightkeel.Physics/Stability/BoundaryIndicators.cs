namespace Lightkeel.Physics.Stability;

/// <summary>
/// The two ways out of riding, each by a number of its own that passes smoothly through zero there: for tracing boundaries
/// that run close to each other, where <see cref="StabilityReport.Clearance"/> has a corner.
/// </summary>
/// <param name="Divergence">
/// Product of the squared rates −λ² of a coupled set over its scale (for a pair: the determinant of M⁻¹K); zero where one
/// motion loses its restoring force. The least of all sets.
/// </param>
/// <param name="Flutter">
/// For a pair the discriminant of M⁻¹K over its scale: zero where two motions meet, below zero where they swing up. The least
/// of all sets; 1 where no two motions are coupled.
/// </param>
/// <remarks>Zero of either is a boundary of riding only where the other motions are stable: an even number of divergent motions leaves the product positive.</remarks>
public readonly record struct BoundaryIndicators(double Divergence, double Flutter);
