namespace Lightkeel.Physics.Pressure;

/// <summary>The light of one instant: the nominal light, stronger or weaker and wider. Safe to share between threads.</summary>
/// <param name="nominal">Light at nominal power and designed size.</param>
/// <param name="power">Power over nominal power, zero or more.</param>
/// <param name="scale">Size of the beam over its designed size, above zero.</param>
public sealed class InstantPressure(IPressureEngine nominal, double power, double scale) : IPressureEngine
{
    /// <inheritdoc/>
    public string Name => nominal.Name;

    /// <inheritdoc/>
    public double Accuracy => nominal.Accuracy;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => Scaled(nominal.Evaluate(pose with { BeamScale = scale }));

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        PressureDerivatives d = nominal.Differentiate(pose with { BeamScale = scale });
        return new(Scaled(d.ByOffsetX), Scaled(d.ByOffsetY), Scaled(d.ByTiltX), Scaled(d.ByTiltY), d.RelativeError);
    }

    private PressureReading Scaled(in PressureReading r) =>
        r with
        {
            ForceNewtons = power * r.ForceNewtons,
            TorqueNewtonMetres = power * r.TorqueNewtonMetres,
            InterceptedWatts = power * r.InterceptedWatts,
            AbsorbedWatts = power * r.AbsorbedWatts,
        };
}
