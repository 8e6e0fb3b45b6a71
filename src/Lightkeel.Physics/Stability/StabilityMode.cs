using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Relative amplitudes and phases of one mode: q(t) = Re(amplitude · e^{λ t}).</summary>
/// <param name="X">Amplitude of the offset along x, m.</param>
/// <param name="Y">Amplitude of the offset along y, m.</param>
/// <param name="TiltX">Amplitude of the tilt about x, rad.</param>
/// <param name="TiltY">Amplitude of the tilt about y, rad.</param>
/// <remarks>
/// Scaled so that the larger of offset and tilt times radius of gyration is one metre; only ratios have a meaning. Axes are
/// those of the report's <see cref="StabilityReport.Frame"/>.
/// </remarks>
public sealed record ModeShape(Complex X, Complex Y, Complex TiltX, Complex TiltY)
{
    /// <summary>Root of the summed squares of the offset amplitudes, m.</summary>
    public double OffsetMetres => double.Hypot(X.Magnitude, Y.Magnitude);

    /// <summary>Root of the summed squares of the tilt amplitudes, rad.</summary>
    public double TiltRadians => double.Hypot(TiltX.Magnitude, TiltY.Magnitude);

    /// <summary>Tilt amplitude per offset amplitude, rad/m; null for a mode without offset.</summary>
    public double? TiltPerOffsetRadiansPerMetre => OffsetMetres > 0 ? TiltRadians / OffsetMetres : null;
}

/// <summary>One root λ of the linear dynamics, with imaginary part zero or more.</summary>
/// <param name="GrowthPerSecond">Real part of λ, 1/s; exactly zero where the structure of the equations keeps it there.</param>
/// <param name="FrequencyHertz">Imaginary part of λ over 2π, Hz.</param>
/// <param name="GrowthErrorPerSecond">Bound of the error of the growth from the stated error of the Jacobian, 1/s.</param>
/// <param name="FrequencyErrorHertz">Bound of the error of the frequency, Hz.</param>
/// <param name="Multiplicity">How many independent motions share this root.</param>
/// <param name="Shapes">Mode shape of each of them; where there are several, any mixture of them is one as well.</param>
public sealed record StabilityMode(
    double GrowthPerSecond,
    double FrequencyHertz,
    double GrowthErrorPerSecond,
    double FrequencyErrorHertz,
    int Multiplicity,
    IReadOnlyList<ModeShape> Shapes
)
{
    /// <summary>The first of the mode shapes.</summary>
    public ModeShape Shape => Shapes[0];

    /// <summary>Time in which the mode grows by e, s; null when it does not grow.</summary>
    public double? EFoldingSeconds => GrowthPerSecond > 0 ? 1 / GrowthPerSecond : null;
}

/// <summary>Axes in which modes and their frequencies are given.</summary>
public enum ModeFrame
{
    /// <summary>Beam axes, which do not turn.</summary>
    Beam,

    /// <summary>Axes that turn with the spinning craft: a line at f appears to an observer on the beam at f ± spin.</summary>
    Body,

    /// <summary>Beam axes of a periodic system: frequencies are known up to whole multiples of the spin frequency.</summary>
    Periodic,
}
