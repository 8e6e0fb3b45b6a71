using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using MathNet.Numerics;

namespace Lightkeel.Physics.Beams;

/// <summary>Laguerre-Gauss mode (p, l), irradiance only: 2 p!/(π (p+|l|)! w²) t^|l| [L_p^|l|(t)]² e^(−t), t = 2ρ²/w².</summary>
/// <remarks>Source: Lasers (University Science Books, 1986), §16.4. The default value has no width and must not be used.</remarks>
public readonly record struct LaguerreGaussProfile : IBeamProfile
{
    /// <summary>Largest radial or azimuthal order accepted.</summary>
    public const int LargestOrder = 30;

    private readonly double _peak;
    private readonly double _scale;
    private readonly int _l;

    /// <summary>Builds the profile.</summary>
    /// <param name="waistMetres">1/e² radius of the fundamental mode of the same family, m.</param>
    /// <param name="radialOrder">Radial order p, 0 … 30.</param>
    /// <param name="azimuthalOrder">Azimuthal order l, −30 … 30; only its size matters here.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public LaguerreGaussProfile(double waistMetres, int radialOrder, int azimuthalOrder)
    {
        WaistMetres = Require.Positive(waistMetres);
        RadialOrder = (int)Require.Between(radialOrder, 0, LargestOrder);
        AzimuthalOrder = (int)Require.Between(azimuthalOrder, -LargestOrder, LargestOrder);
        _l = Math.Abs(azimuthalOrder);
        double ratio = Math.Exp(
            SpecialFunctions.FactorialLn(RadialOrder) - SpecialFunctions.FactorialLn(RadialOrder + _l)
        );
        _peak = 2 * ratio / (Math.PI * waistMetres * waistMetres);
        _scale = 2 / (waistMetres * waistMetres);
    }

    /// <summary>1/e² radius of the fundamental mode of the same family, m.</summary>
    public double WaistMetres { get; }

    /// <summary>Radial order p.</summary>
    public int RadialOrder { get; }

    /// <summary>Azimuthal order l.</summary>
    public int AzimuthalOrder { get; }

    /// <inheritdoc/>
    public string Kind => "laguerre-gauss";

    /// <inheritdoc/>
    public bool IsAxisymmetric => true;

    /// <inheritdoc/>
    public double FeatureLengthMetres => WaistMetres / Math.Sqrt(2 * RadialOrder + _l + 1);

    /// <inheritdoc/>
    public AxisPoint AxisPoint => AxisPoint.None;

    /// <inheritdoc/>
    public double ExtentMetres => WaistMetres * (1.7 + Math.Sqrt(2 * RadialOrder + _l + 1));

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T>
    {
        T t = T.Constant(_scale) * T.MultiplyAdd(x, x, y * y);
        T amplitude = Laguerre(t);
        T value = T.Constant(_peak) * T.Exp(-t) * (amplitude * amplitude);
        for (int k = 0; k < _l; k++)
        {
            value *= t;
        }
        return value;
    }

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres)
    {
        // Share = p!/(p+l)! ∫₀^t s^l L² e^(−s) ds: a polynomial times e^(−s), by Gauss-Legendre on quarter-width panels.
        double end = Math.Min(_scale * Require.NotNegative(radiusMetres) * radiusMetres, 4.0 * (RadialOrder + _l) + 60);
        double ratio = _peak * Math.PI * WaistMetres * WaistMetres / 2;
        LaguerreGaussProfile self = this;
        int panels = Math.Max(1, (int)Math.Ceiling(end * 2));
        double sum = 0;
        for (int i = 0; i < panels; i++)
        {
            sum += GaussLegendre
                .Order(20)
                .Integrate(
                    s => Math.Pow(s, self._l) * Math.Pow(self.Laguerre(new F64(s)).Value, 2) * Math.Exp(-s),
                    end * i / panels,
                    end * (i + 1) / panels
                );
        }
        return Math.Min(1, ratio * sum);
    }

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    // Three-term recurrence of the generalised Laguerre polynomials (DLMF 18.9.2), stable upward.
    private T Laguerre<T>(T t)
        where T : struct, IScalar<T>
    {
        T before = T.Constant(0);
        T current = T.Constant(1);
        for (int k = 0; k < RadialOrder; k++)
        {
            T next = (1.0 / (k + 1)) * ((T.Constant(2 * k + 1 + _l) - t) * current - T.Constant(k + _l) * before);
            (before, current) = (current, next);
        }
        return current;
    }
}
