namespace Lightkeel.Physics.Pressure;

/// <summary>An engine for the same craft in a beam of the same shape and another power: all answers times one factor.</summary>
internal sealed class ScaledPressure(IPressureEngine engine, double factor) : IPressureEngine
{
    /// <inheritdoc/>
    public string Name => engine.Name;

    /// <inheritdoc/>
    public double Accuracy => engine.Accuracy;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => Scaled(engine.Evaluate(pose));

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        PressureDerivatives d = engine.Differentiate(pose);
        return new(Scaled(d.ByOffsetX), Scaled(d.ByOffsetY), Scaled(d.ByTiltX), Scaled(d.ByTiltY), d.RelativeError);
    }

    private PressureReading Scaled(in PressureReading r) =>
        new(
            factor * r.ForceNewtons,
            factor * r.TorqueNewtonMetres,
            factor * r.InterceptedWatts,
            factor * r.AbsorbedWatts,
            r.RelativeError
        );
}
