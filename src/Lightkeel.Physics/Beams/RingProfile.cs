using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Scalars;
using MathNet.Numerics;

namespace Lightkeel.Physics.Beams;

/// <summary>Ring profile I = I₀ exp(−2 (ρ − r₀)²/s²): ring radius r₀, 1/e² half-width s.</summary>
/// <remarks>
/// Normalisation in closed form: ∫ I dA = 2π I₀ [ (s²/4) e^(−2r₀²/s²) + r₀ s √(π/8) (1 + erf(√2 r₀/s)) ]. The profile has a
/// cone point on the axis of relative height e^(−2r₀²/s²). The default value has no width and must not be used.
/// </remarks>
public readonly record struct RingProfile : IBeamProfile
{
    private readonly double _exponent;
    private readonly double _peak;

    /// <summary>Builds the profile.</summary>
    /// <param name="radiusMetres">Radius of the ring's crest, m, ≥ 0.</param>
    /// <param name="widthMetres">1/e² half-width of the ring, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The width is not positive, or the radius negative.</exception>
    public RingProfile(double radiusMetres, double widthMetres)
    {
        RadiusMetres = Require.NotNegative(radiusMetres);
        WidthMetres = Require.Positive(widthMetres);
        _exponent = -2 / (widthMetres * widthMetres);
        _peak = 1 / (2 * Math.PI * RadialMoment(double.PositiveInfinity));
    }

    /// <summary>Radius of the ring's crest, m.</summary>
    public double RadiusMetres { get; }

    /// <summary>1/e² half-width of the ring, m.</summary>
    public double WidthMetres { get; }

    /// <inheritdoc/>
    public string Kind => "ring";

    /// <inheritdoc/>
    public bool IsAxisymmetric => true;

    /// <inheritdoc/>
    public double FeatureLengthMetres => WidthMetres;

    /// <inheritdoc/>
    public AxisPoint AxisPoint =>
        RadiusMetres == 0
            ? AxisPoint.None
            : new(
                Smoothness.PointOnAxis,
                -2 * _exponent * RadiusMetres * _peak * Math.Exp(_exponent * RadiusMetres * RadiusMetres),
                1
            );

    /// <inheritdoc/>
    public double ExtentMetres => RadiusMetres + 2.63 * WidthMetres;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T>
    {
        T fromCrest = T.Sqrt(T.MultiplyAdd(x, x, y * y)) - T.Constant(RadiusMetres);
        return T.Constant(_peak) * T.Exp(T.Constant(_exponent) * (fromCrest * fromCrest));
    }

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres) =>
        2 * Math.PI * _peak * RadialMoment(Require.NotNegative(radiusMetres));

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    // ∫₀^a ρ exp(−2 (ρ − r₀)²/s²) dρ, split at the crest: ρ = (ρ − r₀) + r₀.
    private double RadialMoment(double a)
    {
        double s = WidthMetres;
        double inner = RadiusMetres / s * Math.Sqrt(2);
        double outer = (a - RadiusMetres) / s * Math.Sqrt(2);
        double shell = Math.Exp(-inner * inner) - Math.Exp(-outer * outer);
        double erf = (double.IsPositiveInfinity(a) ? 1 : SpecialFunctions.Erf(outer)) + SpecialFunctions.Erf(inner);
        return s * s / 4 * shell + RadiusMetres * s * Math.Sqrt(Math.PI / 8) * erf;
    }
}
