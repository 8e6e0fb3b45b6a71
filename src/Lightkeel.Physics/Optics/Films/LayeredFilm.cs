using System.Numerics;
using Lightkeel.Numerics;
using Lightkeel.Physics.Optics.Indices;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>Plane layers between two half-spaces: reflectance, passed and absorbed share by the characteristic-matrix method.</summary>
/// <remarks>
/// With δ = 2π n d cos θ/λ and the tilted admittance η = n cos θ (s) or n/cos θ (p), a layer carries the tangential fields as
/// [[cos δ, −i sin δ/η], [−i η sin δ, cos δ]]. Each matrix is multiplied by exp(i δ), so that nothing overflows in a thick
/// absorbing layer; the factors are put back into the passed share. Sources: Principles of Optics (Cambridge, 7th ed. 1999), section
/// 1.6; Thin-Film Optical Filters (CRC, 4th ed. 2010), chapter 2. Immutable; safe to share between threads.
/// </remarks>
public sealed class LayeredFilm
{
    private readonly FilmLayer[] _layers;

    /// <summary>Builds a film.</summary>
    /// <param name="layers">Layers from the side that the light meets first; none is a bare surface.</param>
    /// <param name="before">The half-space the light comes from, lossless; vacuum when null.</param>
    /// <param name="behind">The half-space behind; vacuum when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">A layer has no thickness.</exception>
    /// <exception cref="ArgumentException">The light comes from an absorbing half-space.</exception>
    public LayeredFilm(IEnumerable<FilmLayer> layers, RefractiveIndex? before = null, RefractiveIndex? behind = null)
    {
        _layers = [.. layers];
        foreach (FilmLayer layer in _layers)
        {
            Require.Positive(layer.ThicknessMetres);
        }
        (Before, Behind) = (before ?? ConstantIndex.Vacuum, behind ?? ConstantIndex.Vacuum);
        if (!Before.IsLossless)
        {
            throw new ArgumentException("Light cannot come to a film from an absorbing half-space.", nameof(before));
        }
    }

    /// <summary>The layers, in the order in which the light meets them.</summary>
    public IReadOnlyList<FilmLayer> Layers => _layers;

    /// <summary>The half-space the light comes from.</summary>
    public RefractiveIndex Before { get; }

    /// <summary>The half-space behind.</summary>
    public RefractiveIndex Behind { get; }

    /// <summary>The same film met from its other side.</summary>
    public LayeredFilm Reversed => new(_layers.Reverse(), Behind, Before);

    /// <summary>True when no layer absorbs and both half-spaces are clear.</summary>
    public bool IsLossless => Indices().All(i => i.IsLossless);

    /// <summary>The same film with opaque layers cut to the depth at which light has faded by a number of nepers.</summary>
    /// <param name="wavelengthMetres">Wavelength in vacuum, m.</param>
    /// <param name="nepers">Fading of the amplitude, more than zero.</param>
    internal LayeredFilm ThinnedWhereOpaque(double wavelengthMetres, double nepers) =>
        new(
            _layers.Select(l =>
            {
                double k = l.Index.At(wavelengthMetres).Imaginary;
                double deepest = k > 0 ? nepers * wavelengthMetres / (2 * Math.PI * k) : double.PositiveInfinity;
                return l with { ThicknessMetres = Math.Min(l.ThicknessMetres, deepest) };
            }),
            Before,
            Behind
        );

    /// <summary>Total thickness, m.</summary>
    public double ThicknessMetres => _layers.Sum(l => l.ThicknessMetres);

    /// <summary>Shortest wavelength at which every index is known, m.</summary>
    public double ShortestMetres => Indices().Max(i => i.ShortestMetres);

    /// <summary>Longest wavelength at which every index is known, m.</summary>
    public double LongestMetres => Indices().Min(i => i.LongestMetres);

    /// <summary>What becomes of a plane wave.</summary>
    /// <param name="cosine">Cosine of the angle of incidence, 0 … 1.</param>
    /// <param name="wavelengthMetres">Wavelength in vacuum, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The cosine is out of range, or an index is not known at the wavelength.</exception>
    public FilmAnswer Answer(double cosine, double wavelengthMetres)
    {
        Require.Between(cosine, 0, 1);
        double n = Before.At(wavelengthMetres).Real;
        Complex behind = Behind.At(wavelengthMetres);
        // Conserved along the film: the square of n sin θ.
        double square = n * n * (1 - cosine) * (1 + cosine);
        Span<Wave> waves = stackalloc Wave[_layers.Length];
        Fill(waves, square, wavelengthMetres);
        Wave last = new(behind, NormalPart(behind, square), 0);
        (FilmShares across, Complex s) = Solve(n * cosine, waves, last, Polarisation.Across);
        // η_p = n/cos θ grows without bound at grazing incidence; its reciprocal does not: the dual problem is solved.
        (FilmShares along, Complex p) = Solve(cosine / n, waves, last, Polarisation.Along);
        return new(across, along, (s, p));
    }

    /// <summary>
    /// The whole matrix for the pair (E, H) of s, or (H, E) of p, of a film met from vacuum: its entries are entire functions of the square
    /// of the cosine, because they are even in n cos θ of every layer.
    /// </summary>
    /// <param name="squareOfCosine">cos²θ, 0 … 1.</param>
    /// <param name="wavelengthMetres">Wavelength in vacuum, m.</param>
    /// <param name="along">True for p.</param>
    internal FilmMatrix Matrix(double squareOfCosine, double wavelengthMetres, bool along)
    {
        Polarisation polarisation = along ? Polarisation.Along : Polarisation.Across;
        Span<Wave> waves = stackalloc Wave[_layers.Length];
        Fill(waves, 1 - squareOfCosine, wavelengthMetres);
        FilmMatrix all = new(1, 0, 0, 1);
        foreach (Wave wave in waves)
        {
            Complex cosine = Complex.Cos(wave.Phase);
            Complex sine = Complex.ImaginaryOne * Complex.Sin(wave.Phase);
            all *= new FilmMatrix(
                cosine,
                -wave.SineOverTilted(polarisation, sine),
                -wave.Tilted(polarisation) * sine,
                cosine
            );
        }
        return all;
    }

    private void Fill(Span<Wave> waves, double square, double wavelengthMetres)
    {
        for (int j = 0; j < waves.Length; j++)
        {
            Complex index = _layers[j].Index.At(wavelengthMetres);
            waves[j] = new(
                index,
                NormalPart(index, square),
                2 * Math.PI * _layers[j].ThicknessMetres / wavelengthMetres
            );
        }
    }

    // n cos θ of a medium, on the branch that decays into it.
    private static Complex NormalPart(Complex index, double square)
    {
        Complex root = Complex.Sqrt(index * index - square);
        return root.Imaginary < 0 || (root.Imaginary == 0 && root.Real < 0) ? -root : root;
    }

    // The fields (E, H) of s, or (H, E) of p with the admittance turned into the impedance cos θ/n = n cos θ/n².
    private static (FilmShares Shares, Complex Reflected) Solve(
        double first,
        ReadOnlySpan<Wave> waves,
        in Wave last,
        Polarisation polarisation
    )
    {
        Complex one = 1;
        Complex behind = last.Tilted(polarisation);
        Complex other = behind;
        double passedLog = 0;
        for (int j = waves.Length - 1; j >= 0; j--)
        {
            Wave wave = waves[j];
            Complex eta = wave.Tilted(polarisation);
            Complex turn = Complex.Exp(2 * Complex.ImaginaryOne * wave.Phase);
            Complex cosine = 0.5 * (1 + turn);
            Complex sine = 0.5 * (turn - 1);
            Complex ratio = wave.SineOverTilted(polarisation, sine);
            (one, other) = (cosine * one - ratio * other, cosine * other - eta * sine * one);
            passedLog -= 2 * wave.Phase.Imaginary;
            double size = Math.Max(one.Magnitude, other.Magnitude);
            (one, other) = (one / size, other / size);
            passedLog -= 2 * Math.Log(size);
        }
        Complex sum = first * one + other;
        if (sum == 0)
        {
            // Light along no film at all.
            return (new(0, 1, 0), 0);
        }
        Complex reflected = (first * one - other) / sum;
        double reflectance = SquareOf(reflected);
        double over = 4 * first / SquareOf(sum);
        double passed = over * behind.Real * Math.Exp(passedLog);
        // What enters the film, less what leaves it behind: Re(E H*) on both sides.
        double absorbed = over * ((one * Complex.Conjugate(other)).Real - behind.Real * Math.Exp(passedLog));
        return (new(reflectance, passed, Math.Max(0, absorbed)), reflected);
    }

    private static double SquareOf(Complex z) => z.Real * z.Real + z.Imaginary * z.Imaginary;

    private IEnumerable<RefractiveIndex> Indices() => [Before, .. _layers.Select(l => l.Index), Behind];

    private enum Polarisation
    {
        Across,
        Along,
    }

    // A wave in one medium: index, n cos θ, and 2π times the thickness over the wavelength.
    private readonly record struct Wave(Complex Index, Complex Normal, double Depth)
    {
        public Complex Phase => Depth * Normal;

        public Complex Tilted(Polarisation p) => p == Polarisation.Across ? Normal : Normal / (Index * Index);

        // i sin δ exp(i δ)/η, with its limit where the wave runs along the layer and both vanish.
        public Complex SineOverTilted(Polarisation p, Complex sine) =>
            Phase.Magnitude < 1e-8
                ? Complex.ImaginaryOne * Depth * (p == Polarisation.Across ? 1 : Index * Index)
                : sine / Tilted(p);
    }
}
