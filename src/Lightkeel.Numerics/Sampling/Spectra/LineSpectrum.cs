using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A narrow line: a Lorentzian about a centre, its mirror image below zero folded in, of given total rms.</summary>
/// <remarks>
/// S(f) = rms² (g/π) [1/((f − f₀)² + g²) + 1/((f + f₀)² + g²)] with g half the full width at half maximum; the integral
/// over f ≥ 0 is rms² exactly. This is a vibration whose phase and amplitude wander with a coherence time 1/(π width).
/// The skirts fall as 1/f² and reach beyond any Nyquist frequency: see the synthesis report for what is lost.
/// </remarks>
public sealed record LineSpectrum : PowerSpectralDensity
{
    private readonly double _half;

    /// <summary>Builds the spectrum.</summary>
    /// <param name="centreHertz">Frequency of the line, Hz, above zero.</param>
    /// <param name="widthHertz">Full width at half maximum, Hz, above zero, at most twice the centre frequency.</param>
    /// <param name="rootMeanSquare">Root mean square of the whole line, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public LineSpectrum(double centreHertz, double widthHertz, double rootMeanSquare)
    {
        CentreHertz = Require.Positive(centreHertz);
        WidthHertz = Require.Positive(widthHertz);
        RootMeanSquare = Require.NotNegative(rootMeanSquare);
        if (widthHertz > 2 * centreHertz)
        {
            throw new ArgumentOutOfRangeException(
                nameof(widthHertz),
                widthHertz,
                $"A line of centre {centreHertz} Hz may be {2 * centreHertz} Hz wide at most; use a white spectrum."
            );
        }
        _half = widthHertz / 2;
    }

    /// <summary>Frequency of the line, Hz.</summary>
    public double CentreHertz { get; }

    /// <summary>Full width at half maximum, Hz.</summary>
    public double WidthHertz { get; }

    /// <summary>Root mean square of the whole line, in the unit of the quantity.</summary>
    public double RootMeanSquare { get; }

    /// <inheritdoc/>
    public override double LowestHertz => 0;

    /// <inheritdoc/>
    public override double HighestHertz => double.PositiveInfinity;

    /// <inheritdoc/>
    public override double FinestDetailHertz => WidthHertz;

    private protected override double DensityInside(double frequencyHertz)
    {
        double near = (frequencyHertz - CentreHertz) / _half;
        double far = (frequencyHertz + CentreHertz) / _half;
        double scale = RootMeanSquare * RootMeanSquare / (Math.PI * _half);
        return scale * (1 / (1 + near * near) + 1 / (1 + far * far));
    }

    private protected override double VarianceInside(double fromHertz, double toHertz)
    {
        double near = ArcTangentStep.Between((fromHertz - CentreHertz) / _half, (toHertz - CentreHertz) / _half);
        double far = ArcTangentStep.Between((fromHertz + CentreHertz) / _half, (toHertz + CentreHertz) / _half);
        return RootMeanSquare * RootMeanSquare * ((near + far) / Math.PI);
    }
}
