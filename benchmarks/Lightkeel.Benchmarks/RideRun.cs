using System.Diagnostics;
using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Benchmarks;

/// <summary>
/// Rides of the peers' cone and ball: processor time against error, by quadrature and by atlas, one line of JSON each. The error is
/// the lateral distance of the end point from that of a reference ride, over the largest offset.
/// </summary>
internal static class RideRun
{
    // A round lasts a millisecond or so: the least of many is not interrupted, and is processor time.
    private const int Rounds = 25;
    private static readonly double[] Tolerances = [1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11];

    public static void Print(double seconds)
    {
        Cone(seconds);
        Ball(seconds);
    }

    /// <summary>Flies the ball through its atlas again and again, for a profiler to look at; prints the time of a force, all in.</summary>
    /// <param name="work">Processor time to spend, s.</param>
    public static void FlyBall(double work)
    {
        (SailCraft craft, Beam beam, RideStart start, AtlasBox box) = BallCase();
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, 1e-8);
        RideSetup setup = RideSetup.For(craft, beam, atlas);
        RideLimits limits = new() { DurationSeconds = 3 };
        double best = double.MaxValue;
        for (double begin = ProcessorTime.Seconds; ProcessorTime.Seconds < begin + work; )
        {
            double from = ProcessorTime.Seconds;
            RideResult ride = Fly(setup, atlas, start, limits, 1e-8);
            best = Math.Min(best, (ProcessorTime.Seconds - from) / ride.Numerics.ForceEvaluations);
        }
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{1e9 * best:F1} ns a force, all in"));
    }

    // The peers' own equations, through an atlas to 1e-9 and by quadrature.
    private static void LikeForLike(SailCraft craft, Beam beam, AtlasBox box, RideStart start, double seconds)
    {
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, 1e-9);
        double mass = craft.Mass.MassKilograms;
        if (atlas.IsAttitudeFree)
        {
            PressureAtlas fine = PressureAtlas.Build(craft, beam, box, 1e-10);
            double[] planar = [start.OffsetXMetres, 0, 0, start.VelocityYMetresPerSecond];
            PlanarBall exactBall = new(fine, mass);
            PeerEquationsRun.Print(
                "ball, peer's equations, atlas",
                new PlanarBall(atlas, mass),
                exactBall,
                planar,
                seconds
            );
            return;
        }
        Mat3 i = craft.Mass.InertiaKilogramSquareMetres;
        Vec3 inertia = new(i.Row0.X, i.Row1.Y, i.Row2.Z);
        UnitQuaternion q = start.Attitude;
        double[] first =
        [
            start.OffsetXMetres,
            start.OffsetYMetres,
            0,
            0,
            start.VelocityYMetresPerSecond,
            0,
            q.W,
            q.X,
            q.Y,
            q.Z,
            0,
            0,
            0,
        ];
        NewtonEuler exact = new(new SurfaceQuadrature(craft, beam, 1e-12), mass, inertia);
        NewtonEuler table = new(atlas, mass, inertia);
        NewtonEuler sums = new(new SurfaceQuadrature(craft, beam, 1e-7), mass, inertia);
        PeerEquationsRun.Print("cone, peer's equations, atlas", table, exact, first, seconds);
        PeerEquationsRun.Print("cone, peer's equations, quadrature", sums, exact, first, seconds);
    }

    private static void Cone(double seconds)
    {
        SailCraft craft = Craft(
            new Cone(1.5, 65 * Math.PI / 180, LaserSide.Mouth),
            new(0, 0, -3.2),
            Mat3.Diagonal(1.1e-2, 1.1e-2, 1e-3)
        );
        Beam beam = new(300e6, 1.064e-6, new GaussianProfile(1.5));
        RideStart start = new()
        {
            OffsetXMetres = 0.05,
            OffsetYMetres = 0.02,
            TiltXRadians = 0.01,
            TiltYRadians = -0.005,
            VelocityYMetresPerSecond = 0.02,
        };
        Compare("cone", craft, beam, start, new(0.3, 0.1), seconds);
    }

    private static void Ball(double seconds)
    {
        (SailCraft craft, Beam beam, RideStart start, AtlasBox box) = BallCase();
        Compare("ball", craft, beam, start, box, seconds);
    }

    private static (SailCraft Craft, Beam Beam, RideStart Start, AtlasBox Box) BallCase() =>
        (
            Craft(new Sphere(1.2), Vec3.Zero, Mat3.Diagonal(1.4e-3, 1.4e-3, 1.4e-3)),
            new(300e6, 1.064e-6, new RingProfile(1.05, 0.45)),
            new() { OffsetXMetres = 0.3, VelocityYMetresPerSecond = 0.5 },
            new(0.6, 0.5)
        );

    private static SailCraft Craft(SurfaceOfRevolution shape, Vec3 center, Mat3 inertia) =>
        new([new("sail", shape, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)], new(2.4e-3, center, inertia));

    private static void Compare(string name, SailCraft craft, Beam beam, RideStart start, AtlasBox box, double seconds)
    {
        LikeForLike(craft, beam, box, start, seconds);
        RideSetup setup = RideSetup.For(craft, beam, new SurfaceQuadrature(craft, beam, 1e-12));
        RideLimits limits = new() { DurationSeconds = seconds };
        // A ring's kink makes quadrature to 1e-12 slow; a fine atlas, proven by it, stands in for the reference of the ball.
        IPressureEngine fine = name == "ball" ? PressureAtlas.Build(craft, beam, box, 1e-10) : setup.Engine;
        RideResult reference = Fly(setup, fine, start, limits, 1e-13);
        foreach (double accuracy in (double[])[1e-7, 1e-8, 1e-9, 1e-10])
        {
            long begin = Stopwatch.GetTimestamp();
            PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, accuracy);
            double build = Stopwatch.GetElapsedTime(begin).TotalSeconds;
            Sweep($"{name}, atlas to {accuracy:G2}", setup, atlas, start, limits, reference, build);
        }
        foreach (double accuracy in name == "ball" ? [] : (double[])[1e-7, 1e-9, 1e-11])
        {
            SurfaceQuadrature quadrature = new(craft, beam, accuracy);
            Sweep($"{name}, quadrature to {accuracy:G2}", setup, quadrature, start, limits, reference, 0);
        }
    }

    private static void Sweep(
        FormattableString name,
        RideSetup setup,
        IPressureEngine engine,
        RideStart start,
        RideLimits limits,
        RideResult reference,
        double build
    )
    {
        foreach (double tolerance in Tolerances)
        {
            double best = double.MaxValue;
            RideResult ride = Fly(setup, engine, start, limits, tolerance);
            for (int round = 0; round < Rounds; round++)
            {
                double begin = ProcessorTime.Seconds;
                ride = Fly(setup, engine, start, limits, tolerance);
                best = Math.Min(best, ProcessorTime.Seconds - begin);
            }
            Vec3 miss = ride.Final.State.PositionMetres - reference.Final.State.PositionMetres;
            double error = double.Hypot(miss.X, miss.Y) / reference.MaximumOffsetMetres;
            string text = string.Create(
                CultureInfo.InvariantCulture,
                $"{{\"case\": \"{FormattableString.Invariant(name)}\", \"tolerance\": {tolerance:G2}, \"cpu_s\": {best:G5}, \"relative_error\": {error:G4}, \"evaluations\": {ride.Numerics.ForceEvaluations}, \"steps\": {ride.Numerics.AcceptedSteps}, \"build_s\": {build:F3}}}"
            );
            Console.WriteLine(text);
        }
    }

    private static RideResult Fly(
        RideSetup setup,
        IPressureEngine engine,
        RideStart start,
        RideLimits limits,
        double tolerance
    ) => Ride.Fly(setup with { Engine = engine }, start, limits, new() { Tolerance = tolerance, FindPeaks = false });
}
