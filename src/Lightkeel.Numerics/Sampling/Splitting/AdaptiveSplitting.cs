using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Numerics.Sampling.Splitting;

/// <summary>Probability of a rare event by adaptive multilevel splitting.</summary>
/// <param name="Probability">Mean of the repetitions: unbiased.</param>
/// <param name="Interval">Student's interval of the mean over independent repetitions, cut at 0 and 1.</param>
/// <param name="Estimates">The estimate of each repetition.</param>
/// <param name="Paths">Paths that were begun or taken up again, all repetitions together.</param>
/// <remarks>
/// In each round the paths whose largest score so far is among the lowest are given up, and as many of the others are copied up to
/// where they first passed that level and continued with fresh random numbers; the product of the surviving shares is the
/// probability. Ties are given up together, which keeps the estimate unbiased. Sources: Stochastic Analysis and
/// Applications 25(2), 417–443 (2007), doi:10.1080/07362990601139628 (method); Annals of Applied Probability 26(6),
/// 3559–3601 (2016), doi:10.1214/16-AAP1185 (free of bias with ties and in steps).
/// </remarks>
public sealed record AdaptiveSplitting(
    double Probability,
    ConfidenceInterval Interval,
    IReadOnlyList<double> Estimates,
    long Paths
)
{
    private const int BranchBits = 40;

    /// <summary>Runs independent repetitions; results do not depend on the number of threads.</summary>
    /// <param name="process">The process.</param>
    /// <param name="seed">Seed of the choices among paths; the process has its own random numbers by branch.</param>
    /// <param name="plan">How much work.</param>
    /// <param name="progress">Told the number of finished repetitions; null for nobody.</param>
    /// <param name="cancellation">Stops between rounds.</param>
    /// <exception cref="OperationCanceledException">It was asked to stop.</exception>
    public static AdaptiveSplitting Estimate<TState>(
        IBranchingProcess<TState> process,
        ulong seed,
        SplittingPlan plan,
        Action<int>? progress = null,
        CancellationToken cancellation = default
    )
        where TState : struct
    {
        ArgumentNullException.ThrowIfNull(process);
        ArgumentNullException.ThrowIfNull(plan);
        double[] estimates = new double[plan.Repetitions];
        long[] paths = new long[plan.Repetitions];
        int done = 0;
        ParallelOptions options = new() { MaxDegreeOfParallelism = plan.Threads, CancellationToken = cancellation };
        Parallel.For(
            0,
            plan.Repetitions,
            options,
            r =>
            {
                Repetition<TState> repetition = new(process, seed, (ulong)r, plan.Particles, cancellation);
                estimates[r] = repetition.Run();
                paths[r] = repetition.Begun;
                progress?.Invoke(Interlocked.Increment(ref done));
            }
        );
        RunningMoments moments = RunningMoments.Of(estimates);
        double half = StudentT.Quantile(0.975, plan.Repetitions - 1) * moments.MeanStandardError;
        return new(
            moments.Mean,
            new ConfidenceInterval(Math.Max(0, moments.Mean - half), Math.Min(1, moments.Mean + half), 0.95),
            estimates,
            paths.Sum()
        );
    }

    private sealed class Repetition<TState>(
        IBranchingProcess<TState> process,
        ulong seed,
        ulong number,
        int particles,
        CancellationToken cancellation
    )
        where TState : struct
    {
        private readonly Path<TState>[] _paths = new Path<TState>[particles];
        private readonly RandomDraws _draws = new(seed, number, "splitting");

        public long Begun { get; private set; }

        public double Run()
        {
            for (int i = 0; i < _paths.Length; i++)
            {
                ulong branch = NextBranch();
                _paths[i] = new(process.StepCount);
                _paths[i].Add(process, process.Start(branch));
                Continue(_paths[i], branch);
            }
            double probability = 1;
            int given = Math.Max(1, particles / 20);
            for (ulong round = 0; ; round++)
            {
                cancellation.ThrowIfCancellationRequested();
                double level = _paths.Select(p => p.Largest).Order().ElementAt(given - 1);
                if (double.IsPositiveInfinity(level))
                {
                    return probability * _paths.Count(p => double.IsPositiveInfinity(p.Largest)) / particles;
                }
                int[] lost = [.. Enumerable.Range(0, particles).Where(i => _paths[i].Largest <= level)];
                int[] kept = [.. Enumerable.Range(0, particles).Where(i => _paths[i].Largest > level)];
                if (kept.Length == 0)
                {
                    return 0;
                }
                probability *= (double)kept.Length / particles;
                for (int k = 0; k < lost.Length; k++)
                {
                    int parent = kept[(int)(_draws.Uniform(round, (ulong)k) * kept.Length)];
                    _paths[lost[k]].TakeFrom(_paths[parent], level, process);
                    Continue(_paths[lost[k]], NextBranch());
                }
            }
        }

        private ulong NextBranch() => (number << BranchBits) | (ulong)Begun++;

        private void Continue(Path<TState> path, ulong branch)
        {
            while (path.Count <= process.StepCount && !double.IsPositiveInfinity(path.Largest))
            {
                path.Add(process, process.Next(path.Last, path.Count - 1, branch));
            }
        }
    }

    private sealed class Path<TState>(int steps)
        where TState : struct
    {
        private readonly TState[] _states = new TState[steps + 1];

        public int Count { get; private set; }

        public double Largest { get; private set; } = double.NegativeInfinity;

        public TState Last => _states[Count - 1];

        public void Add(IBranchingProcess<TState> process, in TState state)
        {
            Largest = Math.Max(Largest, process.Score(state, Count));
            _states[Count++] = state;
        }

        /// <summary>Becomes the beginning of another path, up to where it first passed a level.</summary>
        public void TakeFrom(Path<TState> parent, double level, IBranchingProcess<TState> process)
        {
            (Count, Largest) = (0, double.NegativeInfinity);
            while (!(Largest > level))
            {
                Add(process, parent._states[Count]);
            }
        }
    }
}

/// <summary>How much work a splitting does.</summary>
/// <param name="Particles">Paths that are kept alive, 20 or more.</param>
/// <param name="Repetitions">Independent repetitions, 4 or more: they make the interval.</param>
/// <param name="Threads">Threads that may work at once.</param>
public sealed record SplittingPlan(int Particles = 200, int Repetitions = 12, int Threads = 1)
{
    /// <summary>Paths that are kept alive.</summary>
    public int Particles { get; } = Require.AtLeast(20, Particles);

    /// <summary>Independent repetitions.</summary>
    public int Repetitions { get; } = Require.AtLeast(4, Repetitions);

    /// <summary>Threads that may work at once.</summary>
    public int Threads { get; } = Require.AtLeast(1, Threads);
}
