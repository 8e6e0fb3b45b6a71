namespace Lightkeel.Numerics.Integration;

/// <summary>A one-step method bound to what it integrates, as the adaptive run needs it.</summary>
/// <remarks>The order of calls is that of <see cref="EmbeddedRungeKutta"/>.</remarks>
internal interface IAdaptiveSteps
{
    /// <summary>Number of state variables.</summary>
    int Dimension { get; }

    /// <summary>Power of the step with which the error estimate falls.</summary>
    int EstimatePower { get; }

    /// <summary>How much of the first step that is chosen by the rates is dared.</summary>
    double FirstStepShare { get; }

    /// <summary>Evaluations of the rates since the start.</summary>
    long RateEvaluations { get; }

    /// <summary>State at the start of the present step.</summary>
    ReadOnlySpan<double> State { get; }

    /// <summary>Rate there.</summary>
    ReadOnlySpan<double> StartRate { get; }

    /// <summary>State at the end of the present step; may be corrected before it is completed.</summary>
    Span<double> NextState { get; }

    /// <summary>Estimated local error of each component of it, not negative.</summary>
    ReadOnlySpan<double> ErrorEstimate { get; }

    /// <summary>Whether state and rate at the end of the completed step are finite.</summary>
    bool EndIsFinite { get; }

    /// <summary>The motion inside the completed step.</summary>
    IDenseOutput Dense { get; }

    /// <summary>Sets the first state.</summary>
    void Start(double time, ReadOnlySpan<double> state);

    /// <summary>The rate at any state.</summary>
    void Rate(double time, ReadOnlySpan<double> state, Span<double> rate);

    /// <summary>Tries a step.</summary>
    void Attempt(double step);

    /// <summary>Completes an accepted step.</summary>
    void Complete(bool nextStateChanged);

    /// <summary>Prepares the motion inside the step.</summary>
    void PrepareDense();

    /// <summary>Goes to the next step.</summary>
    void Advance(double time);
}

/// <summary>The motion inside a step.</summary>
internal interface IDenseOutput
{
    /// <summary>State at a fraction of the step, 0 its start, 1 its end.</summary>
    void Interpolate(double fraction, Span<double> state);

    /// <summary>Bounds of every component over the step; false where there are none.</summary>
    bool TryBound(Span<double> low, Span<double> high);
}

/// <summary>An embedded Runge–Kutta method and its right-hand side.</summary>
internal readonly ref struct RungeKuttaSteps<TRhs>(EmbeddedRungeKutta stepper, TRhs rhs) : IAdaptiveSteps
    where TRhs : IRightHandSide, allows ref struct
{
    private readonly TRhs _rhs = rhs;

    public int Dimension => stepper.Dimension;

    public int EstimatePower => stepper.Tableau.EstimatePower;

    public double FirstStepShare => 1;

    public long RateEvaluations => stepper.RateEvaluations;

    public ReadOnlySpan<double> State => stepper.State;

    public ReadOnlySpan<double> StartRate => stepper.StartRate;

    public Span<double> NextState => stepper.NextState;

    public ReadOnlySpan<double> ErrorEstimate => stepper.ErrorEstimate;

    public bool EndIsFinite => Finite.All(stepper.EndRate) && Finite.All(stepper.NextState);

    public IDenseOutput Dense => stepper;

    public void Start(double time, ReadOnlySpan<double> state) => stepper.Start(_rhs, time, state);

    public void Rate(double time, ReadOnlySpan<double> state, Span<double> rate) => _rhs.Evaluate(time, state, rate);

    public void Attempt(double step) => stepper.Attempt(_rhs, step);

    public void Complete(bool nextStateChanged) => stepper.Complete(_rhs, nextStateChanged);

    public void PrepareDense() => stepper.PrepareDense(_rhs);

    public void Advance(double time) => stepper.Advance(time);
}
