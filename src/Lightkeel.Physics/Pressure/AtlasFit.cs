using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>Numbers of points of a fit: along the offset squared, the lean squared, and the azimuth.</summary>
internal readonly record struct AtlasOrders(int A, int B, int Azimuth);

/// <summary>Fits one panel: samples at Chebyshev points, Fourier in the azimuth, powers of the radii by least squares.</summary>
internal sealed class AtlasFit
{
    // Lanes of AtlasPanel: F⊥ = α r + β t, F_z, T⊥ = ẑ × (α' r + β' t), T_z = δ' (r × t), shares of power.
    private const int Alpha = 0;
    private const int Beta = 1;
    private const int Axial = 2;
    private const int TorqueAlpha = 3;
    private const int TorqueBeta = 4;
    private const int Twist = 5;
    private const int Intercepted = 6;
    private const int Absorbed = 7;

    // Powers of |r| and |t| that stand beside a lane in force and torque.
    private static readonly (int R, int T)[] Beside = [(1, 0), (0, 1), (0, 0), (1, 0), (0, 1), (1, 1), (0, 0), (0, 0)];

    private readonly AtlasScene _scene;
    private readonly AtlasOrders _orders;
    private readonly double _start;
    private readonly double _end;
    private readonly double[] _offsets;
    private readonly double[] _leans;
    private readonly double[] _azimuths;
    private double[,,][] _found = new double[0, 0, 0][];
    private double _least;

    private AtlasFit(AtlasScene scene, double start, double end, AtlasOrders orders)
    {
        (_scene, _start, _end, _orders) = (scene, start, end, orders);
        _offsets = [.. ChebyshevSeries.Points(start, end, orders.A).Select(Math.Sqrt)];
        _leans = [.. ChebyshevSeries.Points(0, 1, orders.B).Select(Math.Sqrt)];
        _azimuths = [.. Enumerable.Range(0, orders.Azimuth).Select(l => Math.PI * (l + 0.5) / orders.Azimuth)];
    }

    /// <summary>How large the last coefficients are.</summary>
    public AtlasTails Tails { get; private init; }

    /// <summary>Fits a range of the offset squared.</summary>
    /// <param name="scene">What is fitted.</param>
    /// <param name="start">Start of a.</param>
    /// <param name="end">End of a.</param>
    /// <param name="orders">Numbers of points.</param>
    /// <param name="threads">Threads.</param>
    public static AtlasFit Of(AtlasScene scene, double start, double end, AtlasOrders orders, int threads)
    {
        AtlasFit fit = new(scene, start, end, orders);
        (double[][,,] lanes, double least) = fit.Sample(threads);
        double[,,][] coefficients = fit.Coefficients(lanes);
        return new(scene, start, end, orders)
        {
            Tails = AtlasTails.Of(coefficients, least, scene.ReachMetres),
            _found = coefficients,
            _least = least,
        };
    }

    /// <summary>The panel.</summary>
    /// <param name="cut">Trailing coefficients below this share of the least force are left out.</param>
    public AtlasPanel Panel(double cut) => new(_start, _end, Rows(_found, cut * _least));

    private (double[][,,] Lanes, double LeastForce) Sample(int threads)
    {
        (int nA, int nB, int nF) = (_orders.A, _orders.B, _orders.Azimuth);
        double[][,,] lanes = [.. Enumerable.Range(0, AtlasPanel.Lanes).Select(_ => new double[nA, nB, nF])];
        double[] least = new double[nA * nB * nF];
        Parallel.For(
            0,
            least.Length,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (int i, int rest) = Math.DivRem(n, nB * nF);
                (int j, int l) = Math.DivRem(rest, nF);
                (double sin, double cos) = Math.SinCos(_azimuths[l]);
                UnitWrench u = _scene.Unit(_scene.Pose(_offsets[i], _leans[j], _azimuths[l]));
                // What stands beside α is |r| and beside β is |t|: nothing is divided by them here.
                double beta = u.Force.Y / sin;
                double torqueBeta = -u.Torque.X / sin;
                lanes[Alpha][i, j, l] = u.Force.X - beta * cos;
                lanes[Beta][i, j, l] = beta;
                lanes[Axial][i, j, l] = u.Force.Z;
                lanes[TorqueAlpha][i, j, l] = u.Torque.Y - torqueBeta * cos;
                lanes[TorqueBeta][i, j, l] = torqueBeta;
                lanes[Twist][i, j, l] = u.Torque.Z / sin;
                lanes[Intercepted][i, j, l] = u.Power;
                lanes[Absorbed][i, j, l] = u.Absorbed;
                least[n] = u.Force.Length;
            }
        );
        return (lanes, least.Min());
    }

    // For each m, j, k the eight coefficients.
    private double[,,][] Coefficients(double[][,,] lanes)
    {
        (int nA, int nB, int nF) = (_orders.A, _orders.B, _orders.Azimuth);
        double[,,][] result = new double[nF, nB, nA][];
        foreach (
            ref double[] entry in System.Runtime.InteropServices.MemoryMarshal.CreateSpan(
                ref result[0, 0, 0],
                result.Length
            )
        )
        {
            entry = new double[AtlasPanel.Lanes];
        }
        for (int m = 0; m < nF; m++)
        {
            foreach ((int r, int t) in Beside.Distinct())
            {
                double[,] inA = PowerFit.Matrix(_offsets, _start, _end, m + r, Terms(nA, m + r));
                double[,] inB = PowerFit.Matrix(_leans, 0, 1, m + t, Terms(nB, m + t));
                for (int lane = 0; lane < AtlasPanel.Lanes; lane++)
                {
                    if (Beside[lane] == (r, t))
                    {
                        Solve(result, lane, m, InAzimuth(lanes[lane], m), inA, inB);
                    }
                }
            }
        }
        return result;
    }

    // As many terms as points determine beside the power: x^q T_k(x²) has the degree q + 2 k in x.
    private static int Terms(int points, int power) => Math.Max(1, points - power / 2);

    private double[,] InAzimuth(double[,,] values, int m)
    {
        (int nA, int nB, int nF) = (_orders.A, _orders.B, _orders.Azimuth);
        double[,] sums = new double[nA, nB];
        for (int l = 0; l < nF; l++)
        {
            double weight = (m == 0 ? 1.0 : 2.0) / nF * Math.Cos(m * _azimuths[l]);
            for (int i = 0; i < nA; i++)
            {
                for (int j = 0; j < nB; j++)
                {
                    sums[i, j] += weight * values[i, j, l];
                }
            }
        }
        return sums;
    }

    private static void Solve(double[,,][] result, int lane, int m, double[,] values, double[,] inA, double[,] inB)
    {
        (int termsA, int nA) = (inA.GetLength(0), inA.GetLength(1));
        (int termsB, int nB) = (inB.GetLength(0), inB.GetLength(1));
        for (int k = 0; k < termsA; k++)
        {
            for (int j = 0; j < nB; j++)
            {
                double sum = 0;
                for (int i = 0; i < nA; i++)
                {
                    sum += inA[k, i] * values[i, j];
                }
                for (int q = 0; q < termsB; q++)
                {
                    result[m, q, k][lane] += inB[q, j] * sum;
                }
            }
        }
    }

    private double[][][] Rows(double[,,][] coefficients, double cut)
    {
        double[] weights = AtlasTails.Weights(_scene.ReachMetres);
        double[][][] rows = new double[_orders.Azimuth][][];
        for (int m = 0; m < rows.Length; m++)
        {
            rows[m] = new double[_orders.B][];
            for (int j = 0; j < _orders.B; j++)
            {
                int count = _orders.A;
                while (count > 0 && AtlasTails.Size(coefficients[m, j, count - 1], weights) < cut)
                {
                    count--;
                }
                int row = j;
                int order = m;
                rows[m][j] = [.. Enumerable.Range(0, count).SelectMany(k => coefficients[order, row, k])];
            }
        }
        // Trailing rows and orders without coefficients cost time for nothing.
        return
        [
            .. rows.Select(js => js[..(1 + Array.FindLastIndex(js, ks => ks.Length > 0))])
                .Take(1 + Array.FindLastIndex(rows, js => Array.Exists(js, ks => ks.Length > 0))),
        ];
    }
}
