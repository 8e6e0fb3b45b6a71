using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>Fundamental Gaussian profile I = 2P/(π w²) exp(−2 ρ²/w²), w the 1/e² radius of irradiance.</summary>
/// <remarks>
/// Source: Lasers (University Science Books, 1986), chapter 17; widths after ISO 11146-1:2021. The default value has no
/// width and must not be used.
/// </remarks>
public readonly record struct GaussianProfile : IBeamProfile
{
    private readonly double _exponent;
    private readonly double _peak;

    /// <summary>Builds the profile.</summary>
    /// <param name="waistMetres">1/e² radius of irradiance, m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The waist is not finite and positive.</exception>
    public GaussianProfile(double waistMetres)
    {
        WaistMetres = Require.Positive(waistMetres);
        _exponent = -2 / (waistMetres * waistMetres);
        _peak = 2 / (Math.PI * waistMetres * waistMetres);
    }

    /// <summary>1/e² radius of irradiance, m.</summary>
    public double WaistMetres { get; }

    /// <inheritdoc/>
    public string Kind => "gaussian";

    /// <inheritdoc/>
    public bool IsAxisymmetric => true;

    /// <inheritdoc/>
    public double FeatureLengthMetres => WaistMetres;

    /// <inheritdoc/>
    public AxisPoint AxisPoint => AxisPoint.None;

    /// <inheritdoc/>
    public double ExtentMetres => 2.63 * WaistMetres;

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T> => T.Constant(_peak) * T.Exp(T.Constant(_exponent) * T.MultiplyAdd(x, x, y * y));

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres) =>
        ShareWithin(_exponent * Require.NotNegative(radiusMetres) * radiusMetres);

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    // 1 − e^x for x ≤ 0 without cancellation near zero: −2 e^(x/2) sinh(x/2).
    private static double ShareWithin(double x) => x < -40 ? 1 : -2 * Math.Exp(0.5 * x) * Math.Sinh(0.5 * x);
}
