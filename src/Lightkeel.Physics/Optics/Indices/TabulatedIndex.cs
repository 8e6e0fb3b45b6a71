using System.Numerics;

namespace Lightkeel.Physics.Optics.Indices;

/// <summary>One row of a table of refractive indices.</summary>
/// <param name="WavelengthMetres">Wavelength in vacuum, m.</param>
/// <param name="N">Refractive index.</param>
/// <param name="K">Extinction coefficient.</param>
public readonly record struct IndexRow(double WavelengthMetres, double N, double K);

/// <summary>A measured index, joined by straight lines in wavelength between the rows.</summary>
public sealed class TabulatedIndex : RefractiveIndex
{
    private readonly IndexRow[] _rows;

    /// <summary>Takes over a table.</summary>
    /// <param name="rows">Two rows or more with ascending wavelengths.</param>
    /// <exception cref="ArgumentException">The rows do not ascend or hold numbers that no substance has; the message names the row.</exception>
    public TabulatedIndex(IReadOnlyList<IndexRow> rows)
        : base(Checked(rows)[0].WavelengthMetres, rows[^1].WavelengthMetres) => _rows = [.. rows];

    /// <summary>The rows.</summary>
    public IReadOnlyList<IndexRow> Rows => _rows;

    /// <inheritdoc/>
    public override bool IsLossless => Array.TrueForAll(_rows, r => r.K == 0);

    /// <inheritdoc/>
    public override IReadOnlyList<double> BreaksMetres => [.. _rows.Select(r => r.WavelengthMetres)];

    /// <inheritdoc/>
    protected override Complex Inside(double wavelengthMetres)
    {
        int after = Array.FindIndex(_rows, r => r.WavelengthMetres >= wavelengthMetres);
        after = after < 0 ? _rows.Length - 1 : Math.Max(after, 1);
        IndexRow a = _rows[after - 1];
        IndexRow b = _rows[after];
        double part = (wavelengthMetres - a.WavelengthMetres) / (b.WavelengthMetres - a.WavelengthMetres);
        part = Math.Clamp(part, 0, 1);
        return new(a.N + part * (b.N - a.N), a.K + part * (b.K - a.K));
    }

    private static IReadOnlyList<IndexRow> Checked(IReadOnlyList<IndexRow> rows)
    {
        ArgumentNullException.ThrowIfNull(rows);
        if (rows.Count < 2)
        {
            throw new ArgumentException("A table of refractive indices needs two rows or more.");
        }
        for (int i = 0; i < rows.Count; i++)
        {
            IndexRow row = rows[i];
            bool ascends = i == 0 ? row.WavelengthMetres > 0 : row.WavelengthMetres > rows[i - 1].WavelengthMetres;
            if (!ascends || !double.IsFinite(row.WavelengthMetres))
            {
                throw new ArgumentException(
                    $"Row {i + 1} of the refractive indices: wavelengths must be above zero and ascend."
                );
            }
            if (!(row.N > 0 && row.K >= 0 && double.IsFinite(row.N) && double.IsFinite(row.K)))
            {
                throw new ArgumentException(
                    $"Row {i + 1} of the refractive indices: n must be above zero and k zero or more, both finite."
                );
            }
        }
        return rows;
    }
}
