using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>
/// Tilt, about one axis, of light that crossed one layer of atmospheric turbulence moving with the wind: rad²/Hz.
/// </summary>
/// <remarks>
/// Frozen flow of phase with the von Karman spectrum c r₀^(−5/3) (f² + 1/L₀²)^(−11/6) seen through a round unobstructed
/// aperture, integrated across the wind for each temporal frequency. The density is flat below v/L₀, falls as f^(−2/3)
/// up to about 0.3 v/D, and as f^(−17/3) (Zernike tilt) or f^(−11/3) (gradient tilt) above. The aperture's sharp edge
/// ripples the high-frequency branch; the ripple is kept up to 4 v/D and faded out by 12 v/D, where its variance no longer
/// matters. Without outer scale the variance of the Zernike tilt is 0.182 (λ/D)² (D/r₀)^(5/3). The curve is tabulated when
/// built, and interpolated to 1e-4 of the density and 2e-5 of the variance.
/// Sources: Journal of the Optical Society of America 66(3), 207–211 (1976), doi:10.1364/JOSA.66.000207 (Zernike
/// filter); Journal of the Optical Society of America A 11(1), 358–367 (1994), doi:10.1364/JOSAA.11.000358 (tilt spectra
/// and variances).
/// </remarks>
public sealed record VonKarmanTiltSpectrum : PowerSpectralDensity
{
    private readonly LogLogCurve _curve;
    private readonly double _crossingHertz;
    private readonly double _densityScale;

    /// <summary>Builds the spectrum.</summary>
    /// <param name="windMetresPerSecond">Speed of the layer across the line of sight, above zero.</param>
    /// <param name="outerScaleMetres">Outer scale L₀, 1e-3 to 1e8 apertures; +∞ for Kolmogorov turbulence.</param>
    /// <param name="apertureMetres">Diameter D of the aperture, above zero.</param>
    /// <param name="friedParameterMetres">Fried's parameter r₀ at the wavelength, above zero.</param>
    /// <param name="wavelengthMetres">Wavelength, above zero.</param>
    /// <param name="kind">Zernike or gradient tilt.</param>
    /// <param name="axisFromWindRadians">
    /// Angle between the direction in which the tilt is measured and the wind; the default of π/4 is the mean of the axes
    /// along and across the wind.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public VonKarmanTiltSpectrum(
        double windMetresPerSecond,
        double outerScaleMetres,
        double apertureMetres,
        double friedParameterMetres,
        double wavelengthMetres,
        TiltKind kind,
        double axisFromWindRadians = Math.PI / 4
    )
    {
        WindMetresPerSecond = Require.Positive(windMetresPerSecond);
        ApertureMetres = Require.Positive(apertureMetres);
        FriedParameterMetres = Require.Positive(friedParameterMetres);
        WavelengthMetres = Require.Positive(wavelengthMetres);
        AxisFromWindRadians = Require.Finite(axisFromWindRadians);
        double scales = outerScaleMetres / apertureMetres;
        if (!(scales >= 1e-3 && (scales <= 1e8 || double.IsPositiveInfinity(outerScaleMetres))))
        {
            throw new ArgumentOutOfRangeException(
                nameof(outerScaleMetres),
                outerScaleMetres,
                "The outer scale must be 1e-3 to 1e8 apertures, or +infinity for Kolmogorov turbulence without one."
            );
        }
        OuterScaleMetres = outerScaleMetres;
        Kind = kind;
        _crossingHertz = windMetresPerSecond / apertureMetres;
        double angle = wavelengthMetres / apertureMetres;
        double variance = angle * angle * PortableMath.Pow(apertureMetres / friedParameterMetres, 5.0 / 3);
        _densityScale = Require.Positive(variance / _crossingHertz);
        double ratio = double.IsInfinity(outerScaleMetres) ? 0 : 1 / scales;
        _curve = FrozenTiltCurve.Tabulate(kind, ratio, axisFromWindRadians);
    }

    /// <summary>Speed of the layer across the line of sight, m/s.</summary>
    public double WindMetresPerSecond { get; }

    /// <summary>Outer scale of the turbulence, m; +∞ for none.</summary>
    public double OuterScaleMetres { get; }

    /// <summary>Diameter of the aperture, m.</summary>
    public double ApertureMetres { get; }

    /// <summary>Fried's parameter at the wavelength, m.</summary>
    public double FriedParameterMetres { get; }

    /// <summary>Wavelength, m.</summary>
    public double WavelengthMetres { get; }

    /// <summary>Zernike or gradient tilt.</summary>
    public TiltKind Kind { get; }

    /// <summary>Angle between the direction in which the tilt is measured and the wind, rad.</summary>
    public double AxisFromWindRadians { get; }

    /// <inheritdoc/>
    public override double LowestHertz => 0;

    /// <inheritdoc/>
    public override double HighestHertz => double.PositiveInfinity;

    /// <inheritdoc/>
    public override double FinestDetailHertz =>
        double.IsInfinity(OuterScaleMetres) ? 0 : WindMetresPerSecond / Math.Max(OuterScaleMetres, ApertureMetres);

    /// <summary>Two spectra are equal when their parameters are.</summary>
    public bool Equals(VonKarmanTiltSpectrum? other) => other is not null && Parameters.Equals(other.Parameters);

    /// <inheritdoc/>
    public override int GetHashCode() => Parameters.GetHashCode();

    private (double, double, double, double, double, TiltKind, double) Parameters =>
        (
            WindMetresPerSecond,
            OuterScaleMetres,
            ApertureMetres,
            FriedParameterMetres,
            WavelengthMetres,
            Kind,
            AxisFromWindRadians
        );

    private protected override double DensityInside(double frequencyHertz)
    {
        if (frequencyHertz == 0 && double.IsInfinity(OuterScaleMetres))
        {
            throw new ArgumentOutOfRangeException(
                nameof(frequencyHertz),
                frequencyHertz,
                "Without outer scale the tilt density grows without bound at zero; ask above zero or for a band's variance."
            );
        }
        return _densityScale * _curve.At(frequencyHertz / _crossingHertz);
    }

    private protected override double VarianceInside(double fromHertz, double toHertz) =>
        _densityScale * _crossingHertz * _curve.Integral(fromHertz / _crossingHertz, toHertz / _crossingHertz);
}
