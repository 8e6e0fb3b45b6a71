using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;

namespace Lightkeel.Physics.Tests.Pressure.Rays;

/// <summary>Rays under the laws that hold for every engine.</summary>
public sealed class RayContractTests : PressureEngineContract
{
    protected override double Tolerance => 1e-6;

    protected override double TerminatorTolerance => 1e-5;

    /// <summary>Passes nothing: rays follow passed light to the far wall, which the sums that they are compared with leave out.</summary>
    protected override OpticalCoefficients Film => new(0.93, 0.02, 0.05, 0.1, 0.4);

    protected override IPressureEngine Create(SailCraft craft, Beam beam) => new RayPressure(craft, beam, 1e-6);
}
