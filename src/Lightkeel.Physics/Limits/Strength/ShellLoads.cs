using Lightkeel.Numerics;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>Where the film hands its load over to the rest of the craft.</summary>
public enum ShellHold
{
    /// <summary>At its inner end: the vertex, the pole or the inner rim.</summary>
    Inner,

    /// <summary>At its outer rim, as a parachute does.</summary>
    Rim,
}

/// <summary>Loads on a thin film of revolution in the craft's own frame: light, inertia, spin, inner pressure.</summary>
public sealed record ShellLoads
{
    /// <summary>The light on the film; the same all around its axis.</summary>
    public required SurfaceLighting Lighting { get; init; }

    /// <summary>Mass per area, kg/m².</summary>
    public required double ArealDensityKilogramsPerSquareMetre { get; init; }

    /// <summary>Proper acceleration of the craft along the light, m/s².</summary>
    public required double AccelerationMetresPerSecondSquared { get; init; }

    /// <summary>Spin about the axis, rad/s.</summary>
    public double SpinRadiansPerSecond { get; init; }

    /// <summary>Inner over outer pressure of a closed sphere, Pa.</summary>
    public double PressurePascals { get; init; }

    /// <summary>Where the film is held.</summary>
    public ShellHold Hold { get; init; } = ShellHold.Inner;

    /// <summary>Load per area in radial and axial parts of the surface's own frame, Pa.</summary>
    /// <remarks>The force law of light as in <see cref="OpticalCoefficients"/>; the inertia of the film; spin; inner pressure along the front normal.</remarks>
    internal (double Radial, double Axial) At(in MeridianPoint m)
    {
        double side = Lighting.IsFrontLit ? 1 : -1;
        double mu = -m.NormalAxial;
        OpticalCoefficients o = Lighting.SharesAt(mu);
        double flux = Lighting.LightAt(m, 0) / Illumination.LightSpeed;
        double alongNormal = -(2 * mu * o.Specular + 2.0 / 3 * (o.Diffuse + o.Absorbed * o.ThermalAsymmetry));
        double radial = flux * alongNormal * side * m.NormalRadial;
        double axial = flux * ((1 - o.Passed - o.Specular) * side + alongNormal * side * m.NormalAxial);
        radial += ArealDensityKilogramsPerSquareMetre * SpinRadiansPerSecond * SpinRadiansPerSecond * m.RadiusMetres;
        axial -= ArealDensityKilogramsPerSquareMetre * AccelerationMetresPerSecondSquared * side;
        return (radial + PressurePascals * m.NormalRadial, axial + PressurePascals * m.NormalAxial);
    }
}
