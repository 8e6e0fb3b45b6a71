namespace Lightkeel.Numerics.Integration;

/// <summary>Runs a motion from start to end: adaptive Runge–Kutta, or a scheme of fixed steps.</summary>
public static class Integrator
{
    /// <summary>Drives y' = f(t, y) with error control.</summary>
    /// <typeparam name="TRhs">Right-hand side; a readonly struct is compiled into the loop.</typeparam>
    /// <typeparam name="TSink">Receiver of records and events.</typeparam>
    /// <param name="rhs">Right-hand side.</param>
    /// <param name="stepper">Method and its memory; may be reused by later runs.</param>
    /// <param name="plan">Times, tolerance, limits, events, records.</param>
    /// <param name="state">The start state; holds the state at the end time of the summary afterwards.</param>
    /// <param name="sink">Receives records and events.</param>
    /// <param name="controller">Step-size control; null for <see cref="PiStepController"/>.</param>
    /// <param name="cancellation">Looked at before every step.</param>
    /// <returns>How the run ended; every ending but a wrong call is a value.</returns>
    /// <exception cref="ArgumentException">The plan or the start state cannot be run.</exception>
    /// <remarks>After set-up, steps allocate nothing.</remarks>
    public static RunSummary Drive<TRhs, TSink>(
        in TRhs rhs,
        EmbeddedRungeKutta stepper,
        RunPlan plan,
        Span<double> state,
        TSink sink,
        IStepController? controller = null,
        CancellationToken cancellation = default
    )
        where TRhs : IRightHandSide, allows ref struct
        where TSink : IRunSink
    {
        ArgumentNullException.ThrowIfNull(stepper);
        ArgumentNullException.ThrowIfNull(plan);
        plan.RequireValid(stepper.Dimension);
        RequireState(state, stepper.Dimension);
        AdaptiveRun run = new(stepper.Dimension, plan, controller ?? new PiStepController(), cancellation);
        RungeKuttaSteps<TRhs> steps = new(stepper, rhs);
        return run.Drive(ref steps, state, sink);
    }

    /// <summary>Drives y' = f(t, y) with error control by Gauss collocation, whose rates are asked for eight times at once.</summary>
    /// <typeparam name="TRates">Rates; a readonly struct is compiled into the loop.</typeparam>
    /// <typeparam name="TSink">Receiver of records and events.</typeparam>
    /// <param name="rates">Rates.</param>
    /// <param name="stepper">Method and its memory; may be reused by later runs.</param>
    /// <param name="plan">Times, tolerance, limits, events, records.</param>
    /// <param name="state">The start state; holds the state at the end time of the summary afterwards.</param>
    /// <param name="sink">Receives records and events.</param>
    /// <param name="controller">Step-size control; null for <see cref="PiStepController"/>.</param>
    /// <param name="cancellation">Looked at before every step.</param>
    /// <returns>How the run ended; every ending but a wrong call is a value.</returns>
    /// <exception cref="ArgumentException">The plan or the start state cannot be run.</exception>
    public static RunSummary DriveByNodes<TRates, TSink>(
        TRates rates,
        GaussCollocation stepper,
        RunPlan plan,
        Span<double> state,
        TSink sink,
        IStepController? controller = null,
        CancellationToken cancellation = default
    )
        where TRates : struct, INodeRates
        where TSink : IRunSink
    {
        ArgumentNullException.ThrowIfNull(stepper);
        ArgumentNullException.ThrowIfNull(plan);
        plan.RequireValid(stepper.Dimension);
        RequireState(state, stepper.Dimension);
        AdaptiveRun run = new(
            stepper.Dimension,
            plan,
            controller ?? new PiStepController(GaussCollocation.LargestGrowth),
            cancellation
        );
        CollocationSteps<TRates> steps = new(stepper, rates, plan.Tolerance);
        return run.Drive(ref steps, state, sink);
    }

    /// <summary>Drives a scheme of fixed steps.</summary>
    /// <typeparam name="TScheme">The scheme, with its forces.</typeparam>
    /// <typeparam name="TSink">Receiver of records and events.</typeparam>
    /// <param name="scheme">Takes the steps.</param>
    /// <param name="plan">Times, step, events, records.</param>
    /// <param name="state">The start state; holds the state at the end time of the summary afterwards.</param>
    /// <param name="sink">Receives records and events.</param>
    /// <param name="cancellation">Looked at before every step.</param>
    /// <returns>How the run ended.</returns>
    /// <exception cref="ArgumentException">The plan or the start state cannot be run.</exception>
    /// <remarks>
    /// Records and events between steps are found by shorter steps of the same scheme from the step's start, so they have
    /// the scheme's accuracy and leave the motion untouched; each costs a step.
    /// </remarks>
    public static RunSummary DriveFixed<TScheme, TSink>(
        TScheme scheme,
        FixedStepPlan plan,
        Span<double> state,
        TSink sink,
        CancellationToken cancellation = default
    )
        where TScheme : IFixedStepScheme
        where TSink : IRunSink
    {
        ArgumentNullException.ThrowIfNull(scheme);
        ArgumentNullException.ThrowIfNull(plan);
        plan.RequireValid();
        RequireState(state, scheme.Dimension);
        FixedStepRun<TScheme> run = new(scheme, plan, cancellation);
        return run.Drive(state, sink);
    }

    private static void RequireState(ReadOnlySpan<double> state, int dimension)
    {
        if (state.Length != dimension)
        {
            throw new ArgumentException(
                $"The state has {state.Length} numbers, {dimension} are needed.",
                nameof(state)
            );
        }
        for (int i = 0; i < state.Length; i++)
        {
            if (!double.IsFinite(state[i]))
            {
                throw new ArgumentException($"Number {i} of the start state is not finite.", nameof(state));
            }
        }
    }
}
