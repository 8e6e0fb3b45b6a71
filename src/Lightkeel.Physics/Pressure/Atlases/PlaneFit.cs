using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// The table of a ball in any beam: force, torque and powers, or their derivatives by the slant of the light, as Chebyshev series
/// in the offsets x and y and the inverse size of the beam.
/// </summary>
/// <param name="scene">What is tabled.</param>
/// <param name="isSlant">Whether the derivatives by the slant are meant.</param>
/// <param name="accuracy">Relative accuracy.</param>
/// <param name="threads">Threads.</param>
internal sealed class PlaneFit(AtlasScene scene, bool isSlant, double accuracy, int threads) : IAtlasSubject
{
    private readonly double[] _weights = scene.Weights(isSlant ? 2 : 1);

    public AtlasOrders First { get; } = new(9, 9, 1, isSlant ? 3 : 5);

    public AtlasOrders Most => new(25, 25, 1, isSlant ? 9 : 13);

    public int MostSplits => 8;

    public bool SplitsB => true;

    public double Accuracy { get; } = accuracy;

    public int Evaluations => scene.Evaluations;

    public (int Trial, int Proof) Points => isSlant ? (16, 48) : (32, 128);

    public double MiddleOfA(double start, double end) => 0.5 * (start + end);

    public AtlasTensor Fit(in AtlasRegion region, AtlasOrders orders, out AtlasTails tails)
    {
        double[] x = ChebyshevSeries.Points(region.A0, region.A1, orders.A);
        double[] y = ChebyshevSeries.Points(region.B0, region.B1, orders.B);
        double[] sizes = ChebyshevSeries.Points(region.W0, region.W1, orders.W);
        AtlasTensor fit = new(orders, _weights.Length);
        double[] least = new double[fit.Points];
        Parallel.For(
            0,
            least.Length,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (int l, _, int j, int k) = fit.Place(n);
                least[n] = Exact(x[k], y[j], sizes[l], fit.At(n));
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
        (double u, double v, _, double s) = AtlasProof.Point(n);
        double x = region.A0 + u * (region.A1 - region.A0);
        double y = region.B0 + v * (region.B1 - region.B0);
        double w = region.W0 + s * (region.W1 - region.W0);
        double[] exact = new double[_weights.Length];
        double force = Exact(x, y, w, exact);
        return new(x, y, 0, w, exact, force);
    }

    public double Miss(AtlasPiece piece, AtlasProbe probe)
    {
        Span<double> found = stackalloc double[_weights.Length];
        ReadOnlySpan<double> one = [1];
        if (isSlant)
        {
            (Vector512<double> byX, Vector512<double> byY) = piece.Pair(probe.A, probe.B, one, probe.W);
            byX.CopyTo(found);
            byY.CopyTo(found[8..]);
        }
        else
        {
            piece.Value(probe.A, probe.B, one, probe.W).CopyTo(found);
        }
        double miss = 0;
        for (int i = 0; i < found.Length; i++)
        {
            miss = Math.Max(miss, _weights[i] * Math.Abs(found[i] - probe.Exact[i]) / probe.Force);
        }
        // Components are looked at one by one; a vector misses by at most √3 of that.
        return 1.7320508075688772 * miss;
    }

    private double Exact(double x, double y, double w, Span<double> lanes)
    {
        double reach = scene.Box.OffsetMetres;
        CraftPose pose = CraftPose.From(x * reach, y * reach) with { BeamScale = 1 / w };
        UnitWrench u = scene.Unit(pose);
        if (isSlant)
        {
            scene.Slant(pose, lanes);
        }
        else
        {
            AtlasScene.Write(u, lanes);
        }
        return u.Force.Length;
    }
}
