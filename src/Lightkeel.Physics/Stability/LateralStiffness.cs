using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>The Jacobian with its error per entry, entries below their own error set to zero, and what follows at once.</summary>
/// <remarks>
/// What counts as zero: an entry below the stated error of its kind; a whole kind (force by tilt, torque by offset, torque
/// by tilt) below the stated error of the thrust times the craft's size to the fitting power, because a derivative that
/// vanishes by symmetry comes out of a quadrature at that level; force by offset only at rounding level (1e-12 of
/// thrust over size), so that a weak well in a wide beam is never taken for none; a lone entry below 1e-14 of the
/// largest of all, each in units of the craft's size, so that rounding does not couple the two planes of a round craft whose
/// own entries of that kind nearly cancel.
/// </remarks>
internal sealed class LateralStiffness
{
    private static readonly string[] TiltNames = ["tilt_x", "tilt_y"];
    private const double RoundingOfThrust = 1e-12;
    private const double RoundingOfEntry = 1e-14;

    /// <summary>Rows F_x, F_y, T_x, T_y, T_z; columns x, y, tilt_x, tilt_y.</summary>
    public double[,] Entries { get; } = new double[5, 4];

    /// <summary>Error bound of each entry.</summary>
    public double[,] Errors { get; } = new double[5, 4];

    /// <summary>Indices of the coordinates that take part in the verdict.</summary>
    public int[] Active { get; }

    /// <summary>Coordinates left out, with their sentences.</summary>
    public IReadOnlyList<FreeCoordinate> Free { get; }

    /// <summary>Why no restoring force is seen; null when something restores every offset and tilt.</summary>
    public string? Drift { get; }

    /// <summary>The missing force is missing to rounding, so that the craft surely drifts; otherwise it is only below the stated error.</summary>
    public bool DriftIsExact { get; }

    public LateralStiffness(LinearModel model)
    {
        FillBlocks(model);
        bool spinning = model.SpinRadiansPerSecond != 0;
        bool[] blind = [ColumnIsZero(2) && !Damps(model, 2), ColumnIsZero(3) && !Damps(model, 3)];
        // Under spin the two tilts are coupled by the gyroscopic torque: they are left out together or not at all.
        if (spinning && !(blind[0] && blind[1]))
        {
            blind = [false, false];
        }
        bool all = !blind[0] && !blind[1];
        Active = all ? [0, 1, 2, 3] : [.. Enumerable.Range(0, 4).Where(i => i < 2 || !blind[i - 2])];
        Free = all ? [] : [.. Enumerable.Range(0, 2).Where(i => blind[i]).Select(i => Describe(i, spinning))];
        (Drift, DriftIsExact) = FindDrift(model, spinning);
    }

    private void FillBlocks(LinearModel model)
    {
        double size = model.GyrationRadiusMetres;
        double thrust = model.ThrustNewtons;
        double vanishing = Math.Max(model.RelativeError, RoundingOfThrust);
        double rounding = RoundingOfEntry * Natural(model);
        FillBlock(model, (0, 2), 0, RoundingOfThrust * thrust / size, rounding);
        FillBlock(model, (0, 2), 2, vanishing * thrust, rounding * size);
        FillBlock(model, (2, 5), 0, vanishing * thrust, rounding * size);
        FillBlock(model, (2, 5), 2, vanishing * thrust * size, rounding * size * size);
    }

    private void FillBlock(
        LinearModel model,
        (int First, int End) rows,
        int firstColumn,
        double vanishing,
        double rounding
    )
    {
        double largest = 0;
        for (int i = rows.First; i < rows.End; i++)
        {
            for (int j = firstColumn; j < firstColumn + 2; j++)
            {
                Entries[i, j] = i < 4 ? model.Jacobian[i][j] : model.AxialTorqueDerivatives[j];
                largest = Math.Max(largest, Math.Abs(Entries[i, j]));
            }
        }
        // A kind that vanishes as a whole vanishes by symmetry: without error. A lone entry keeps the error of its kind.
        bool vanishes = largest <= vanishing;
        double error = vanishes ? 0 : model.RelativeError * largest;
        double zero = vanishes ? largest : Math.Max(error, Math.Max(1e-15 * largest, rounding));
        for (int i = rows.First; i < rows.End; i++)
        {
            for (int j = firstColumn; j < firstColumn + 2; j++)
            {
                bool isZero = Math.Abs(Entries[i, j]) <= zero;
                Entries[i, j] = isZero ? 0 : Entries[i, j];
                Errors[i, j] = error;
            }
        }
    }

    private bool ColumnIsZero(int j)
    {
        bool isZero = true;
        for (int i = 0; i < 5; i++)
        {
            isZero &= Entries[i, j] == 0;
        }
        return isZero;
    }

    private bool RowIsZero(int i)
    {
        bool isZero = true;
        foreach (int j in Active)
        {
            isZero &= Entries[i, j] == 0;
        }
        return isZero;
    }

    private static bool Damps(LinearModel model, int j) =>
        model.Damping is { } d && (d.Any(row => row[j] != 0) || d[j].Any(entry => entry != 0));

    private FreeCoordinate Describe(int tilt, bool spinning)
    {
        string name = TiltNames[tilt];
        bool driven = Enumerable.Range(0, 2).Any(j => Entries[2 + tilt, j] != 0);
        string tail = driven
            ? "the light does turn the craft when it is off the axis, but nothing depends on that turn to first order."
            : "no torque acts on it either, so the craft keeps whatever turn it has.";
        string spin = spinning ? " Its spin does not change that." : "";
        return new(
            name,
            $"{name} is free: no force or torque depends on it, so it is left out of the verdict; {tail}{spin}"
        );
    }

    private (string? Sentence, bool Exact) FindDrift(LinearModel model, bool spinning)
    {
        double size = model.GyrationRadiusMetres;
        for (int i = 0; i < 2; i++)
        {
            if (ColumnIsZero(i) || RowIsZero(i))
            {
                bool exact = VanishesExactly(model, i, row: false) || VanishesExactly(model, i, row: true);
                return (
                    $"No restoring force along {(i == 0 ? "x" : "y")} is resolved: a sideways push carries the craft off the beam at "
                        + "constant speed.",
                    exact
                );
            }
        }
        if (OffsetRank(byRows: false, size) < 2 || OffsetRank(byRows: true, size) < 2)
        {
            return (
                "There is a direction across the beam in which no restoring force is resolved: a push along it carries the "
                    + "craft off the beam at constant speed.",
                false
            );
        }
        foreach (int i in Active)
        {
            if (i >= 2 && !spinning && RowIsZero(i) && !ProductsActOn(model, i))
            {
                return (
                    $"No torque that resists {TiltNames[i - 2]} is resolved, though the force depends on it: a turn goes on "
                        + "at constant rate and carries the craft off the beam.",
                    VanishesExactly(model, i, row: true)
                );
            }
        }
        return (null, false);
    }

    private bool ProductsActOn(LinearModel model, int row)
    {
        Mat3 inertia = model.InertiaKilogramSquareMetres;
        bool otherTilt = inertia.Row0.Y != 0 && !RowIsZero(5 - row);
        bool roll = (row == 2 ? inertia.Row0.Z : inertia.Row1.Z) != 0 && !RowIsZero(4);
        return otherTilt || roll;
    }

    /// <summary>Numerical rank of the offset columns (what depends on the offset) or force rows (what acts on it), within the errors.</summary>
    private int OffsetRank(bool byRows, double size)
    {
        int count = byRows ? 4 : 5;
        Span<double> a = stackalloc double[count];
        Span<double> b = stackalloc double[count];
        double noise = 0;
        for (int k = 0; k < count; k++)
        {
            // Lengths in units of the craft's size make forces and torques, offsets and tilts comparable.
            double weight = k < 2 ? 1 : 1 / size;
            a[k] = weight * (byRows ? Entries[0, k] : Entries[k, 0]);
            b[k] = weight * (byRows ? Entries[1, k] : Entries[k, 1]);
            double error = Math.Max(byRows ? Errors[0, k] : Errors[k, 0], byRows ? Errors[1, k] : Errors[k, 1]);
            noise = Math.Max(noise, weight * error);
        }
        // The area spanned is the product of both singular values; over the larger one it is the smaller one.
        double largest = Math.Sqrt(SumOfSquares(a) + SumOfSquares(b));
        return Area(a, b) / largest <= 2 * noise + 1e-14 * largest ? 1 : 2;
    }

    private static double SumOfSquares(ReadOnlySpan<double> values)
    {
        double sum = 0;
        foreach (double v in values)
        {
            sum += v * v;
        }
        return sum;
    }

    private static double Area(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int k = 0; k < a.Length; k++)
        {
            for (int l = 0; l < k; l++)
            {
                double minor = a[k] * b[l] - a[l] * b[k];
                sum += minor * minor;
            }
        }
        return Math.Sqrt(sum);
    }

    /// <summary>Whether one column or row of the raw Jacobian vanishes to rounding, so that no higher accuracy could find a force there.</summary>
    private static bool VanishesExactly(LinearModel model, int index, bool row)
    {
        double size = model.GyrationRadiusMetres;
        double[][] k = model.Jacobian;
        double natural = Natural(model);
        return Enumerable
            .Range(0, 4)
            .Select(m =>
                row ? Math.Abs(k[index][m]) * Weight(index, m, size) : Math.Abs(k[m][index]) * Weight(m, index, size)
            )
            .All(v => v <= 1e-12 * natural);
    }

    /// <summary>The largest of all entries in units of the craft's size, or thrust over size where that is more, N/m.</summary>
    private static double Natural(LinearModel model)
    {
        double size = model.GyrationRadiusMetres;
        double largest = model.ThrustNewtons / size;
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                largest = Math.Max(largest, Math.Abs(model.Jacobian[i][j]) * Weight(i, j, size));
            }
        }
        return largest;
    }

    private static double Weight(int row, int column, double size) =>
        (row < 2 ? 1 : 1 / size) * (column < 2 ? 1 : 1 / size);
}
