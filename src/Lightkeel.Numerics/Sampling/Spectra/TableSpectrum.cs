using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A measured or prescribed spectrum: straight lines between points on double-logarithmic paper, zero outside.</summary>
/// <remarks>
/// The usual reading of break-point tables: never outside the neighbouring values, monotone where the points are, and
/// with a band variance in closed form.
/// </remarks>
public sealed record TableSpectrum : PowerSpectralDensity
{
    private readonly double[] _frequencies;
    private readonly PowerLawPiece[] _pieces;

    /// <summary>Builds the spectrum.</summary>
    /// <param name="frequenciesHertz">At least two, above zero, increasing, Hz.</param>
    /// <param name="densities">As many one-sided densities, above zero, unit²/Hz.</param>
    /// <exception cref="ArgumentException">The points are too few, not in order, or not positive and finite.</exception>
    public TableSpectrum(ReadOnlySpan<double> frequenciesHertz, ReadOnlySpan<double> densities)
    {
        if (frequenciesHertz.Length < 2 || densities.Length != frequenciesHertz.Length)
        {
            throw new ArgumentException(
                "A table needs at least two points and as many densities as frequencies.",
                nameof(frequenciesHertz)
            );
        }
        _frequencies = frequenciesHertz.ToArray();
        _pieces = new PowerLawPiece[frequenciesHertz.Length - 1];
        for (int i = 0; i < _frequencies.Length; i++)
        {
            CheckPoint(i, densities[i]);
            if (i > 0)
            {
                _pieces[i - 1] = PowerLawPiece.Through(
                    _frequencies[i - 1],
                    densities[i - 1],
                    _frequencies[i],
                    densities[i]
                );
            }
        }
        if (!double.IsFinite(TotalVariance))
        {
            throw new ArgumentException("The integral of the table is too large for a double.", nameof(densities));
        }
    }

    /// <inheritdoc/>
    public override double LowestHertz => _frequencies[0];

    /// <inheritdoc/>
    public override double HighestHertz => _frequencies[^1];

    /// <inheritdoc/>
    public override double FinestDetailHertz
    {
        get
        {
            double finest = double.PositiveInfinity;
            for (int i = 1; i < _frequencies.Length; i++)
            {
                finest = Math.Min(finest, _frequencies[i] - _frequencies[i - 1]);
            }
            return finest;
        }
    }

    /// <summary>The points that stand out: above both neighbours by a factor of two or more, with the distance between these, Hz.</summary>
    public IReadOnlyList<(double Hertz, double WidthHertz)> Peaks()
    {
        List<(double, double)> peaks = [];
        for (int i = 1; i + 1 < _frequencies.Length; i++)
        {
            double here = At(_frequencies[i]);
            if (here >= 2 * At(_frequencies[i - 1]) && here >= 2 * At(_frequencies[i + 1]))
            {
                peaks.Add((_frequencies[i], 0.5 * (_frequencies[i + 1] - _frequencies[i - 1])));
            }
        }
        return peaks;
    }

    /// <summary>Two tables are equal when their points are.</summary>
    public bool Equals(TableSpectrum? other) =>
        other is not null
        && _frequencies.AsSpan().SequenceEqual(other._frequencies)
        && _pieces.AsSpan().SequenceEqual(other._pieces);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(_frequencies.Length, LowestHertz, HighestHertz, _pieces[0]);

    private protected override double DensityInside(double frequencyHertz) =>
        _pieces[PieceAt(frequencyHertz)].At(frequencyHertz);

    private protected override double VarianceInside(double fromHertz, double toHertz)
    {
        double sum = 0;
        for (int i = PieceAt(fromHertz); i < _pieces.Length && _frequencies[i] < toHertz; i++)
        {
            double from = Math.Max(fromHertz, _frequencies[i]);
            double to = Math.Min(toHertz, _frequencies[i + 1]);
            sum += from < to ? _pieces[i].Integral(from, to) : 0;
        }
        return sum;
    }

    private int PieceAt(double frequencyHertz)
    {
        int at = Array.BinarySearch(_frequencies, frequencyHertz);
        return Math.Clamp(at >= 0 ? at : ~at - 1, 0, _pieces.Length - 1);
    }

    private void CheckPoint(int i, double density)
    {
        double f = _frequencies[i];
        if (!double.IsFinite(f) || f <= 0 || (i > 0 && f <= _frequencies[i - 1]))
        {
            throw new ArgumentException(
                $"Frequency {i} of the table ({f} Hz) must be finite, above zero and above the one before it."
            );
        }
        if (!double.IsFinite(density) || density <= 0)
        {
            throw new ArgumentException(
                $"Density {i} of the table ({density}, at {f} Hz) must be finite and above zero; "
                    + "leave out points of zero density at the ends, where the spectrum is zero anyway."
            );
        }
    }
}
