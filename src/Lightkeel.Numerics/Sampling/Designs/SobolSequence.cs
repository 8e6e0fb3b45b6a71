using System.Numerics;
using Lightkeel.Numerics.Sampling.Draws;

namespace Lightkeel.Numerics.Sampling.Designs;

/// <summary>Sobol's low-discrepancy sequence in up to 64 dimensions, plain or scrambled.</summary>
/// <remarks>
/// Points follow in Gray-code order; a point is found from its index alone. Use 2^m points for the balance that the
/// sequence is made for. Plain points are multiples of 2⁻⁵² in [0, 1) and start with the origin. Scrambled points lie
/// in (0, 1), are each uniformly distributed, and keep the balance: every direction number is multiplied by a random
/// lower-triangular binary matrix and the result shifted by random binary digits; independent scramblings give an error
/// estimate. Sources: USSR Computational Mathematics and Mathematical Physics 7(4), 86–112 (1967),
/// doi:10.1016/0041-5553(67)90144-9 (sequence); SIAM Journal on Scientific Computing 30(5), 2635–2654 (2008),
/// doi:10.1137/070709359 (direction numbers, set D(6)); Journal of Complexity 14(4), 527–556 (1998),
/// doi:10.1006/jcom.1998.0489 (random linear scrambling). Immutable; safe to share between threads.
/// </remarks>
public sealed class SobolSequence : IPointSet
{
    private const int Bits = 52;
    private const ulong ShiftStep = ulong.MaxValue;
    private readonly ulong[][] _directions;
    private readonly ulong[]? _shifts;

    /// <summary>Builds the plain sequence.</summary>
    /// <param name="dimensionCount">Coordinates per point, 1 to <see cref="HighestDimensionCount"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The dimension is out of range.</exception>
    public SobolSequence(int dimensionCount)
    {
        if (dimensionCount < 1 || dimensionCount > HighestDimensionCount)
        {
            throw new ArgumentOutOfRangeException(
                nameof(dimensionCount),
                dimensionCount,
                $"The tabulated direction numbers serve 1 to {HighestDimensionCount} dimensions."
            );
        }
        _directions = new ulong[dimensionCount][];
        for (int d = 0; d < dimensionCount; d++)
        {
            _directions[d] = Directions(SobolDirectionData.Row(d));
        }
    }

    /// <summary>Builds a scrambled sequence.</summary>
    /// <param name="dimensionCount">Coordinates per point, 1 to <see cref="HighestDimensionCount"/>.</param>
    /// <param name="draws">Where the scrambling comes from; another seed or ride is an independent scrambling.</param>
    /// <exception cref="ArgumentOutOfRangeException">The dimension is out of range.</exception>
    public SobolSequence(int dimensionCount, RandomDraws draws)
        : this(dimensionCount)
    {
        _shifts = new ulong[dimensionCount];
        for (int d = 0; d < dimensionCount; d++)
        {
            _shifts[d] = draws.Word(ShiftStep, (ulong)d) >> (64 - Bits);
            Scramble(_directions[d], draws, (ulong)d);
        }
    }

    /// <summary>The largest number of dimensions that the tabulated direction numbers serve.</summary>
    public static int HighestDimensionCount => SobolDirectionData.RowCount;

    /// <inheritdoc/>
    public int DimensionCount => _directions.Length;

    /// <inheritdoc/>
    public ulong PointCount => 1UL << Bits;

    /// <inheritdoc/>
    public void Point(ulong index, Span<double> coordinates)
    {
        PointRequest.Check(this, index, coordinates);
        ulong gray = index ^ (index >> 1);
        for (int d = 0; d < coordinates.Length; d++)
        {
            ulong sum = _shifts?[d] ?? 0;
            ulong[] directions = _directions[d];
            for (ulong left = gray; left != 0; left &= left - 1)
            {
                sum ^= directions[BitOperations.TrailingZeroCount(left)];
            }
            coordinates[d] = (_shifts is null ? 2 * sum : 2 * sum + 1) * (1.0 / (1UL << 53));
        }
    }

    // From the primitive polynomial x^s + a1 x^(s-1) + … + 1 and the first s odd numbers m by the recurrence
    // m_k = 2 a1 m_(k-1) ^ 4 a2 m_(k-2) ^ … ^ 2^s m_(k-s) ^ m_(k-s); direction k is m_k placed after k binary digits.
    private static ulong[] Directions(ReadOnlySpan<int> row)
    {
        ulong[] directions = new ulong[Bits];
        int polynomial = row[0];
        int degree = BitOperations.Log2((uint)polynomial);
        for (int k = 0; k < Bits; k++)
        {
            if (degree == 0)
            {
                directions[k] = 1UL << (Bits - 1 - k);
                continue;
            }
            if (k < degree)
            {
                directions[k] = (ulong)row[1 + k] << (Bits - 1 - k);
                continue;
            }
            ulong value = directions[k - degree] ^ (directions[k - degree] >> degree);
            for (int j = 1; j < degree; j++)
            {
                value ^= ((polynomial >> (degree - j)) & 1) != 0 ? directions[k - j] : 0;
            }
            directions[k] = value;
        }
        return directions;
    }

    // Digit i of the result is digit i plus a random sum of the digits before it.
    private static void Scramble(ulong[] directions, RandomDraws draws, ulong dimension)
    {
        ulong[] rows = new ulong[Bits];
        for (int i = 0; i < Bits; i++)
        {
            ulong before = i == 0 ? 0 : draws.Word(dimension, (ulong)i) >> (64 - i) << (Bits - i);
            rows[i] = before | (1UL << (Bits - 1 - i));
        }
        for (int k = 0; k < directions.Length; k++)
        {
            ulong mixed = 0;
            for (int i = 0; i < Bits; i++)
            {
                ulong parity = (ulong)BitOperations.PopCount(rows[i] & directions[k]) & 1;
                mixed |= parity << (Bits - 1 - i);
            }
            directions[k] = mixed;
        }
    }
}
