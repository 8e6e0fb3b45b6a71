using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>The averaged light on a craft on the beam axis whose spin axis is tilted.</summary>
/// <param name="TiltRadians">Tilt of the angular momentum, rad.</param>
/// <param name="SidewaysNewtons">Averaged force across the beam towards the side to which the axis leans, N.</param>
/// <param name="AcrossNewtons">Averaged force across that direction, N: zero by symmetry for an axisymmetric craft and beam.</param>
/// <param name="ThrustNewtons">Averaged force along the beam, N.</param>
/// <param name="PrecessionRadiansPerSecond">Rate at which the averaged torque turns the angular momentum about the beam at this place, rad/s.</param>
public sealed record AveragedForcePoint(
    double TiltRadians,
    double SidewaysNewtons,
    double AcrossNewtons,
    double ThrustNewtons,
    double PrecessionRadiansPerSecond
);

/// <summary>How fast the motions of a spinning craft are.</summary>
/// <param name="SpinPeriodSeconds">Time of one turn, s.</param>
/// <param name="NutationPeriodSeconds">Time of a free nutation, 2π I₁/(I₃W), s.</param>
/// <param name="PrecessionPeriodSeconds">Time in which the averaged torque turns a tilted angular momentum once about the beam while the offset follows it, 2πH/|d − bc/a| with the Jacobian's entries, s; null when it does not.</param>
/// <param name="LateralPeriodSeconds">2π over √(|dF/dx|/m): a lateral swing, or 2π e-foldings of a drift, s; null when offset makes no force.</param>
/// <param name="Sentence">What follows from their ratios.</param>
public sealed record SpinTimes(
    double SpinPeriodSeconds,
    double NutationPeriodSeconds,
    double? PrecessionPeriodSeconds,
    double? LateralPeriodSeconds,
    string Sentence
)
{
    /// <summary>Whether a free nutation is faster than the precession, without which averaging over the spin means little.</summary>
    public bool AveragesHold => !(PrecessionPeriodSeconds <= NutationPeriodSeconds);
}

/// <summary>What linear analysis about perfect alignment hides from a spinning craft.</summary>
/// <param name="Top">The craft as a top.</param>
/// <param name="Times">Its times.</param>
/// <param name="Force">Averaged force against tilt, on the axis.</param>
/// <param name="ForceEnding">Why the curve stops where it does.</param>
/// <param name="SidewaysNewtonsPerRadian">Slope of the averaged sideways force at no tilt, N/rad.</param>
/// <param name="Families">Steady circular motions, slowest whirl first; empty when craft or beam is not axisymmetric.</param>
/// <param name="FamiliesReason">Why there are none; null when there are.</param>
/// <param name="Ladder">Rides from misaligned starts.</param>
/// <param name="Finding">Kind of the finding.</param>
/// <param name="Sentence">The finding in words.</param>
public sealed record SpinTruth(
    SpinningTop Top,
    SpinTimes Times,
    IReadOnlyList<AveragedForcePoint> Force,
    string ForceEnding,
    double SidewaysNewtonsPerRadian,
    IReadOnlyList<CircularFamily> Families,
    string? FamiliesReason,
    TiltLadderResult Ladder,
    SpinFinding Finding,
    string Sentence
)
{
    /// <summary>
    /// The family of the slow precession, whose offsets are the displaced trim of a tilted angular momentum: that of the slowest
    /// steady whirl, where that is slower than the lateral swing. Null where there is none: the precession has then met the
    /// swing, and both grow or die together.
    /// </summary>
    public CircularFamily? Displaced => DisplacedOf(Families, Times);

    internal static CircularFamily? DisplacedOf(IReadOnlyList<CircularFamily> families, SpinTimes times) =>
        families.Count > 0
        && families[0].Trims.Count > 0
        && times.LateralPeriodSeconds is { } swing
        && Math.Abs(families[0].WhirlRadiansPerSecond) < 2 * Math.PI / swing
            ? families[0]
            : null;

    /// <summary>The displaced trim at a tilt, by interpolation before the fold; null beyond what was followed.</summary>
    /// <param name="tiltRadians">Tilt, rad.</param>
    public CircularTrim? DisplacedAt(double tiltRadians)
    {
        IReadOnlyList<CircularTrim> trims = Displaced?.Trims ?? [];
        for (int i = 1; i < trims.Count && trims[i].TiltRadians > trims[i - 1].TiltRadians; i++)
        {
            if (trims[i].TiltRadians >= tiltRadians)
            {
                double share =
                    (tiltRadians - trims[i - 1].TiltRadians) / (trims[i].TiltRadians - trims[i - 1].TiltRadians);
                CircularTrim near = share > 0.5 ? trims[i] : trims[i - 1];
                return near with
                {
                    TiltRadians = tiltRadians,
                    OffsetMetres = Mixed(trims[i - 1].OffsetMetres, trims[i].OffsetMetres, share),
                    RateRadiansPerSecond = Mixed(
                        trims[i - 1].RateRadiansPerSecond,
                        trims[i].RateRadiansPerSecond,
                        share
                    ),
                };
            }
        }
        return null;
    }

    private static double Mixed(double a, double b, double share) => a + share * (b - a);
}

/// <summary>What the truth about a spinning craft is.</summary>
public enum SpinFinding
{
    /// <summary>The linear picture rides, and so do the rides from misaligned starts.</summary>
    Captured,

    /// <summary>The linear picture rides, the rides from a small misalignment do not.</summary>
    LinearOnly,

    /// <summary>The linear picture does not ride, or cannot say.</summary>
    LinearLeaves,

    /// <summary>A ride could not be flown to its end, or was cut before one lateral swing.</summary>
    Undecided,
}
