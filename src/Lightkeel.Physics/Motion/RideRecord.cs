using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Motion;

/// <summary>One recorded instant of a ride.</summary>
/// <param name="TimeSeconds">Coordinate time (the laser's frame) from the first light, s.</param>
/// <param name="SourceSeconds">Source time of the light that meets the craft, s.</param>
/// <param name="State">State of the craft.</param>
/// <param name="BodyRate">Rate of turn, body axes, rad/s of proper time.</param>
/// <param name="Beam">The beam as disturbed, for the light that meets the craft.</param>
/// <param name="PowerFactor">Power sent over nominal power, disturbance included.</param>
/// <param name="IrradianceFactor">Irradiance on the craft over that of the nominal beam at rest: power, Doppler shift and spread.</param>
/// <param name="BeamScale">Size of the beam over its designed size, disturbance included.</param>
public readonly record struct RideRecord(
    double TimeSeconds,
    double SourceSeconds,
    RideState State,
    Vec3 BodyRate,
    BeamState Beam,
    double PowerFactor,
    double IrradianceFactor,
    double BeamScale
)
{
    /// <summary>Proper time of the craft, s.</summary>
    public double ProperSeconds => State.ProperSeconds;

    /// <summary>Distance along the beam from the start, m.</summary>
    public double DistanceMetres => State.PositionMetres.Z;

    /// <summary>Spin about the body axis, rad/s of proper time.</summary>
    public double SpinRadiansPerSecond => BodyRate.Z;

    /// <summary>Tilt about beam x (rad): the direction of the body axis as a rotation vector, its length the tilt.</summary>
    public double TiltXRadians => -State.BodyAxis.Y * PerSine;

    /// <summary>Tilt about beam y (rad).</summary>
    public double TiltYRadians => State.BodyAxis.X * PerSine;

    // tilt / sin(tilt), 1 at zero.
    private double PerSine
    {
        get
        {
            Vec3 axis = State.BodyAxis;
            double sine = double.Hypot(axis.X, axis.Y);
            return sine > 0 ? State.TiltRadians / sine : 1;
        }
    }
}
