using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Scalars;
using MathNet.Numerics;

namespace Lightkeel.Physics.Beams;

/// <summary>Super-Gaussian profile I = I₀ exp(−2 (ρ/w)ⁿ): n = 2 is the Gaussian, large n a top hat.</summary>
/// <remarks>
/// Normalisation P/(I₀ w²) = 2π Γ(2/n) / (n 2^(2/n)). Cf. Optical and Quantum Electronics 24, S1071 (1992). The default
/// value has no width and must not be used.
/// </remarks>
public readonly record struct SuperGaussianProfile : IBeamProfile
{
    private readonly double _peak;
    private readonly double _inverseWaistSquared;
    private readonly int _wholeHalfOrder;

    /// <summary>Builds the profile.</summary>
    /// <param name="waistMetres">Radius at which the irradiance is 1/e² of its peak, m.</param>
    /// <param name="order">Exponent n, 1 … 200.</param>
    /// <exception cref="ArgumentOutOfRangeException">The waist is not positive, or the order outside its range.</exception>
    public SuperGaussianProfile(double waistMetres, double order)
    {
        WaistMetres = Require.Positive(waistMetres);
        Order = Require.Between(order, 1, 200);
        double power = Math.Pow(2, 2 / order);
        _peak = order * power / (2 * Math.PI * SpecialFunctions.Gamma(2 / order) * waistMetres * waistMetres);
        _inverseWaistSquared = 1 / (waistMetres * waistMetres);
        // Even whole orders are integer powers of ρ², smooth at the axis and free of the logarithm.
        _wholeHalfOrder = order == Math.Floor(order) && order % 2 == 0 ? (int)(order / 2) : 0;
    }

    /// <summary>Radius at which the irradiance is 1/e² of its peak, m.</summary>
    public double WaistMetres { get; }

    /// <summary>Exponent n.</summary>
    public double Order { get; }

    /// <inheritdoc/>
    public string Kind => "super-gaussian";

    /// <inheritdoc/>
    public bool IsAxisymmetric => true;

    /// <inheritdoc/>
    public double FeatureLengthMetres => WaistMetres * 2 / Math.Max(2, Order);

    /// <inheritdoc/>
    public AxisPoint AxisPoint =>
        _wholeHalfOrder > 0
            ? AxisPoint.None
            : new(Smoothness.PointOnAxis, 2 * _peak * Math.Pow(WaistMetres, -Order), Order);

    /// <inheritdoc/>
    public double ExtentMetres => WaistMetres * Math.Pow(6.9, 1 / Order);

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T>
    {
        T t = T.Constant(_inverseWaistSquared) * T.MultiplyAdd(x, x, y * y);
        return T.Constant(_peak) * T.Exp(T.Constant(-2) * Power(t));
    }

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres)
    {
        double argument = 2 * Math.Pow(Require.NotNegative(radiusMetres) / WaistMetres, Order);
        return argument > 700 ? 1 : SpecialFunctions.GammaLowerRegularized(2 / Order, argument);
    }

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    private T Power<T>(T t)
        where T : struct, IScalar<T>
    {
        if (_wholeHalfOrder == 0)
        {
            return T.Exp(T.Constant(0.5 * Order) * T.Log(T.Max(t, T.Constant(1e-300))));
        }
        T result = T.Constant(1);
        T factor = t;
        for (int n = _wholeHalfOrder; ; factor *= factor)
        {
            if ((n & 1) == 1)
            {
                result *= factor;
            }
            n >>= 1;
            if (n == 0)
            {
                return result;
            }
        }
    }
}
