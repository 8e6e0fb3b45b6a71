namespace Lightkeel.Physics.Pressure;

/// <summary>The poses that an atlas covers; outside them it hands over to quadrature.</summary>
/// <param name="OffsetMetres">Largest distance of the centre of mass from the beam axis, m.</param>
/// <param name="TiltRadians">Largest angle between body axis and beam axis, rad, below π/2; of no meaning for a ball.</param>
public sealed record AtlasBox(double OffsetMetres, double TiltRadians);

/// <summary>What an atlas holds and how well it is proven.</summary>
/// <param name="Box">The box that is covered: no tilt beyond what light meets once.</param>
/// <param name="Panels">Panels along the offset.</param>
/// <param name="Coefficients">Coefficients of all panels, each for eight quantities.</param>
/// <param name="LargestMiss">Largest relative miss of force and torque at the points of proof, none of which was fitted on.</param>
/// <param name="ProofPoints">How many points of proof.</param>
/// <param name="LargestSlopeMiss">Largest relative miss of the derivatives, by offset and by tilt, at a share of these points.</param>
/// <param name="Evaluations">Quadratures that the build took.</param>
/// <param name="CoveredShare">Share of the offsets whose panels reached the accuracy, 0 … 1; the rest is handed over.</param>
/// <param name="CoversLateralMotion">True when light slanted by a lateral velocity is covered; else such poses are handed over.</param>
public sealed record AtlasReport(
    AtlasBox Box,
    int Panels,
    int Coefficients,
    double LargestMiss,
    int ProofPoints,
    double LargestSlopeMiss,
    int Evaluations,
    double CoveredShare,
    bool CoversLateralMotion
);
