namespace Lightkeel.Physics.Beams;

/// <summary>How smooth a profile is, which decides how its quadrature may be trusted.</summary>
public enum Smoothness
{
    /// <summary>Analytic over the whole plane.</summary>
    Analytic,

    /// <summary>Analytic but for the point on its axis, where it behaves as a power of the distance.</summary>
    PointOnAxis,

    /// <summary>Curvature jumps along lines, or points off the axis where it is not smooth.</summary>
    Rough,
}

/// <summary>What a profile does at its axis when it is not analytic there.</summary>
/// <param name="Smoothness">Kind of smoothness.</param>
/// <param name="Coefficient">Irradiance per watt behaves there as this times distance^power, besides analytic terms, 1/m^(2 + power).</param>
/// <param name="Power">The power of the distance.</param>
public readonly record struct AxisPoint(Smoothness Smoothness, double Coefficient, double Power)
{
    /// <summary>Analytic everywhere.</summary>
    public static AxisPoint None => new(Smoothness.Analytic, 0, 2);

    /// <summary>Not smooth along lines.</summary>
    public static AxisPoint Rough => new(Smoothness.Rough, 1, 2);
}
