using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Models;

/// <summary>The noises and drop-outs of a design as physics.</summary>
public static class NoiseModel
{
    /// <summary>Prepares everything that disturbs the rides of a design.</summary>
    /// <param name="model">The design with its models.</param>
    /// <param name="limitHertz">Cut for spectra whose skirts never end, Hz; null to choose it by their variance.</param>
    /// <exception cref="InputRefusedException">A noise has no physical model; the message says which and why.</exception>
    public static NoisePlan PlanOf(DesignModel model, double? limitHertz = null)
    {
        ArgumentNullException.ThrowIfNull(model);
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        return DesignModel.Guarded(
            "noise",
            () => NoisePlan.Of(SourcesOf(model.Design), DropOutsOf(model.Design), radius, limitHertz)
        );
    }

    /// <summary>The noises of a design.</summary>
    public static IReadOnlyList<NoiseSource> SourcesOf(Design design)
    {
        ArgumentNullException.ThrowIfNull(design);
        return [.. design.Noises.Select((noise, i) => SourceOf(design, noise, i))];
    }

    private static DropOut[] DropOutsOf(Design design) =>
        [.. design.DropOuts.Select(d => new DropOut(d.AtSeconds, d.LengthSeconds, d.ReturnSeconds))];

    private static NoiseSource SourceOf(Design design, NoiseDesign noise, int index)
    {
        string name = noise.Name ?? FormattableString.Invariant($"{index}");
        NoiseQuantity quantity = noise.Source switch
        {
            Designs.Sections.NoiseSource.Pointing => noise.Spectrum.Measure == NoiseMeasure.Angle
                ? NoiseQuantity.PointingAngle
                : NoiseQuantity.PointingLength,
            Designs.Sections.NoiseSource.Power => NoiseQuantity.Power,
            Designs.Sections.NoiseSource.Width => NoiseQuantity.Width,
            _ => NoiseQuantity.Imbalance,
        };
        return new(
            name,
            quantity,
            DesignModel.Guarded($"noise.{name}", () => SpectrumOf(noise.Spectrum, design.Beam.Director))
        );
    }

    private static PowerSpectralDensity SpectrumOf(SpectrumDesign spectrum, DirectorDesign? director) =>
        spectrum switch
        {
            WhiteSpectrumDesign s => new BandLimitedWhiteSpectrum(s.DensityPerHertz, s.CornerHertz),
            PowerLawSpectrumDesign s => new PowerLawSpectrum(
                s.DensityPerHertz,
                s.ReferenceHertz,
                s.Exponent,
                s.LowHertz,
                s.HighHertz
            ),
            VonKarmanSpectrumDesign s => TiltOf(s, s.ApertureMetres ?? director!.ApertureMetres),
            LineSpectrumDesign s => new LineSpectrum(s.FrequencyHertz, s.WidthHertz, s.Rms),
            TableSpectrumDesign s => new TableSpectrum([.. s.FrequenciesHertz], [.. s.DensitiesPerHertz]),
            _ => throw new ArgumentException($"The spectrum {spectrum.GetType().Name} has no model."),
        };

    // The shape of the tilt of turbulent air, at the strength that the stated root mean square asks for.
    private static PowerSpectralDensity TiltOf(VonKarmanSpectrumDesign s, double aperture)
    {
        if (s.Rms == 0)
        {
            return new BandLimitedWhiteSpectrum(0, s.WindMetresPerSecond / aperture);
        }
        VonKarmanTiltSpectrum Of(double wavelength) =>
            new(s.WindMetresPerSecond, s.OuterScaleMetres, aperture, aperture, wavelength, TiltKind.Zernike);
        return Of(aperture * s.Rms / Of(aperture).TotalRootMeanSquare);
    }
}
