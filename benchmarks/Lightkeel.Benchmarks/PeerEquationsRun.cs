using System.Globalization;
using Lightkeel.Numerics.Integration;

namespace Lightkeel.Benchmarks;

/// <summary>The peers' own equations flown by the library's stepper, tolerances as the peers have them: like for like.</summary>
internal static class PeerEquationsRun
{
    private const int Rounds = 25;
    private static readonly double[] Tolerances = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11];

    /// <summary>Prints a line for every tolerance.</summary>
    public static void Print<TRhs>(string name, TRhs rhs, TRhs exact, double[] start, double seconds)
        where TRhs : struct, IRightHandSide
    {
        EmbeddedRungeKutta stepper = new(ButcherTableau.DormandPrince8, start.Length);
        LargestOffset largest = new();
        double[] end = [.. start];
        Fly(exact, stepper, end, seconds, 1e-13, largest, Recording.EveryStep);
        foreach (double tolerance in Tolerances)
        {
            double best = double.MaxValue;
            double[] state = [.. start];
            long evaluations = 0;
            for (int round = 0; round < Rounds; round++)
            {
                start.CopyTo(state, 0);
                double begin = ProcessorTime.Seconds;
                evaluations = Fly(
                    rhs,
                    stepper,
                    state,
                    seconds,
                    tolerance,
                    new NoSink(),
                    Recording.None
                ).RateEvaluations;
                best = Math.Min(best, ProcessorTime.Seconds - begin);
            }
            double error = double.Hypot(state[0] - end[0], state[1] - end[1]) / largest.Metres;
            Console.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{{\"case\": \"{name}\", \"tolerance\": {tolerance:G2}, \"cpu_s\": {best:G5}, \"relative_error\": {error:G4}, \"evaluations\": {evaluations}}}"
                )
            );
        }
    }

    private static RunSummary Fly<TRhs, TSink>(
        TRhs rhs,
        EmbeddedRungeKutta stepper,
        double[] state,
        double seconds,
        double tolerance,
        TSink sink,
        Recording recording
    )
        where TRhs : struct, IRightHandSide
        where TSink : IRunSink =>
        Integrator.Drive(
            rhs,
            stepper,
            new()
            {
                StartTime = 0,
                EndTime = seconds,
                Tolerance = Tolerance.Uniform(tolerance, tolerance / 100, state.Length),
                Recording = recording,
            },
            state,
            sink
        );
}
