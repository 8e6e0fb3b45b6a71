using Lightkeel.Numerics;

namespace Lightkeel.Physics.Optics;

/// <summary>Constant optical response of a surface element: what becomes of each unit of intercepted power.</summary>
/// <remarks>
/// With specular share Rs, diffuse (Lambert) share Rd, absorbed share A and passed share Ts (sum 1), emissivities ε of
/// the lit and the far side, light direction b, unit normal n of the lit side and μ = −n·b, the force is
/// dF = (I μ dA / c) [ (1 − Ts) b − Rs (b + 2 μ n) − (2/3) Rd n − (2/3) A e n ], e = (ε_lit − ε_back)/(ε_lit + ε_back):
/// momentum of the incoming light, less that of the reflected light (mirror direction b + 2 μ n, Lambert mean 2/3 n),
/// less that of the heat radiated by both Lambert sides at one temperature.
/// Source: the optical force model of Solar Sailing (Springer, 1999), chapter 2, doi:10.1007/978-1-4471-3992-8, extended by
/// the passed share. The default value absorbs nothing and passes everything (a perfectly clear film).
/// </remarks>
public readonly record struct OpticalCoefficients
{
    /// <summary>Builds the response.</summary>
    /// <param name="specular">Share reflected as by a mirror, 0 … 1.</param>
    /// <param name="diffuse">Share scattered back by Lambert's law, 0 … 1.</param>
    /// <param name="absorbed">Share absorbed, 0 … 1; what is left of 1 passes straight through.</param>
    /// <param name="emissivityLit">Hemispherical emissivity of the lit side, 0 … 1.</param>
    /// <param name="emissivityBack">Hemispherical emissivity of the other side, 0 … 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share is outside 0 … 1, or they sum to more than 1.</exception>
    public OpticalCoefficients(
        double specular,
        double diffuse,
        double absorbed,
        double emissivityLit = 0,
        double emissivityBack = 0
    )
    {
        Specular = Require.Between(specular, 0, 1);
        Diffuse = Require.Between(diffuse, 0, 1);
        Absorbed = Require.Between(absorbed, 0, 1);
        double passed = 1 - specular - diffuse - absorbed;
        // Shares that sum to one in decimal may exceed it by a rounding.
        Passed = Math.Max(0, Require.Between(passed, -1e-12, 1));
        EmissivityLit = Require.Between(emissivityLit, 0, 1);
        EmissivityBack = Require.Between(emissivityBack, 0, 1);
    }

    /// <summary>A perfect mirror on both sides.</summary>
    public static OpticalCoefficients Mirror => new(1, 0, 0);

    /// <summary>Share reflected as by a mirror.</summary>
    public double Specular { get; }

    /// <summary>Share scattered back by Lambert's law.</summary>
    public double Diffuse { get; }

    /// <summary>Share absorbed.</summary>
    public double Absorbed { get; }

    /// <summary>Share that passes straight through.</summary>
    public double Passed { get; }

    /// <summary>Emissivity of the lit side.</summary>
    public double EmissivityLit { get; }

    /// <summary>Emissivity of the other side.</summary>
    public double EmissivityBack { get; }

    /// <summary>
    /// Net share of the radiated heat's momentum that leaves by the lit side, e in −1 … 1; zero when both sides are
    /// equal or neither emits (then the heat is taken to leave evenly).
    /// </summary>
    public double ThermalAsymmetry =>
        EmissivityLit + EmissivityBack > 0 ? (EmissivityLit - EmissivityBack) / (EmissivityLit + EmissivityBack) : 0;

    /// <summary>The same film lit from its other side.</summary>
    public OpticalCoefficients Reversed => new(Specular, Diffuse, Absorbed, EmissivityBack, EmissivityLit);
}
