using Lightkeel.Physics.Beams;

namespace Lightkeel.Physics.Pressure;

/// <summary>Turns differences between nested rules into a relative error that can be vouched for.</summary>
/// <param name="ReachMetres">Greatest distance of the surface from the centre of mass: a torque is measured in force times reach.</param>
/// <param name="LengthMetres">Length over which force changes by its own size along the asked direction; 1 for tilts (rad).</param>
/// <param name="OfSlope">True when the derivative is asked, false for the value.</param>
/// <param name="AxisPoint">Smoothness of the beam.</param>
/// <param name="BeamScale">Size of the beam over its designed size.</param>
internal readonly record struct ErrorScale(
    double ReachMetres,
    double LengthMetres,
    bool OfSlope,
    AxisPoint AxisPoint,
    double BeamScale
)
{
    // Below this share of all the beam's momentum a force is as good as none.
    private const double DarkForce = 1e-12;

    // A derivative is measured against its own size or this share of force per natural length, whichever is larger.
    private const double SmallSlope = 1e-2;

    /// <summary>Size of what was asked (value or slope) in an answer or a difference: force, or torque over reach.</summary>
    public double Measure(in UnitWrench value, in UnitWrench slope)
    {
        UnitWrench asked = OfSlope ? slope : value;
        return Math.Max(asked.Force.Length, asked.Torque.Length / ReachMetres);
    }

    /// <summary>What errors of the whole answer are compared with.</summary>
    public double Size(in SurfaceAnswer whole)
    {
        double force = Math.Max(whole.Value.Force.Length, DarkForce);
        return OfSlope ? Math.Max(Measure(whole.Value, whole.Slope), SmallSlope * force / LengthMetres) : force;
    }

    /// <summary>
    /// Error of a fine rule from its relative difference δ to the nested coarse one: (200 δ)^1.5 where that is smaller
    /// than δ, as in QUADPACK (Springer, 1983, §3.4.1): for smooth integrands the fine rule has at least half again as
    /// many correct digits as the coarse one.
    /// </summary>
    public static double Credit(double difference) => Math.Min(difference, Math.Pow(200 * difference, 1.5));

    /// <summary>The same for panels that may hold a place where the beam is not smooth: no credit there.</summary>
    public double PanelCredit(double difference) =>
        AxisPoint.Smoothness == Smoothness.Analytic ? Credit(difference) : difference;

    /// <summary>
    /// Bound of the error, per watt over c, that a point on the beam's axis brings where the irradiance is only a power p of
    /// the distance: a lattice rule of spacing h misjudges c ρ^p by less than c h^(p+2)/4 (for p = 1 by Poisson summation:
    /// 0.23 for equal spacings, 0.061 where one is much finer; a derivative loses one power), and a mirror doubles it.
    /// </summary>
    /// <param name="ringSpacingMetres">Distance of neighbouring rings at the point, m.</param>
    /// <param name="azimuthSpacingMetres">Distance of neighbouring azimuths on the ring through the point, m.</param>
    public double PointError(double ringSpacingMetres, double azimuthSpacingMetres)
    {
        double power = AxisPoint.Power + (OfSlope ? 1 : 2);
        return AxisPoint.Coefficient
            * Math.Pow(BeamScale, -AxisPoint.Power)
            * (0.5 * Math.Pow(ringSpacingMetres, power) + 0.2 * Math.Pow(azimuthSpacingMetres, power));
    }
}
