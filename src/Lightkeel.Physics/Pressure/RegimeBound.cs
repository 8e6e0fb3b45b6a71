using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>Sine and cosine of the angle between an axis and the light, both scaled by the light vector's length.</summary>
/// <param name="Across">Length times sine, ≥ 0.</param>
/// <param name="Along">Length times cosine.</param>
internal readonly record struct RegimeAngle(double Across, double Along)
{
    public static RegimeAngle Between(Vec3 axis, Vec3 light) =>
        new(Vec3.Cross(axis, light).Length, Vec3.Dot(axis, light));

    /// <summary>The angle, rad.</summary>
    public double Radians => Math.Atan2(Across, Along);

    /// <summary>The same light seen from the other side of the surface.</summary>
    public RegimeAngle Reversed => new(Across, -Along);
}

/// <summary>An upper bound of an angle between 0 and π/2, compared without inverse functions.</summary>
/// <param name="Sine">Sine of the bound.</param>
/// <param name="Cosine">Cosine of the bound.</param>
/// <param name="Exists">False for a bound that nothing meets.</param>
internal readonly record struct RegimeBound(double Sine, double Cosine, bool Exists)
{
    public static RegimeBound Of(double radians) => new(Math.Sin(radians), Math.Cos(radians), radians >= 0);

    /// <summary>Sine of (angle − bound) times the light vector's length: positive beyond the bound.</summary>
    public double Excess(RegimeAngle angle) => angle.Across * Cosine - angle.Along * Sine;

    /// <summary>True up to the bound and a rounding of 1e-9 rad beyond it.</summary>
    public bool Holds(RegimeAngle angle, double length) =>
        Exists
        && angle.Along >= -RegimeOfSurface.EdgeRadians * length
        && Excess(angle) <= RegimeOfSurface.EdgeRadians * length;
}
