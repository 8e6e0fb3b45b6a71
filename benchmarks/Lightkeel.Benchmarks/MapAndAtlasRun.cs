using System.Diagnostics;
using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Map;
using Lightkeel.Studies.Models;

namespace Lightkeel.Benchmarks;

/// <summary>The 64 × 64 map of the peer cone, and the atlas against the quadrature that fills it: one line of JSON each.</summary>
/// <remarks>Processor time; the map on two threads is timed on the wall, which only a quiet machine shows rightly.</remarks>
internal static class MapAndAtlasRun
{
    private const int Rounds = 7;

    public static void Print(string design)
    {
        DesignDocument document = DesignDocument.Load(design);
        DesignAxis x = DesignAxis.Read(document, "--x", "sail.canopy.half_angle=60 deg..85 deg:64");
        DesignAxis y = DesignAxis.Read(document, "--y", "craft.center_of_mass.z=-4 m..0 m:64");
        MapInput input = new(OpenedDesign.From(document), x, y);
        foreach (int threads in (int[])[1, 2])
        {
            (double cells, double all, double riding) = Map(input, threads);
            Write(
                $"\"case\": \"map 64 x 64\", \"threads\": {threads}, \"cells_s\": {cells:F4}, \"with_boundary_s\": {all:F4}, \"stable_share\": {riding:R}"
            );
        }
        Atlas(
            "cone",
            new Cone(1.5, 65 * Math.PI / 180, LaserSide.Mouth),
            new(0, 0, -5),
            new GaussianProfile(1.5),
            new(1, 0.2)
        );
        Atlas(
            "cap",
            new SphericalCap(2, 20 * Math.PI / 180, LaserSide.Mouth),
            new(0, 0, -2.6),
            new GaussianProfile(0.8),
            new(0.3, 0.2)
        );
        Atlas("ball in a gaussian", new Sphere(1.2), Vec3.Zero, new GaussianProfile(1.5), new(1.5, 0.5));
        Atlas("ball in a ring", new Sphere(1.2), Vec3.Zero, new RingProfile(1.05, 0.45), new(2.5, 0.5));
    }

    private static (double Cells, double All, double Riding) Map(MapInput input, int threads)
    {
        (double cells, double all, double riding) = (double.MaxValue, double.MaxValue, 0);
        for (int round = 0; round < Rounds; round++)
        {
            Clock clock = new(wall: threads > 1);
            MapResult result = new MapStudy().Run(input, new StudyContext { Threads = threads, Progress = clock });
            all = Math.Min(all, clock.Seconds);
            cells = Math.Min(cells, clock.CellsSeconds);
            riding = result.RidingFraction ?? 0;
        }
        return (cells, all, riding);
    }

    private static void Atlas(string name, SurfaceOfRevolution shape, Vec3 center, IBeamProfile profile, AtlasBox box)
    {
        const double Accuracy = 1e-6;
        SailCraft craft = new(
            [new("sail", shape, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            new(1e-3, center, Mat3.Identity)
        );
        Beam beam = new(300e6, 1.064e-6, profile);
        Clock clock = new();
        PressureAtlas atlas = PressureAtlas.Build(craft, beam, box, Accuracy);
        double build = clock.Seconds;
        CraftPose[] poses = Poses(atlas.Report.Box);
        SurfaceQuadrature quadrature = new(craft, beam, Accuracy);
        double table = NanosecondsPerCall(atlas, poses, 40);
        double direct = NanosecondsPerCall(quadrature, poses, 2);
        Write(
            $"\"case\": \"atlas, {name}\", \"accuracy\": 1e-6, \"atlas_ns\": {table:F0}, \"quadrature_ns\": {direct:F0}, \"ratio\": {direct / table:F1}, \"build_s\": {build:F2}, \"coefficients\": {atlas.Report.Coefficients}"
        );
    }

    private static double NanosecondsPerCall(IPressureEngine engine, CraftPose[] poses, int repeats)
    {
        double best = double.MaxValue;
        double sum = 0;
        for (int round = 0; round < Rounds; round++)
        {
            Clock clock = new();
            for (int k = 0; k < repeats; k++)
            {
                foreach (CraftPose pose in poses)
                {
                    sum += engine.Evaluate(pose).ForceNewtons.X;
                }
            }
            best = Math.Min(best, clock.Seconds / (repeats * poses.Length));
        }
        return double.IsFinite(sum) ? 1e9 * best : double.NaN;
    }

    private static CraftPose[] Poses(AtlasBox box)
    {
        const double Golden = 0.6180339887498949;
        CraftPose[] poses = new CraftPose[1000];
        for (int i = 0; i < poses.Length; i++)
        {
            double share = (i + 0.5) / poses.Length;
            (double s, double c) = Math.SinCos(2 * Math.PI * Golden * i);
            (double sn, double cs) = Math.SinCos(0.7 * i);
            double offset = Math.Sqrt(share) * box.OffsetMetres;
            double tilt = 0.99 * (Golden * i - Math.Floor(Golden * i)) * box.TiltRadians;
            poses[i] = CraftPose.From(offset * c, offset * s, tilt * cs, tilt * sn);
        }
        return poses;
    }

    private static void Write(FormattableString line) =>
        Console.WriteLine("{" + line.ToString(CultureInfo.InvariantCulture) + "}");

    // Processor time, as the peers have it; time on the wall where several threads work.
    private sealed class Clock(bool wall = false) : IProgressReporter
    {
        private readonly long _wallStart = Stopwatch.GetTimestamp();
        private readonly double _start = ProcessorTime.Seconds;

        public double Seconds =>
            wall ? Stopwatch.GetElapsedTime(_wallStart).TotalSeconds : ProcessorTime.Seconds - _start;

        public double CellsSeconds { get; private set; }

        public void Report(string stage, long done, long total)
        {
            if (done == total)
            {
                CellsSeconds = Seconds;
            }
        }
    }
}
