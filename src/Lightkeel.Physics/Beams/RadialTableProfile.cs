using System.Runtime.CompilerServices;
using Lightkeel.Numerics;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>A measured axisymmetric profile: relative irradiance against radius, interpolated smoothly and never negative.</summary>
/// <remarks>
/// Between points a shape-preserving cubic (see <see cref="PiecewiseCubic"/>), flat at the axis. A table that does not end
/// at zero is brought there over one more interval of its last spacing; beyond that the irradiance is zero. Normalised to
/// unit power by exact integration of the cubic pieces.
/// </remarks>
public readonly record struct RadialTableProfile : IBeamProfile
{
    private readonly PiecewiseCubic _curve;
    private readonly double _scale;

    /// <summary>Builds the profile.</summary>
    /// <param name="radiiMetres">Radii, m, at least two, the first ≥ 0, strictly increasing.</param>
    /// <param name="relativeIrradiance">Irradiance at those radii in any unit, ≥ 0, not all zero.</param>
    /// <exception cref="ArgumentException">The table is too short, unsorted, negative, not finite or dark.</exception>
    public RadialTableProfile(ReadOnlySpan<double> radiiMetres, ReadOnlySpan<double> relativeIrradiance)
    {
        (double[] radii, double[] values) = Complete(radiiMetres, relativeIrradiance);
        _curve = new(radii, values, startSlope: 0, endSlope: 0);
        _scale = 1;
        double power = PowerWithin(radii[^1]);
        if (!(power > 0) || !double.IsFinite(power))
        {
            throw new ArgumentException(
                "The table carries no power: at least one irradiance must be above zero.",
                nameof(relativeIrradiance)
            );
        }
        _scale = 1 / power;
        double spacing = double.PositiveInfinity;
        for (int i = 1; i < radii.Length; i++)
        {
            spacing = Math.Min(spacing, radii[i] - radii[i - 1]);
        }
        FeatureLengthMetres = Math.Max(spacing, radii[^1] / 50);
        ExtentMetres = radii[^1];
    }

    /// <summary>The radii of the table, completed at the axis and at the dark end, m.</summary>
    public IReadOnlyList<double> RadiiMetres => [.. _curve.Knots];

    /// <inheritdoc/>
    public string Kind => "radial-table";

    /// <inheritdoc/>
    public bool IsAxisymmetric => true;

    /// <inheritdoc/>
    public double FeatureLengthMetres { get; }

    /// <inheritdoc/>
    public AxisPoint AxisPoint => AxisPoint.Rough;

    /// <inheritdoc/>
    public double ExtentMetres { get; }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T> => T.Constant(_scale) * T.Interpolate(_curve, T.Sqrt(T.MultiplyAdd(x, x, y * y)));

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres) =>
        Math.Min(1, PowerWithin(Math.Min(Require.NotNegative(radiusMetres), ExtentMetres)));

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    // 2π ∫₀^a ρ (c0 + c1 t + c2 t² + c3 t³) dρ with ρ = knot + t, piece by piece.
    private double PowerWithin(double a)
    {
        double sum = 0;
        ReadOnlySpan<double> knots = _curve.Knots;
        for (int i = 0; i < knots.Length - 1 && knots[i] < a; i++)
        {
            (double c0, double c1, double c2, double c3) = _curve.Piece(i);
            double h = Math.Min(a, knots[i + 1]) - knots[i];
            double r = knots[i];
            sum +=
                h * (r * c0 + h * ((c0 + r * c1) / 2 + h * ((c1 + r * c2) / 3 + h * ((c2 + r * c3) / 4 + h * c3 / 5))));
        }
        return 2 * Math.PI * _scale * sum;
    }

    private static (double[] Radii, double[] Values) Complete(ReadOnlySpan<double> radii, ReadOnlySpan<double> values)
    {
        if (radii.Length < 2 || radii.Length != values.Length)
        {
            throw new ArgumentException(
                "A radial table needs at least two points and as many irradiances as radii.",
                nameof(radii)
            );
        }
        if (radii[0] < 0)
        {
            throw new ArgumentException("Radii start at zero or above.", nameof(radii));
        }
        List<double> r = [.. radii];
        List<double> v = [.. values];
        if (v.Exists(value => !(value >= 0)))
        {
            throw new ArgumentException("Irradiance is never negative.", nameof(values));
        }
        if (r[0] > 0)
        {
            r.Insert(0, 0);
            v.Insert(0, v[0]);
        }
        if (v[^1] > 0)
        {
            r.Add(2 * r[^1] - r[^2]);
            v.Add(0);
        }
        return ([.. r], [.. v]);
    }
}
