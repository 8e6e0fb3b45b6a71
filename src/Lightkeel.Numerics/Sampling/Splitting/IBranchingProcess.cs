namespace Lightkeel.Numerics.Sampling.Splitting;

/// <summary>A random process in steps that can be taken up again from any of its states with fresh random numbers.</summary>
/// <typeparam name="TState">Everything that its future depends on: a value.</typeparam>
/// <remarks>Pure and thread-safe: the same state, branch and step give the same next state.</remarks>
public interface IBranchingProcess<TState>
    where TState : struct
{
    /// <summary>Steps of a whole path, 1 or more.</summary>
    int StepCount { get; }

    /// <summary>The state before the first step.</summary>
    /// <param name="branch">Address of the random numbers.</param>
    TState Start(ulong branch);

    /// <summary>The state after a step.</summary>
    /// <param name="state">State before it.</param>
    /// <param name="step">Number of the step, from 0.</param>
    /// <param name="branch">Address of the random numbers that are new in it.</param>
    TState Next(in TState state, int step, ulong branch);

    /// <summary>How near a state is to the event, growing towards it; +∞ once the event has come, for good.</summary>
    /// <param name="state">The state.</param>
    /// <param name="step">Steps that were taken to it.</param>
    /// <remarks>Any score gives an unbiased estimate; the nearer it follows the probability of the event, the less it scatters.</remarks>
    double Score(in TState state, int step);
}
