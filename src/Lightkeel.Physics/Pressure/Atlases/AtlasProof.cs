using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Measures how far an atlas misses at points that it was not fitted on.</summary>
/// <remarks>
/// The points are those of an additive recurrence with the powers of the root of x⁵ = x + 1, evenly spread and the same in
/// every run. Source of the kind: <i>Uniform Distribution of Sequences</i> (Wiley, 1974), ch. 2.
/// </remarks>
internal static class AtlasProof
{
    private const double Root = 1.1673039782614187;

    /// <summary>Point n of the sequence, four numbers in [0, 1).</summary>
    public static (double U, double V, double W, double X) Point(int n)
    {
        static double Part(double x) => x - Math.Floor(x);
        double step = n + 1;
        return (
            Part(0.5 + step / Root),
            Part(0.5 + step / (Root * Root)),
            Part(0.5 + step / (Root * Root * Root)),
            Part(0.5 + step / (Root * Root * Root * Root))
        );
    }

    /// <summary>Largest miss of the derivatives, over the largest of them by offset or by tilt, at a share of the points.</summary>
    public static double SlopeMiss(AtlasTable atlas, AtlasScene scene, IPressureEngine engine)
    {
        const int Count = 48;
        double worst = 0;
        for (int n = 0; n < Count; n++)
        {
            (double offset, double lean, double w, _) = Point(5000 + n);
            CraftPose pose = scene.Pose(offset, scene.IsBall ? 0 : lean, 2 * Math.PI * w);
            PressureDerivatives exact = engine.Differentiate(pose);
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
