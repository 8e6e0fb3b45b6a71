using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>The lateral dynamics as q' = A q in scaled variables, with an error bound per entry of A.</summary>
/// <remarks>
/// Lengths are measured in radii of gyration and time in 1/<see cref="RatePerSecond"/>, so that entries are near one. The
/// state is (offsets, tilts, lateral velocity, lateral body rate), without tilts that nothing depends on.
/// </remarks>
internal sealed class FirstOrderSystem
{
    private readonly LinearModel _model;
    private readonly int[] _active;
    private readonly double[] _unit;

    /// <summary>1/s: eigenvalues of A times this rate are in 1/s.</summary>
    public double RatePerSecond { get; }

    /// <summary>Length of the state: twice the number of active coordinates.</summary>
    public int Size => 2 * _active.Length;

    public FirstOrderSystem(LinearModel model, LateralStiffness stiffness)
    {
        _model = model;
        _active = stiffness.Active;
        double size = model.GyrationRadiusMetres;
        _unit = [size, size, 1, 1];
        RatePerSecond = TypicalRate(stiffness);
    }

    private double TypicalRate(LateralStiffness stiffness)
    {
        (double[,] a, _) = SecondOrderSpectrum.Accelerations(_model, stiffness);
        double largest = 0;
        foreach (int i in _active)
        {
            foreach (int j in _active)
            {
                largest = Math.Max(largest, Math.Abs(a[i, j]) * _unit[j] / _unit[i]);
            }
        }
        double rate = Math.Max(Math.Sqrt(largest), Math.Abs(_model.SpinRadiansPerSecond));
        return rate > 0 ? rate : 1;
    }

    /// <summary>Amplitudes (x, y, tilt_x, tilt_y) in m and rad of a scaled state.</summary>
    public System.Numerics.Complex[] Shape(System.Numerics.Complex[] state)
    {
        System.Numerics.Complex[] shape = new System.Numerics.Complex[4];
        for (int k = 0; k < _active.Length; k++)
        {
            shape[_active[k]] = state[k] * _unit[_active[k]];
        }
        return shape;
    }

    /// <summary>A and its error for beam axes that do not turn: q' = v, v' = M⁻¹ (K q − (D + G) v).</summary>
    /// <remarks>Under spin the transverse inertia must be the same in all directions.</remarks>
    public (double[,] A, double[,] Error) InBeamAxes(LateralStiffness stiffness)
    {
        (double[,] acceleration, double[,] accelerationError) = SecondOrderSpectrum.Accelerations(_model, stiffness);
        (double[,] drag, double[,] dragError) = Drag();
        int n = _active.Length;
        double[,] a = new double[2 * n, 2 * n];
        double[,] e = new double[2 * n, 2 * n];
        double rate = RatePerSecond;
        for (int i = 0; i < n; i++)
        {
            a[i, n + i] = 1;
            for (int j = 0; j < n; j++)
            {
                double unit = _unit[_active[j]] / _unit[_active[i]];
                a[n + i, j] = acceleration[_active[i], _active[j]] * unit / (rate * rate);
                e[n + i, j] = accelerationError[_active[i], _active[j]] * unit / (rate * rate);
                a[n + i, n + j] = -drag[_active[i], _active[j]] * unit / rate;
                e[n + i, n + j] = dragError[_active[i], _active[j]] * unit / rate;
            }
        }
        return (a, e);
    }

    /// <summary>M⁻¹ (D + G), with G = [[0, H], [−H, 0]] on the tilts, H = I3 W.</summary>
    private (double[,] Drag, double[,] Error) Drag()
    {
        double[,] inverse = SecondOrderSpectrum.InverseMass(_model);
        double momentum = _model.InertiaKilogramSquareMetres.Row2.Z * _model.SpinRadiansPerSecond;
        double[,] drag = new double[4, 4];
        double[,] error = new double[4, 4];
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                for (int k = 0; k < 4; k++)
                {
                    double damping = _model.Damping?[k][j] ?? 0;
                    drag[i, j] += inverse[i, k] * (damping + Gyroscopic(k, j, momentum));
                    error[i, j] += Math.Abs(inverse[i, k]) * _model.RelativeError * Math.Abs(damping);
                }
            }
        }
        return (drag, error);
    }

    private static double Gyroscopic(int row, int column, double momentum) =>
        (row, column) switch
        {
            (2, 3) => momentum,
            (3, 2) => -momentum,
            _ => 0,
        };

    /// <summary>A and its error in axes that turn with the craft, for a Jacobian given in those axes.</summary>
    /// <remarks>
    /// With S v = (−v_y, v_x), J the transverse inertia, r and p offset and tilt, V and u lateral velocity and body rate, all
    /// resolved in the turning axes:
    /// <code>
    /// r' = V − W S r        V' = F/m − W S V
    /// p' = u − W S p        J u' = T − W S J u + I3 W S u
    /// </code>
    /// The last line is Euler's equation for L = (J u, I3 W) to first order. Products of inertia with the spin axis are
    /// left out: they force a wobble and do not enter its stability.
    /// </remarks>
    /// <param name="k">Rows F_x, F_y, T_x, T_y; columns x, y, tilt_x, tilt_y; in turning axes.</param>
    /// <param name="kError">Error of each entry.</param>
    public (double[,] A, double[,] Error) InBodyAxes(double[,] k, double[,] kError)
    {
        double[,] full = new double[8, 8];
        double[,] error = new double[8, 8];
        double w = _model.SpinRadiansPerSecond;
        Mat3 inertia = _model.InertiaKilogramSquareMetres;
        double[,] j =
        {
            { inertia.Row0.X, inertia.Row0.Y },
            { inertia.Row1.X, inertia.Row1.Y },
        };
        double minor = j[0, 0] * j[1, 1] - j[0, 1] * j[1, 0];
        double[,] inverse =
        {
            { j[1, 1] / minor, -j[0, 1] / minor },
            { -j[1, 0] / minor, j[0, 0] / minor },
        };
        foreach (int pair in new[] { 0, 2 })
        {
            (full[pair, pair + 1], full[pair + 1, pair]) = (w, -w);
            (full[pair, pair + 4], full[pair + 1, pair + 5]) = (1, 1);
        }
        (full[4, 5], full[5, 4]) = (w, -w);
        // W J⁻¹ (I3 S − S J) by columns: S J = [[−j10, −j11], [j00, j01]].
        double[,] gyroscopic =
        {
            { w * j[1, 0], w * (j[1, 1] - inertia.Row2.Z) },
            { w * (inertia.Row2.Z - j[0, 0]), -w * j[0, 1] },
        };
        for (int row = 0; row < 2; row++)
        {
            for (int column = 0; column < 4; column++)
            {
                full[4 + row, column] = k[row, column] / _model.MassKilograms;
                error[4 + row, column] = kError[row, column] / _model.MassKilograms;
                full[6 + row, column] = inverse[row, 0] * k[2, column] + inverse[row, 1] * k[3, column];
                error[6 + row, column] =
                    Math.Abs(inverse[row, 0]) * kError[2, column] + Math.Abs(inverse[row, 1]) * kError[3, column];
            }
            for (int column = 0; column < 2; column++)
            {
                full[6 + row, 6 + column] =
                    inverse[row, 0] * gyroscopic[0, column] + inverse[row, 1] * gyroscopic[1, column];
            }
        }
        return (Scaled(full), Scaled(error));
    }

    private double[,] Scaled(double[,] full)
    {
        int n = _active.Length;
        double[,] scaled = new double[2 * n, 2 * n];
        for (int i = 0; i < 2 * n; i++)
        {
            for (int j = 0; j < 2 * n; j++)
            {
                scaled[i, j] = full[Index(i), Index(j)] * UnitOf(j) / (UnitOf(i) * RatePerSecond);
            }
        }
        return scaled;

        int Index(int i) => i < n ? _active[i] : 4 + _active[i - n];
        double UnitOf(int i) => i < n ? _unit[_active[i]] : _unit[_active[i - n]] * RatePerSecond;
    }
}
