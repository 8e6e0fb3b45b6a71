using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// First order of what slanting light does: derivatives of force and torque by the light's direction, the profile upright. It is
/// what damps a swing, a millionth of the force and less, so a ten-thousandth of it is accuracy enough.
/// </summary>
/// <remarks>
/// Tabled over offset, lean, the cosine of the azimuth between them and the inverse size of the beam, for a slant along the
/// offset and one across it. Parts that change sign with the azimuth are kept over its sine. Filled by central differences of
/// the quadrature at slants of ±1e-4.
/// </remarks>
internal sealed class AtlasSlant(AtlasScene scene, int threads) : IAtlasSubject
{
    /// <summary>Slant at which the table is filled, rad.</summary>
    public const double Step = 1e-4;

    /// <summary>Accuracy of the derivatives, relative to the force per radian.</summary>
    public const double Target = 1e-4;

    private const int Lanes = 16;

    // Along the offset: F_x, F_z, T_y and the powers are even in the azimuth; F_y, T_x, T_z odd. Across it, the other way round.
    private static readonly bool[] IsOdd =
    [
        false,
        true,
        false,
        true,
        false,
        true,
        false,
        false,
        true,
        false,
        true,
        false,
        true,
        false,
        true,
        true,
    ];

    private readonly double[] _weights = scene.Weights(2);

    public AtlasOrders First { get; } = scene.IsBall ? new(12, 1, 1, 3) : new(12, 6, 5, 3);

    public AtlasOrders Most => new(32, 16, 14, 9);

    public int MostSplits => 4;

    public bool SplitsB => false;

    public double Accuracy => Target;

    public int Evaluations => scene.Evaluations;

    public (int Trial, int Proof) Points => (32, 128);

    /// <summary>Change of force, torque and power by the slant of a place.</summary>
    /// <param name="piece">The piece that holds the place.</param>
    /// <param name="at">The place.</param>
    [SkipLocalsInit]
    public static UnitWrench Change(AtlasPiece piece, in AtlasPlace at)
    {
        double offset = Math.Sqrt(at.A);
        double lean = Math.Sqrt(at.B);
        (double ex, double ey) = (1, 0);
        if (offset > 0)
        {
            double inverse = 1 / offset;
            (ex, ey) = (inverse * at.Rx, inverse * at.Ry);
        }
        else if (lean > 0)
        {
            (ex, ey) = (at.Tx / lean, at.Ty / lean);
        }
        (double cos, double sin) = (1, 0);
        if (lean > 0)
        {
            double inverse = 1 / lean;
            cos = Math.Clamp(inverse * (ex * at.Tx + ey * at.Ty), -1, 1);
            sin = inverse * (ex * at.Ty - ey * at.Tx);
        }
        Span<double> inM = stackalloc double[AtlasPiece.MostTerms];
        ChebyshevBasis.Fill(inM, piece.Orders, cos);
        (Vector512<double> first, Vector512<double> second) = piece.Pair(offset, lean, inM, at.W);
        double along = at.Light.SlantX * ex + at.Light.SlantY * ey;
        double across = at.Light.SlantY * ex - at.Light.SlantX * ey;
        // Lanes that are odd in the azimuth carry its sine.
        Vector512<double> firstSines = Vector512.Create(1, sin, 1, sin, 1, sin, 1, 1);
        Vector512<double> secondSines = Vector512.Create(sin, 1, sin, 1, sin, 1, sin, sin);
        AtlasLanes v = AtlasLanes.From(along * (firstSines * first) + across * (secondSines * second));
        return new(
            new(ex * v.Q0 - ey * v.Q1, ey * v.Q0 + ex * v.Q1, v.Q2),
            new(ex * v.Q3 - ey * v.Q4, ey * v.Q3 + ex * v.Q4, v.Q5),
            v.Q6,
            v.Q7
        );
    }

    /// <summary>
    /// The same for a ball, whose series know the offset alone, along and across the offset: what is odd in the azimuth of its lean
    /// is zero.
    /// </summary>
    /// <param name="piece">The piece, a series in the offset.</param>
    /// <param name="offset">Offset in its units.</param>
    /// <param name="ex">Direction of the offset, along x.</param>
    /// <param name="ey">Direction of the offset, along y.</param>
    /// <param name="light">The light.</param>
    public static Vector512<double> ChangeOfBall(
        AtlasPiece piece,
        double offset,
        double ex,
        double ey,
        in AtlasLight light
    )
    {
        (Vector512<double> first, Vector512<double> second) = piece.PairOnLine(offset);
        double along = light.SlantX * ex + light.SlantY * ey;
        double across = light.SlantY * ex - light.SlantX * ey;
        // Even lanes (and both powers) belong to a slant along the offset, the others to one across it.
        Vector512<double> isAlong = Vector512.Create(1.0, 0, 1, 0, 1, 0, 1, 1);
        Vector512<double> isAcross = Vector512.Create(0.0, 1, 0, 1, 0, 1, 0, 0);
        return Vector512.FusedMultiplyAdd(along * isAlong, first, across * isAcross * second);
    }

    public double MiddleOfA(double start, double end) => 0.5 * (start + end);

    public AtlasTensor Fit(in AtlasRegion region, AtlasOrders orders, out AtlasTails tails)
    {
        double[] offsets = ChebyshevSeries.Points(region.A0, region.A1, orders.A);
        double[] leans = ChebyshevSeries.Points(0, 1, orders.B);
        double[] sizes = ChebyshevSeries.Points(region.W0, region.W1, orders.W);
        AtlasTensor fit = new(orders, Lanes);
        double[] least = new double[fit.Points];
        Parallel.For(
            0,
            least.Length,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (int l, int m, int j, int k) = fit.Place(n);
                double azimuth = Math.PI * (m + 0.5) / orders.M;
                CraftPose pose = scene.Pose(offsets[k], leans[j], azimuth, sizes[l]);
                Span<double> v = fit.At(n);
                scene.Slant(pose, v);
                least[n] = scene.Unit(pose).Force.Length;
                double sin = Math.Sin(azimuth);
                for (int lane = 0; lane < Lanes; lane++)
                {
                    v[lane] = IsOdd[lane] ? v[lane] / sin : v[lane];
                }
            }
        );
        fit.Least = least.Min();
        fit.TransformAll();
        tails = fit.Tails(_weights, 0);
        return fit;
    }

    public AtlasBlock[][] Blocks(AtlasTensor fit, double cut) => fit.Blocks(_weights, cut);

    public AtlasProbe Probe(in AtlasRegion region, int n)
    {
        (double u, double v, double w, double x) = AtlasProof.Point(1000 + n);
        double offset = region.A0 + u * (region.A1 - region.A0);
        double lean = scene.IsBall ? 0 : v;
        double azimuth = 2 * Math.PI * w;
        double size = region.W0 + x * (region.W1 - region.W0);
        CraftPose pose = scene.Pose(offset, lean, azimuth, size);
        double[] exact = new double[Lanes];
        scene.Slant(pose, exact);
        return new(offset, lean, azimuth, size, exact, scene.Unit(pose).Force.Length);
    }

    public double Miss(AtlasPiece piece, AtlasProbe probe)
    {
        Span<double> inM = stackalloc double[AtlasPiece.MostTerms];
        ChebyshevBasis.Fill(inM, piece.Orders, Math.Cos(probe.Azimuth));
        (Vector512<double> along, Vector512<double> across) = piece.Pair(probe.A, probe.B, inM, probe.W);
        double miss = 0;
        for (int lane = 0; lane < Lanes; lane++)
        {
            double found = lane < 8 ? along[lane] : across[lane - 8];
            found = IsOdd[lane] ? Math.Sin(probe.Azimuth) * found : found;
            miss = Math.Max(miss, _weights[lane] * Math.Abs(probe.Exact[lane] - found) / probe.Force);
        }
        return miss;
    }
}
