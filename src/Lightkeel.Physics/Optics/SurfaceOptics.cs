using Lightkeel.Numerics;
using Lightkeel.Physics.Optics.Films;

namespace Lightkeel.Physics.Optics;

/// <summary>What a surface does with the light that meets either of its sides. Immutable; safe to share between threads.</summary>
public abstract record SurfaceOptics
{
    /// <summary>Emissivity of the lit side.</summary>
    public abstract double EmissivityLit { get; }

    /// <summary>Emissivity of the other side.</summary>
    public abstract double EmissivityBack { get; }

    /// <summary>Greatest share reflected as by a mirror, over every incidence at the laser's wavelength.</summary>
    public abstract double Specular { get; }

    /// <summary>Greatest share scattered back by Lambert's law.</summary>
    public abstract double Diffuse { get; }

    /// <summary>Greatest share absorbed.</summary>
    public abstract double Absorbed { get; }

    /// <summary>Greatest share that passes.</summary>
    public abstract double Passed { get; }

    /// <summary>
    /// Net share of the radiated heat's momentum that leaves by the lit side, −1 … 1 (<see cref="OpticalCoefficients.ThermalAsymmetry"/>).
    /// </summary>
    public double ThermalAsymmetry => new OpticalCoefficients(0, 0, 0, EmissivityLit, EmissivityBack).ThermalAsymmetry;

    /// <summary>True when the shares are the same at every incidence and wavelength.</summary>
    public abstract bool IsConstant { get; }

    /// <summary>The same surface lit from its other side.</summary>
    public abstract SurfaceOptics Reversed { get; }

    /// <summary>Shares of unpolarised light.</summary>
    /// <param name="cosine">Cosine of incidence, 0 … 1.</param>
    /// <param name="stretch">Wavelength at the surface over that of the laser.</param>
    /// <exception cref="ArgumentOutOfRangeException">The surface is not known at that wavelength.</exception>
    public abstract OpticalCoefficients At(double cosine, double stretch = 1);

    /// <summary>Constant shares as a surface.</summary>
    public static implicit operator SurfaceOptics(OpticalCoefficients shares) => FromOpticalCoefficients(shares);

    /// <summary>Constant shares as a surface.</summary>
    public static SurfaceOptics FromOpticalCoefficients(OpticalCoefficients shares) => new ConstantOptics(shares);
}

/// <summary>A surface with constant shares.</summary>
/// <param name="Shares">The shares.</param>
public sealed record ConstantOptics(OpticalCoefficients Shares) : SurfaceOptics
{
    /// <inheritdoc/>
    public override double EmissivityLit => Shares.EmissivityLit;

    /// <inheritdoc/>
    public override double EmissivityBack => Shares.EmissivityBack;

    /// <inheritdoc/>
    public override double Specular => Shares.Specular;

    /// <inheritdoc/>
    public override double Diffuse => Shares.Diffuse;

    /// <inheritdoc/>
    public override double Absorbed => Shares.Absorbed;

    /// <inheritdoc/>
    public override double Passed => Shares.Passed;

    /// <inheritdoc/>
    public override bool IsConstant => true;

    /// <inheritdoc/>
    public override SurfaceOptics Reversed => new ConstantOptics(Shares.Reversed);

    /// <inheritdoc/>
    public override OpticalCoefficients At(double cosine, double stretch = 1) => Shares;
}

/// <summary>A layered film: its shares follow from its layers, the incidence and the wavelength that the moving sail sees.</summary>
public sealed record FilmOptics : SurfaceOptics
{
    private const int Incidences = 96;
    private readonly FilmTable _lit;
    private readonly FilmTable _back;

    /// <summary>Describes a film.</summary>
    /// <param name="film">Its layers, from the lit side.</param>
    /// <param name="wavelengthMetres">Wavelength in the laser's frame, m.</param>
    /// <param name="emissivityLit">Hemispherical emissivity of the lit side, 0 … 1.</param>
    /// <param name="emissivityBack">Hemispherical emissivity of the other side, 0 … 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An emissivity is out of range, or an index is not known at the wavelength.</exception>
    public FilmOptics(LayeredFilm film, double wavelengthMetres, double emissivityLit = 0, double emissivityBack = 0)
    {
        ArgumentNullException.ThrowIfNull(film);
        (_lit, _back) = (new(film, wavelengthMetres), new(film.Reversed, wavelengthMetres));
        (EmissivityLit, EmissivityBack) = (Require.Between(emissivityLit, 0, 1), Require.Between(emissivityBack, 0, 1));
        for (int i = 1; i <= Incidences; i++)
        {
            FilmShares shares = film.Answer((double)i / Incidences, wavelengthMetres).Unpolarised;
            FilmShares back = film.Reversed.Answer((double)i / Incidences, wavelengthMetres).Unpolarised;
            Specular = Math.Max(Specular, Math.Max(shares.Reflected, back.Reflected));
            Absorbed = film.IsLossless ? 0 : Math.Max(Absorbed, Math.Max(shares.Absorbed, back.Absorbed));
            Passed = Math.Max(Passed, shares.Passed);
        }
    }

    private FilmOptics(FilmTable lit, FilmTable back, FilmOptics unturned)
    {
        (_lit, _back) = (lit, back);
        (EmissivityLit, EmissivityBack) = (unturned.EmissivityBack, unturned.EmissivityLit);
        (Specular, Absorbed, Passed) = (unturned.Specular, unturned.Absorbed, unturned.Passed);
    }

    /// <summary>The film from its lit side.</summary>
    public LayeredFilm Film => _lit.Film;

    /// <inheritdoc/>
    public override double EmissivityLit { get; }

    /// <inheritdoc/>
    public override double EmissivityBack { get; }

    /// <inheritdoc/>
    public override double Specular { get; }

    /// <inheritdoc/>
    public override double Diffuse => 0;

    /// <inheritdoc/>
    public override double Absorbed { get; }

    /// <inheritdoc/>
    public override double Passed { get; }

    /// <inheritdoc/>
    public override bool IsConstant => false;

    /// <inheritdoc/>
    public override SurfaceOptics Reversed => new FilmOptics(_back, _lit, this);

    /// <summary>Greatest share that passes, over every incidence, at a wavelength.</summary>
    /// <param name="stretch">Wavelength at the film over that of the laser.</param>
    /// <exception cref="ArgumentOutOfRangeException">An index is not known at that wavelength.</exception>
    public double PassedAt(double stretch)
    {
        FilmCurve curve = Curve(stretch);
        double greatest = 0;
        for (int i = 1; i <= Incidences; i++)
        {
            greatest = Math.Max(greatest, curve.Unpolarised((double)i / Incidences).Passed);
        }
        return greatest;
    }

    /// <summary>The shares against incidence at a wavelength.</summary>
    /// <param name="stretch">Wavelength at the film over that of the laser.</param>
    /// <exception cref="ArgumentOutOfRangeException">An index is not known at that wavelength.</exception>
    public FilmCurve Curve(double stretch) => _lit.At(stretch);

    /// <inheritdoc/>
    public override OpticalCoefficients At(double cosine, double stretch = 1)
    {
        FilmShares shares = _lit.At(stretch).Unpolarised(cosine);
        return new(shares.Reflected, 0, shares.Absorbed, EmissivityLit, EmissivityBack);
    }
}
