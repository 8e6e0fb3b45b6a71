using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>How far and how long to look for a trim.</summary>
/// <param name="SizeMetres">Craft size (radius of gyration or radius), m: makes forces and torques comparable.</param>
/// <param name="LargestOffsetMetres">Offsets beyond this count as off the beam, m.</param>
/// <param name="LargestTiltRadians">Tilts beyond this are not looked at, rad.</param>
/// <param name="MostIterations">Newton steps before giving up.</param>
public sealed record TrimSearch(
    double SizeMetres,
    double LargestOffsetMetres,
    double LargestTiltRadians = 1.0,
    int MostIterations = 20
)
{
    internal void Check()
    {
        Require.Positive(SizeMetres);
        Require.Positive(LargestOffsetMetres);
        Require.Between(LargestTiltRadians, 0, Math.PI, lowerIncluded: false);
        Require.Between(MostIterations, 1, 10_000);
    }
}

/// <summary>The pose near the axis in which no lateral force and no lateral torque act, or why there is none.</summary>
/// <param name="Found">Whether a trim was found.</param>
/// <param name="Pose">The trim; null when none was found.</param>
/// <param name="Reading">Force and torque there.</param>
/// <param name="Derivatives">Derivatives there.</param>
/// <param name="OffsetMetres">Distance of the trim from the axis, m.</param>
/// <param name="TiltRadians">Angle between body axis and beam axis at the trim, rad.</param>
/// <param name="Residual">Larger of lateral force over axial force and lateral torque over axial force and size.</param>
/// <param name="Iterations">Newton steps taken.</param>
/// <param name="FreeDirections">Number of directions in offset and tilt along which nothing changes (a ball has two: its tilts).</param>
/// <param name="Summary">One sentence: where the trim is, or why none was found and what would help.</param>
public sealed record LateralTrim(
    bool Found,
    CraftPose? Pose,
    PressureReading? Reading,
    PressureDerivatives? Derivatives,
    double OffsetMetres,
    double TiltRadians,
    double Residual,
    int Iterations,
    int FreeDirections,
    string Summary
)
{
    /// <summary>Whether the trim is off the axis or tilted.</summary>
    public bool IsDisplaced => Found && (OffsetMetres > 0 || TiltRadians > 1e-12);

    /// <summary>
    /// Newton's method on (F_x, F_y, T_x, T_y) = 0 with the engine's exact derivatives, from the given pose; steps are the
    /// shortest that solve a rank-deficient system, limited in length, and halved until the imbalance falls.
    /// </summary>
    /// <param name="engine">Light pressure.</param>
    /// <param name="search">Sizes and limits.</param>
    /// <param name="start">First pose; null is on the axis and untilted.</param>
    /// <exception cref="ArgumentException">A search limit is unphysical.</exception>
    public static LateralTrim Find(IPressureEngine engine, TrimSearch search, CraftPose? start = null)
    {
        search.Check();
        CraftPose pose = start ?? CraftPose.OnAxis;
        try
        {
            return Iterate(engine, search, pose, engine.Evaluate(pose));
        }
        catch (PressureUnavailableException unavailable)
        {
            return Missing(0, 1, $"the light pressure could not be computed on the way: {unavailable.Message}");
        }
    }

    private static LateralTrim Iterate(
        IPressureEngine engine,
        TrimSearch search,
        CraftPose pose,
        PressureReading reading
    )
    {
        for (int iterations = 0; ; iterations++)
        {
            if (Obstacle(pose, reading, search) is { } obstacle)
            {
                return Missing(iterations, 1, obstacle);
            }
            double imbalance = Imbalance(reading, search.SizeMetres);
            double accuracy = Math.Max(Math.Max(engine.Accuracy, reading.RelativeError), 1e-15);
            PressureDerivatives slopes = engine.Differentiate(pose);
            (double[] step, int free) = Step(reading, slopes, search.SizeMetres, accuracy);
            // A first pose in balance is the trim; one that was walked to is worth a few more steps.
            bool settled = imbalance <= accuracy * (iterations == 0 ? 1 : 1e-3);
            bool last = settled || iterations == search.MostIterations;
            (CraftPose, PressureReading)? next = last ? null : Advance(engine, search, pose, step, imbalance, accuracy);
            if (next is { } better)
            {
                (pose, reading) = better;
                continue;
            }
            return imbalance <= accuracy
                ? At(pose, reading, slopes, imbalance, iterations, free, search.SizeMetres)
                : Missing(iterations, imbalance, WhyStopped(iterations == search.MostIterations));
        }
    }

    private static string WhyStopped(bool atLimit) =>
        atLimit
            ? "the step limit was reached while the lateral force was still falling: raise it, or start nearer."
            : "no small move lowers the lateral force and torque together: the beam pushes this craft everywhere near here, so "
                + "it has no trim to ride about.";

    private static string? Obstacle(in CraftPose pose, in PressureReading reading, TrimSearch search)
    {
        if (!(Math.Abs(reading.ForceNewtons.Z) > 0))
        {
            return "there is no thrust here, so there is nothing to trim: is the craft in the beam?";
        }
        if (double.Hypot(pose.OffsetXMetres, pose.OffsetYMetres) > search.LargestOffsetMetres)
        {
            return $"the search left the beam: offset beyond {Decision.Text(search.LargestOffsetMetres)} m.";
        }
        return AxisTilt(pose) > search.LargestTiltRadians
            ? $"the search tilted the craft beyond {Decision.Text(search.LargestTiltRadians)} rad."
            : null;
    }

    private static LateralTrim At(
        in CraftPose pose,
        in PressureReading reading,
        PressureDerivatives slopes,
        double imbalance,
        int iterations,
        int free,
        double sizeMetres
    )
    {
        double offset = double.Hypot(pose.OffsetXMetres, pose.OffsetYMetres);
        double tilt = AxisTilt(pose);
        string where =
            iterations == 0 && offset == 0 && tilt < 1e-12
                ? "On the beam axis, untilted, no lateral force or torque acts."
                : $"The lateral force and torque vanish {Decision.Text(offset)} m from the axis {(tilt < 1e-12 ? "without tilt" : $"at a tilt of {Decision.Text(tilt)} rad")}.";
        string loose = free > 0 ? $" Along {free} of the four directions of offset and tilt nothing changes." : "";
        string twist =
            Math.Abs(reading.TorqueNewtonMetres.Z) > 1e-12 * sizeMetres * Math.Abs(reading.ForceNewtons.Z)
                ? $" A torque of {Decision.Text(reading.TorqueNewtonMetres.Z)} N m about the beam spins the craft up."
                : "";
        return new(true, pose, reading, slopes, offset, tilt, imbalance, iterations, free, where + loose + twist);
    }

    private static LateralTrim Missing(int iterations, double imbalance, string reason) =>
        new(false, null, null, null, 0, 0, imbalance, iterations, 0, Sentence(reason));

    private static string Sentence(string reason) =>
        reason.Length > 0 ? char.ToUpperInvariant(reason[0]) + reason[1..] : reason;

    private static double AxisTilt(in CraftPose pose)
    {
        Vec3 axis = pose.BeamFromBody.Column2;
        return Math.Atan2(double.Hypot(axis.X, axis.Y), axis.Z);
    }

    private static double Imbalance(in PressureReading reading, double size)
    {
        double thrust = Math.Abs(reading.ForceNewtons.Z);
        double force = double.Hypot(reading.ForceNewtons.X, reading.ForceNewtons.Y) / thrust;
        double torque = double.Hypot(reading.TorqueNewtonMetres.X, reading.TorqueNewtonMetres.Y) / (thrust * size);
        return Math.Max(force, torque);
    }

    /// <summary>Shortest Newton step in units of craft size and radians.</summary>
    private static (double[] Step, int Free) Step(
        in PressureReading reading,
        PressureDerivatives slopes,
        double size,
        double accuracy
    )
    {
        double[][] jacobian = slopes.LateralJacobian();
        double thrust = Math.Abs(reading.ForceNewtons.Z);
        double[,] scaled = new double[4, 4];
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                double row = i < 2 ? thrust : thrust * size;
                scaled[i, j] = jacobian[i][j] * (j < 2 ? size : 1) / row;
            }
        }
        double[] right =
        [
            -reading.ForceNewtons.X / thrust,
            -reading.ForceNewtons.Y / thrust,
            -reading.TorqueNewtonMetres.X / (thrust * size),
            -reading.TorqueNewtonMetres.Y / (thrust * size),
        ];
        (double[] step, List<double[]> empty) = LeastNorm.Solve(scaled, right, Math.Max(10 * accuracy, 1e-12));
        return (step, empty.Count);
    }

    /// <summary>The next pose: the limited step, halved until the imbalance falls; null when no step lowers it.</summary>
    private static (CraftPose Pose, PressureReading Reading)? Advance(
        IPressureEngine engine,
        TrimSearch search,
        CraftPose pose,
        double[] step,
        double imbalance,
        double accuracy
    )
    {
        double offsetLimit = 0.25 * search.LargestOffsetMetres / search.SizeMetres;
        double tiltLimit = 0.25 * search.LargestTiltRadians;
        double longest = Math.Max(
            double.Hypot(step[0], step[1]) / offsetLimit,
            double.Hypot(step[2], step[3]) / tiltLimit
        );
        double share = longest > 1 ? 1 / longest : 1;
        for (int halving = 0; halving < 30; halving++, share *= 0.5)
        {
            CraftPose trial = Moved(pose, step, share, search.SizeMetres);
            PressureReading reading = engine.Evaluate(trial);
            double after =
                Math.Abs(reading.ForceNewtons.Z) > 0 ? Imbalance(reading, search.SizeMetres) : double.PositiveInfinity;
            if (after < (1 - 1e-4 * share) * imbalance)
            {
                return (trial, reading);
            }
            if (imbalance <= accuracy)
            {
                return null;
            }
        }
        return null;
    }

    private static CraftPose Moved(in CraftPose pose, double[] step, double share, double size)
    {
        UnitQuaternion turn = UnitQuaternion.FromRotationVector(new(share * step[2], share * step[3], 0));
        return pose with
        {
            OffsetXMetres = pose.OffsetXMetres + share * step[0] * size,
            OffsetYMetres = pose.OffsetYMetres + share * step[1] * size,
            BeamFromBody = turn.ToMatrix() * pose.BeamFromBody,
        };
    }
}
