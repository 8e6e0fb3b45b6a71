using System.Runtime.Intrinsics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>Measures how far an atlas misses at points that it was not fitted on.</summary>
/// <remarks>
/// The points are those of an additive recurrence with the powers of the root of x⁴ = x + 1, evenly spread and the same in
/// every run. Source of the kind: <i>Uniform Distribution of Sequences</i> (Wiley, 1974), ch. 2.
/// </remarks>
internal static class AtlasProof
{
    private const double Root = 1.2207440846057596;

    /// <summary>Point n of the sequence, three numbers in [0, 1).</summary>
    public static (double U, double V, double W) Point(int n)
    {
        static double Part(double x) => x - Math.Floor(x);
        return (
            Part(0.5 + (n + 1) / Root),
            Part(0.5 + (n + 1) / (Root * Root)),
            Part(0.5 + (n + 1) / (Root * Root * Root))
        );
    }

    /// <summary>Largest relative miss of a panel at points from first to last.</summary>
    public static double Miss(AtlasScene scene, AtlasPanel panel, int first, int count, int threads)
    {
        double[] misses = new double[count];
        Parallel.For(
            0,
            count,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            i => misses[i] = MissAt(scene, panel, Point(first + i))
        );
        return misses.Max();
    }

    private static double MissAt(AtlasScene scene, AtlasPanel panel, (double U, double V, double W) point)
    {
        double low = Math.Sqrt(panel.Start);
        double offset = low + point.U * (Math.Sqrt(panel.End) - low);
        double lean = scene.IsBall ? 0 : point.V;
        double azimuth = 2 * Math.PI * point.W;
        UnitWrench exact = scene.Unit(scene.Pose(offset, lean, azimuth));
        (double sin, double cos) = Math.SinCos(azimuth);
        (double tx, double ty) = (lean * cos, lean * sin);
        Vector512<double> v = panel.Value(offset * offset, lean * lean, offset * tx);
        Vec3 force = new(v[0] * offset + v[1] * tx, v[1] * ty, v[2]);
        Vec3 torque = new(-v[4] * ty, v[3] * offset + v[4] * tx, v[5] * offset * ty);
        return Math.Max((force - exact.Force).Length, (torque - exact.Torque).Length / scene.ReachMetres)
            / exact.Force.Length;
    }

    /// <summary>Largest miss of the derivatives, over the largest of them by offset or by tilt, at a share of the points.</summary>
    public static double SlopeMiss(AtlasTable atlas, AtlasBuild build)
    {
        const int Count = 48;
        AtlasScene scene = build.Scene;
        double worst = 0;
        for (int n = 0; n < Count; n++)
        {
            (double offset, double lean, double w) = Point(5000 + n);
            CraftPose pose = scene.Pose(offset, scene.IsBall ? 0 : lean, 2 * Math.PI * w);
            PressureDerivatives exact = build.Engine.Differentiate(pose);
            PressureDerivatives found = atlas.Differentiate(pose);
            worst = Math.Max(
                worst,
                Miss(scene, (exact.ByOffsetX, found.ByOffsetX), (exact.ByOffsetY, found.ByOffsetY))
            );
            worst = Math.Max(worst, Miss(scene, (exact.ByTiltX, found.ByTiltX), (exact.ByTiltY, found.ByTiltY)));
        }
        return worst;
    }

    private static double Miss(
        AtlasScene scene,
        (PressureReading Exact, PressureReading Found) x,
        (PressureReading Exact, PressureReading Found) y
    )
    {
        double Size(Vec3 force, Vec3 torque) => Math.Max(force.Length, torque.Length / scene.ReachMetres);
        double size = Math.Max(
            Size(x.Exact.ForceNewtons, x.Exact.TorqueNewtonMetres),
            Size(y.Exact.ForceNewtons, y.Exact.TorqueNewtonMetres)
        );
        double miss = Math.Max(
            Size(x.Exact.ForceNewtons - x.Found.ForceNewtons, x.Exact.TorqueNewtonMetres - x.Found.TorqueNewtonMetres),
            Size(y.Exact.ForceNewtons - y.Found.ForceNewtons, y.Exact.TorqueNewtonMetres - y.Found.TorqueNewtonMetres)
        );
        return size > 0 ? miss / size : 0;
    }
}
