using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// The table of an axisymmetric craft in an axisymmetric beam: fits samples at Chebyshev points of a = r·r, b = t·t and the
/// inverse size of the beam, Fourier in the azimuth, powers of the radii by least squares.
/// </summary>
/// <remarks>
/// Each quantity is Σ_m C_m(c, ab) Σ_j T_j(b) Σ_k g_mjk T_k(a), with C_m = (|r||t|)^m cos mφ from the recurrence
/// C_{m+1} = 2 c C_m − a b C_{m−1}: polynomials, so neither the axis nor zero tilt is a special place.
/// </remarks>
internal sealed class AtlasFit(AtlasScene scene, double accuracy, int threads) : IAtlasSubject
{
    // Lanes: F⊥ = α r + β t, F_z, T⊥ = ẑ × (α' r + β' t), T_z = δ' (r × t), shares of power.
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

    private readonly double[] _weights = scene.Weights();

    public AtlasOrders First { get; } = scene.IsBall ? new(12, 1, 1, 5) : new(12, 6, 4, 5);

    public AtlasOrders Most => new(32, 20, 16, 13);

    public int MostSplits => 6;

    public bool SplitsB => false;

    public double Accuracy { get; } = accuracy;

    public int Evaluations => scene.Evaluations;

    public (int Trial, int Proof) Points => (64, 400);

    /// <summary>Fills the third basis C_m.</summary>
    public static void Azimuths(Span<double> inM, int orders, double a, double b, double c)
    {
        double p = a * b;
        (inM[0], inM[1]) = (1, c);
        for (int m = 2; m < orders; m++)
        {
            inM[m] = 2 * c * inM[m - 1] - p * inM[m - 2];
        }
    }

    public double MiddleOfA(double start, double end)
    {
        double middle = 0.5 * (Math.Sqrt(start) + Math.Sqrt(end));
        return middle * middle;
    }

    public AtlasTensor Fit(in AtlasRegion region, AtlasOrders orders, out AtlasTails tails)
    {
        double[] offsets = [.. ChebyshevSeries.Points(region.A0, region.A1, orders.A).Select(Math.Sqrt)];
        double[] leans = [.. ChebyshevSeries.Points(0, 1, orders.B).Select(Math.Sqrt)];
        double[] azimuths = [.. Enumerable.Range(0, orders.M).Select(l => Math.PI * (l + 0.5) / orders.M)];
        double[] sizes = ChebyshevSeries.Points(region.W0, region.W1, orders.W);
        AtlasTensor samples = new(orders, AtlasBlock.Lanes);
        double[] least = new double[samples.Points];
        Parallel.For(
            0,
            least.Length,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (int l, int m, int j, int k) = samples.Place(n);
                least[n] = Sample(samples.At(n), scene.Pose(offsets[k], leans[j], azimuths[m], sizes[l]), azimuths[m]);
            }
        );
        AtlasTensor fit = Coefficients(samples, region, (offsets, leans, azimuths));
        fit.Least = least.Min();
        fit.TransformW();
        tails = fit.Tails(_weights, 0.5);
        return fit;
    }

    public AtlasBlock[][] Blocks(AtlasTensor fit, double cut) => fit.Blocks(_weights, cut);

    public AtlasProbe Probe(in AtlasRegion region, int n)
    {
        (double u, double v, double w, double x) = AtlasProof.Point(n);
        double low = Math.Sqrt(region.A0);
        double offset = low + u * (Math.Sqrt(region.A1) - low);
        double lean = scene.IsBall ? 0 : v;
        double azimuth = 2 * Math.PI * w;
        double size = region.W0 + x * (region.W1 - region.W0);
        UnitWrench exact = scene.Unit(scene.Pose(offset, lean, azimuth, size));
        double[] lanes = new double[AtlasBlock.Lanes];
        AtlasScene.Write(exact, lanes);
        return new(offset, lean, azimuth, size, lanes, exact.Force.Length);
    }

    public double Miss(AtlasPiece piece, AtlasProbe probe)
    {
        (double offset, double lean) = (probe.A, probe.B);
        (double sin, double cos) = Math.SinCos(probe.Azimuth);
        (double tx, double ty) = (lean * cos, lean * sin);
        Span<double> inM = stackalloc double[AtlasPiece.MostTerms];
        Azimuths(inM, piece.Orders, offset * offset, lean * lean, offset * tx);
        Vector512<double> v = piece.Value(offset * offset, lean * lean, inM, probe.W);
        Vec3 force = new(v[0] * offset + v[1] * tx, v[1] * ty, v[2]);
        Vec3 torque = new(-v[4] * ty, v[3] * offset + v[4] * tx, v[5] * offset * ty);
        double[] e = probe.Exact;
        return Math.Max(
                (force - new Vec3(e[0], e[1], e[2])).Length,
                (torque - new Vec3(e[3], e[4], e[5])).Length / scene.ReachMetres
            ) / probe.Force;
    }

    private double Sample(Span<double> lanes, in CraftPose pose, double azimuth)
    {
        (double sin, double cos) = Math.SinCos(azimuth);
        UnitWrench u = scene.Unit(pose);
        // What stands beside α is |r| and beside β is |t|: nothing is divided by them here.
        double beta = u.Force.Y / sin;
        double torqueBeta = -u.Torque.X / sin;
        lanes[Alpha] = u.Force.X - beta * cos;
        lanes[Beta] = beta;
        lanes[Axial] = u.Force.Z;
        lanes[TorqueAlpha] = u.Torque.Y - torqueBeta * cos;
        lanes[TorqueBeta] = torqueBeta;
        lanes[Twist] = u.Torque.Z / sin;
        lanes[Intercepted] = u.Power;
        lanes[Absorbed] = u.Absorbed;
        return u.Force.Length;
    }

    private static AtlasTensor Coefficients(
        AtlasTensor samples,
        AtlasRegion region,
        (double[] Offsets, double[] Leans, double[] Azimuths) at
    )
    {
        AtlasOrders n = samples.Orders;
        AtlasTensor result = new(n, samples.Lanes);
        for (int m = 0; m < n.M; m++)
        {
            foreach ((int r, int t) in Beside.Distinct())
            {
                double[,] inA = PowerFit.Matrix(at.Offsets, region.A0, region.A1, m + r, Terms(n.A, m + r));
                double[,] inB = PowerFit.Matrix(at.Leans, 0, 1, m + t, Terms(n.B, m + t));
                for (int l = 0; l < n.W; l++)
                {
                    for (int lane = 0; lane < samples.Lanes; lane++)
                    {
                        if (Beside[lane] == (r, t))
                        {
                            Solve(result, (l, m, lane), InAzimuth(samples, at.Azimuths, (l, m, lane)), inA, inB);
                        }
                    }
                }
            }
        }
        return result;
    }

    // As many terms as points determine beside the power: x^q T_k(x²) has the degree q + 2 k in x.
    private static int Terms(int points, int power) => Math.Max(1, points - power / 2);

    private static double[,] InAzimuth(AtlasTensor samples, double[] azimuths, (int L, int M, int Lane) of)
    {
        AtlasOrders n = samples.Orders;
        double[,] sums = new double[n.A, n.B];
        for (int q = 0; q < n.M; q++)
        {
            double weight = (of.M == 0 ? 1.0 : 2.0) / n.M * Math.Cos(of.M * azimuths[q]);
            for (int j = 0; j < n.B; j++)
            {
                for (int k = 0; k < n.A; k++)
                {
                    sums[k, j] += weight * samples.At(of.L, q, j, k)[of.Lane];
                }
            }
        }
        return sums;
    }

    private static void Solve(
        AtlasTensor result,
        (int L, int M, int Lane) of,
        double[,] values,
        double[,] inA,
        double[,] inB
    )
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
                    result.At(of.L, of.M, q, k)[of.Lane] += inB[q, j] * sum;
                }
            }
        }
    }
}
