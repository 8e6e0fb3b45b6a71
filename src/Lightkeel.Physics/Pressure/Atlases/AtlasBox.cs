namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>The poses that an atlas covers; outside them it hands over to quadrature.</summary>
/// <param name="OffsetMetres">Largest distance of the centre of mass from the beam axis, m.</param>
/// <param name="TiltRadians">Largest angle between body axis and beam axis, rad, below π/2; of no meaning for a ball.</param>
public sealed record AtlasBox(double OffsetMetres, double TiltRadians)
{
    /// <summary>Smallest size of the beam over its designed size, above 0; 1 for none below the designed one.</summary>
    public double SmallestScale { get; init; } = 1;

    /// <summary>Largest size of the beam over its designed size; 1 for none above the designed one.</summary>
    public double LargestScale { get; init; } = 1;

    /// <summary>True when beams off their designed size are covered.</summary>
    public bool CoversSizes => SmallestScale < LargestScale;
}

/// <summary>What an atlas holds and how well it is proven.</summary>
/// <param name="Box">The box that is covered: no tilt beyond what light meets once.</param>
/// <param name="Panels">Panels for the beam of designed size.</param>
/// <param name="Coefficients">Coefficients of these panels, each for eight quantities.</param>
/// <param name="LargestMiss">Largest relative miss of force and torque at the points of proof, none of which was fitted on.</param>
/// <param name="ProofPoints">How many points of proof.</param>
/// <param name="LargestSlopeMiss">Largest relative miss of the derivatives, by offset and by tilt, at a share of these points.</param>
/// <param name="Evaluations">Quadratures that the build took.</param>
/// <param name="CoveredShare">Share of the offsets whose panels reached the accuracy, 0 … 1; the rest is handed over.</param>
/// <param name="CoversLateralMotion">True when light slanted by a lateral velocity is covered throughout; else some such poses are handed over.</param>
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
)
{
    /// <summary>Panels for beams off their designed size.</summary>
    public int ScaledPanels { get; init; }

    /// <summary>Coefficients of these, each for eight quantities.</summary>
    public int ScaledCoefficients { get; init; }

    /// <summary>Share of offsets and sizes, in a beam off its designed size, whose panels reached the accuracy, 0 … 1; 0 where none were asked.</summary>
    public double ScaledCoveredShare { get; init; }
}
