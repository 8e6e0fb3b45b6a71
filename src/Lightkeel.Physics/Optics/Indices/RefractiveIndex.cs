using System.Globalization;
using System.Numerics;

namespace Lightkeel.Physics.Optics.Indices;

/// <summary>Refractive index of a substance against the wavelength in vacuum: n + i k, k zero or more where light is absorbed.</summary>
/// <remarks>For waves that go as exp(i k x − i ω t). Immutable; safe to share between threads.</remarks>
public abstract class RefractiveIndex
{
    /// <summary>Describes where the index is known.</summary>
    /// <param name="shortestMetres">Shortest wavelength, m.</param>
    /// <param name="longestMetres">Longest wavelength, m.</param>
    protected RefractiveIndex(double shortestMetres, double longestMetres)
    {
        if (!(shortestMetres >= 0 && shortestMetres < longestMetres))
        {
            throw new ArgumentException(
                "A refractive index needs a range of wavelengths that ascends from zero or more."
            );
        }
        (ShortestMetres, LongestMetres) = (shortestMetres, longestMetres);
    }

    /// <summary>Shortest wavelength at which it is known, m.</summary>
    public double ShortestMetres { get; }

    /// <summary>Longest wavelength at which it is known, m; infinite where it is taken to hold at every one.</summary>
    public double LongestMetres { get; }

    /// <summary>True when the substance absorbs nowhere, or when its absorption is not known and is taken as none.</summary>
    public abstract bool IsLossless { get; }

    /// <summary>Wavelengths at which its slope jumps, m, ascending; none for a smooth formula.</summary>
    public virtual IReadOnlyList<double> BreaksMetres => [];

    /// <summary>n + i k.</summary>
    /// <param name="wavelengthMetres">Wavelength in vacuum, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index is not known at this wavelength; the message gives the range.</exception>
    public Complex At(double wavelengthMetres)
    {
        // The ends are quoted in micrometres: allow what the conversion rounds.
        const double Slack = 1e-12;
        return
            wavelengthMetres >= ShortestMetres * (1 - Slack)
            && wavelengthMetres <= LongestMetres * (1 + Slack)
            && double.IsFinite(wavelengthMetres)
            && wavelengthMetres > 0
            ? Inside(wavelengthMetres)
            : throw new ArgumentOutOfRangeException(nameof(wavelengthMetres), OutsideText(wavelengthMetres));
    }

    /// <summary>True when the index is known at a wavelength, m.</summary>
    public bool Covers(double wavelengthMetres) =>
        wavelengthMetres > 0 && wavelengthMetres >= ShortestMetres && wavelengthMetres <= LongestMetres;

    /// <summary>The range in words.</summary>
    public string RangeText =>
        double.IsInfinity(LongestMetres)
            ? "every wavelength"
            : string.Create(CultureInfo.InvariantCulture, $"{1e6 * ShortestMetres:G4} to {1e6 * LongestMetres:G4} um");

    /// <summary>n + i k at a wavelength inside the range.</summary>
    protected abstract Complex Inside(double wavelengthMetres);

    private string OutsideText(double wavelengthMetres) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"The refractive index is known from {RangeText}, not at {1e6 * wavelengthMetres:G6} um."
        );
}

/// <summary>The same index at every wavelength.</summary>
public sealed class ConstantIndex : RefractiveIndex
{
    private readonly Complex _value;

    /// <summary>States the index.</summary>
    /// <param name="n">Real part, more than zero.</param>
    /// <param name="k">Extinction coefficient, zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is out of range.</exception>
    public ConstantIndex(double n, double k = 0)
        : base(0, double.PositiveInfinity)
    {
        _value = new(Numerics.Require.Positive(n), Numerics.Require.NotNegative(k));
    }

    /// <summary>Vacuum.</summary>
    public static ConstantIndex Vacuum { get; } = new(1);

    /// <inheritdoc/>
    public override bool IsLossless => _value.Imaginary == 0;

    /// <inheritdoc/>
    protected override Complex Inside(double wavelengthMetres) => _value;
}

/// <summary>The index of another substance with an extinction coefficient stated beside it.</summary>
public sealed class AbsorbingIndex : RefractiveIndex
{
    private readonly RefractiveIndex _of;
    private readonly double _k;

    /// <summary>States the extinction coefficient.</summary>
    /// <param name="of">Where the real part comes from.</param>
    /// <param name="k">Extinction coefficient at every wavelength, zero or more.</param>
    public AbsorbingIndex(RefractiveIndex of, double k)
        : base((of ?? throw new ArgumentNullException(nameof(of))).ShortestMetres, of.LongestMetres) =>
        (_of, _k) = (of, Numerics.Require.NotNegative(k));

    /// <inheritdoc/>
    public override bool IsLossless => _k == 0;

    /// <inheritdoc/>
    public override IReadOnlyList<double> BreaksMetres => _of.BreaksMetres;

    /// <inheritdoc/>
    protected override Complex Inside(double wavelengthMetres) => new(_of.At(wavelengthMetres).Real, _k);
}
