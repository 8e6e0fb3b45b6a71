using System.Diagnostics;
using System.Globalization;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Benchmarks;

/// <summary>
/// Quick figures for a paired run against the peers: minimum and median of many repetitions after warming up, one line
/// of JSON each. The careful numbers come from BenchmarkDotNet.
/// </summary>
internal static class PairedRun
{
    public static void Print()
    {
        PressureBenchmarks b = new();
        CraftPose pose = CraftPose.From(0.05, 0.02, 0.01, -0.005);
        FixedGridCone<Lanes8> eight = new();
        FixedGridCone<Lanes4> four = new();
        FixedGridCone<F64> one = new();
        Console.WriteLine("value " + eight.Evaluate(pose).ForceNewtons);
        Measure("fixed grid, 8 lanes", () => eight.Evaluate(pose), FixedGridCone<Lanes8>.Nodes);
        Measure("fixed grid, 4 lanes", () => four.Evaluate(pose), FixedGridCone<Lanes4>.Nodes);
        Measure("fixed grid, 1 lane", () => one.Evaluate(pose), FixedGridCone<F64>.Nodes);
        Measure("cone to 1e-9", b.ConeToNineDigits, null);
        Measure("ball in gaussian to 1e-9", b.BallInGaussianToNineDigits, null);
        Measure("ball in ring to 1e-9", b.BallInRingToNineDigits, null);
        Measure("cone jacobian", b.ConeJacobian, null);
    }

    private static void Measure<TResult>(string name, Func<TResult> call, int? nodes)
    {
        const int Rounds = 41;
        for (int i = 0; i < 2000; i++)
        {
            call();
        }
        Stopwatch watch = Stopwatch.StartNew();
        call();
        int inner = (int)Math.Clamp(2e-3 / Math.Max(watch.Elapsed.TotalSeconds, 1e-7), 1, 20000);
        double[] times = new double[Rounds];
        for (int r = 0; r < Rounds; r++)
        {
            watch.Restart();
            for (int i = 0; i < inner; i++)
            {
                call();
            }
            times[r] = watch.Elapsed.TotalSeconds / inner;
        }
        Array.Sort(times);
        string perNode = nodes is { } n
            ? string.Create(
                CultureInfo.InvariantCulture,
                $", \"ns_per_node_min\": {1e9 * times[0] / n:F3}, \"ns_per_node_median\": {1e9 * times[Rounds / 2] / n:F3}"
            )
            : "";
        Console.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"{{\"case\": \"{name}\", \"us_min\": {1e6 * times[0]:F3}, \"us_median\": {1e6 * times[Rounds / 2]:F3}{perNode}}}"
            )
        );
    }
}
