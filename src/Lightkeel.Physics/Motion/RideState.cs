using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>State of a riding craft at one coordinate time (the laser's frame).</summary>
/// <param name="PositionMetres">Centre of mass, beam axes, z from the start along the beam, laser's frame, m.</param>
/// <param name="CelerityMetresPerSecond">Proper velocity u = dr/dτ = γ v, beam axes, m/s.</param>
/// <param name="Attitude">Unit quaternion, body → axes of the rest frame that a pure boost from the laser's frame reaches.</param>
/// <param name="BodyAngularMomentum">Angular momentum about the centre of mass in the rest frame, body axes, kg m²/s.</param>
/// <param name="ProperSeconds">Proper time of the craft since the first light, s.</param>
/// <param name="Ledger">Energy account since the first light.</param>
/// <param name="AngularImpulse">Angular impulse about the nominal beam axis since the first light, laser's frame, kg m²/s.</param>
public readonly record struct RideState(
    Vec3 PositionMetres,
    Vec3 CelerityMetresPerSecond,
    UnitQuaternion Attitude,
    Vec3 BodyAngularMomentum,
    double ProperSeconds,
    EnergyLedger Ledger,
    double AngularImpulse
)
{
    /// <summary>Length of the state as numbers: position 3, celerity 3, attitude 4, momentum 3, proper time 1, ledger 4, angular impulse 1.</summary>
    internal const int Dimension = 19;

    /// <summary>Index of the attitude among the numbers.</summary>
    internal const int AttitudeIndex = 6;

    /// <summary>Index of the proper time among the numbers.</summary>
    internal const int ProperTimeIndex = 13;

    private const double InverseSquare = 1 / (Illumination.LightSpeed * Illumination.LightSpeed);

    /// <summary>Lorentz factor γ = √(1 + u²/c²).</summary>
    public double LorentzFactor => LorentzFactorOf(CelerityMetresPerSecond);

    /// <summary>Velocity in the laser's frame, beam axes, m/s.</summary>
    public Vec3 VelocityMetresPerSecond => 1 / LorentzFactor * CelerityMetresPerSecond;

    /// <summary>Distance from the nominal beam axis, m.</summary>
    public double OffsetMetres => double.Hypot(PositionMetres.X, PositionMetres.Y);

    /// <summary>Direction of the body axis, beam axes.</summary>
    public Vec3 BodyAxis => AxisOf(Attitude);

    /// <summary>Angle between body axis and beam, rad.</summary>
    public double TiltRadians
    {
        get
        {
            Vec3 axis = BodyAxis;
            return Math.Atan2(double.Hypot(axis.X, axis.Y), axis.Z);
        }
    }

    /// <summary>Speed over that of light.</summary>
    public double Beta => CelerityMetresPerSecond.Length / (LorentzFactor * Illumination.LightSpeed);

    /// <summary>Source time of the light that meets the craft, t − z/c, s.</summary>
    /// <param name="coordinateSeconds">Coordinate time of the state, s.</param>
    public double SourceSeconds(double coordinateSeconds) =>
        coordinateSeconds - PositionMetres.Z / Illumination.LightSpeed;

    /// <summary>Kinetic energy of the centre of mass in the laser's frame, (γ − 1) m c², without cancellation, J.</summary>
    /// <param name="massKilograms">Rest mass, kg.</param>
    public double KineticJoules(double massKilograms) =>
        massKilograms * Vec3.Dot(CelerityMetresPerSecond, CelerityMetresPerSecond) / (LorentzFactor + 1);

    /// <summary>
    /// Angular momentum about the nominal beam axis, laser's frame: that of the centre of mass and that about it, kg m²/s.
    /// </summary>
    /// <remarks>
    /// The part about the centre of mass is that of the rest frame, as the component along a boost stays; what a lateral
    /// velocity v changes of it is of the order of v²/c².
    /// </remarks>
    /// <param name="massKilograms">Rest mass, kg.</param>
    public double AxialAngularMomentum(double massKilograms) =>
        massKilograms * Vec3.Cross(PositionMetres, CelerityMetresPerSecond).Z + Attitude.Rotate(BodyAngularMomentum).Z;

    internal static double LorentzFactorOf(Vec3 celerity) =>
        Math.Sqrt(1 + InverseSquare * Vec3.Dot(celerity, celerity));

    internal static Vec3 AxisOf(UnitQuaternion q) =>
        new(2 * (q.X * q.Z + q.W * q.Y), 2 * (q.Y * q.Z - q.W * q.X), 1 - 2 * (q.X * q.X + q.Y * q.Y));

    internal static RideState Read(ReadOnlySpan<double> s) =>
        new(
            new(s[0], s[1], s[2]),
            new(s[3], s[4], s[5]),
            new(s[6], s[7], s[8], s[9]),
            new(s[10], s[11], s[12]),
            s[13],
            new(s[14], s[15], s[16], s[17]),
            s[18]
        );

    internal void Write(Span<double> s)
    {
        (s[0], s[1], s[2]) = PositionMetres;
        (s[3], s[4], s[5]) = CelerityMetresPerSecond;
        (s[6], s[7], s[8], s[9]) = Attitude;
        (s[10], s[11], s[12]) = BodyAngularMomentum;
        s[13] = ProperSeconds;
        (s[14], s[15], s[16], s[17]) = Ledger;
        s[18] = AngularImpulse;
    }
}

/// <summary>
/// Energy account of a ride since the first light, laser's frame. Light in = work + light out; work = gain of kinetic
/// energy (and of height, with gravity).
/// </summary>
/// <param name="SourceJoules">Energy that the source sent and that has reached the craft's station, hit or missed.</param>
/// <param name="InterceptedJoules">The part of it that met the craft; the rest spilled past.</param>
/// <param name="WorkJoules">Work of the light on the centre of mass.</param>
/// <param name="HeatJoules">Energy absorbed, in the craft's rest frame, and radiated again (rest mass stays).</param>
public readonly record struct EnergyLedger(
    double SourceJoules,
    double InterceptedJoules,
    double WorkJoules,
    double HeatJoules
)
{
    /// <summary>Energy of the light that left the craft again: reflected, scattered, passed and radiated.</summary>
    public double OutgoingJoules => InterceptedJoules - WorkJoules;
}
