using System.Runtime.CompilerServices;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>One part of a composed beam: a profile with its share of the power, displaced from the axis.</summary>
/// <param name="Profile">Shape of the part; not itself a sum.</param>
/// <param name="Share">Share of the total power; may be negative where another part covers it.</param>
/// <param name="OffsetXMetres">Displacement along beam x, m.</param>
/// <param name="OffsetYMetres">Displacement along beam y, m.</param>
public sealed record BeamPart(IBeamProfile Profile, double Share, double OffsetXMetres, double OffsetYMetres);

/// <summary>A beam composed of displaced parts whose shares sum to one and whose irradiance is nowhere negative.</summary>
/// <remarks>The default value has no parts and must not be used.</remarks>
public readonly struct SumProfile : IBeamProfile, IEquatable<SumProfile>
{
    private readonly PartKernel[] _kernels;

    /// <summary>Builds the beam.</summary>
    /// <param name="parts">One part or more; shares sum to 1 within 1e-9.</param>
    /// <exception cref="ArgumentException">
    /// There are no parts, one is itself a sum or is not finite, the shares do not sum to one, or the irradiance is negative somewhere.
    /// </exception>
    public SumProfile(IReadOnlyList<BeamPart> parts)
    {
        if (parts.Count == 0)
        {
            throw new ArgumentException("A composed beam needs at least one part.", nameof(parts));
        }
        double sum = parts.Sum(p => p.Share);
        if (!(Math.Abs(sum - 1) <= 1e-9))
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The power shares of the parts sum to {sum:R}; they must sum to 1."),
                nameof(parts)
            );
        }
        Parts = [.. parts];
        _kernels = [.. parts.Select(p => new PartKernel(p))];
        FeatureLengthMetres = parts.Min(p => p.Profile.FeatureLengthMetres);
        ExtentMetres = parts.Max(p => double.Hypot(p.OffsetXMetres, p.OffsetYMetres) + p.Profile.ExtentMetres);
        IsAxisymmetric = parts.All(p => p.Profile.IsAxisymmetric && p is { OffsetXMetres: 0, OffsetYMetres: 0 });
        AxisPoint = Smoothest(parts);
        if (parts.Any(p => p.Share < 0))
        {
            NegativeIrradianceSearch.Refuse(this);
        }
    }

    /// <summary>The parts.</summary>
    public IReadOnlyList<BeamPart> Parts { get; }

    /// <inheritdoc/>
    public string Kind => "sum";

    /// <inheritdoc/>
    public bool IsAxisymmetric { get; }

    /// <inheritdoc/>
    public double FeatureLengthMetres { get; }

    /// <inheritdoc/>
    public AxisPoint AxisPoint { get; }

    /// <inheritdoc/>
    public double ExtentMetres { get; }

    /// <inheritdoc/>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T>
    {
        T sum = T.Constant(0);
        foreach (ref readonly PartKernel part in _kernels.AsSpan())
        {
            sum += part.Irradiance(x, y);
        }
        return sum;
    }

    /// <inheritdoc/>
    public double EncircledFraction(double radiusMetres)
    {
        double sum = 0;
        foreach (BeamPart part in Parts)
        {
            sum += part.Share * DisplacedEncircledPower.Fraction(part, radiusMetres);
        }
        return Math.Clamp(sum, 0, 1);
    }

    /// <inheritdoc/>
    public TResult Accept<TResult>(IBeamVisitor<TResult> visitor) => visitor.Visit(this);

    /// <inheritdoc/>
    public bool Equals(SumProfile other) => Parts.SequenceEqual(other.Parts);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => obj is SumProfile other && Equals(other);

    /// <inheritdoc/>
    public override int GetHashCode() => Parts.Aggregate(17, HashCode.Combine);

    /// <summary>Equality of parts.</summary>
    public static bool operator ==(SumProfile left, SumProfile right) => left.Equals(right);

    /// <summary>Difference in parts.</summary>
    public static bool operator !=(SumProfile left, SumProfile right) => !left.Equals(right);

    // Analytic parts may stand anywhere; one that is not smooth on its axis keeps that point only while undisplaced.
    private static AxisPoint Smoothest(IReadOnlyList<BeamPart> parts)
    {
        AxisPoint worst = AxisPoint.None;
        foreach (BeamPart part in parts)
        {
            AxisPoint own = part.Profile.AxisPoint;
            if (own.Smoothness != Smoothness.Analytic)
            {
                bool central =
                    own.Smoothness == Smoothness.PointOnAxis && part is { OffsetXMetres: 0, OffsetYMetres: 0 };
                if (!central)
                {
                    return AxisPoint.Rough;
                }
                worst = new(
                    Smoothness.PointOnAxis,
                    worst.Coefficient + Math.Abs(part.Share) * own.Coefficient,
                    Math.Min(own.Power, worst.Smoothness == Smoothness.Analytic ? own.Power : worst.Power)
                );
            }
        }
        return worst;
    }

    // A closed union, so that the choice costs one predictable branch per vector of nodes and no virtual call.
    private readonly struct PartKernel
    {
        private readonly int _kind;
        private readonly double _share;
        private readonly double _x;
        private readonly double _y;
        private readonly GaussianProfile _gaussian;
        private readonly SuperGaussianProfile _superGaussian;
        private readonly RingProfile _ring;
        private readonly LaguerreGaussProfile _laguerreGauss;
        private readonly RadialTableProfile _table;

        public PartKernel(BeamPart part)
        {
            (_share, _x, _y) = (part.Share, part.OffsetXMetres, part.OffsetYMetres);
            if (!double.IsFinite(_share) || !double.IsFinite(_x) || !double.IsFinite(_y))
            {
                throw new ArgumentException("A part's share and offset must be finite.", nameof(part));
            }
            switch (part.Profile)
            {
                case GaussianProfile p:
                    (_kind, _gaussian) = (0, p);
                    break;
                case SuperGaussianProfile p:
                    (_kind, _superGaussian) = (1, p);
                    break;
                case RingProfile p:
                    (_kind, _ring) = (2, p);
                    break;
                case LaguerreGaussProfile p:
                    (_kind, _laguerreGauss) = (3, p);
                    break;
                case RadialTableProfile p:
                    (_kind, _table) = (4, p);
                    break;
                default:
                    throw new ArgumentException(
                        $"A part of a sum cannot itself be '{part.Profile.Kind}'.",
                        nameof(part)
                    );
            }
        }

        public T Irradiance<T>(T x, T y)
            where T : struct, IScalar<T>
        {
            T dx = x - T.Constant(_x);
            T dy = y - T.Constant(_y);
            T value = _kind switch
            {
                0 => _gaussian.UnitIrradiance(dx, dy),
                1 => _superGaussian.UnitIrradiance(dx, dy),
                2 => _ring.UnitIrradiance(dx, dy),
                3 => _laguerreGauss.UnitIrradiance(dx, dy),
                _ => _table.UnitIrradiance(dx, dy),
            };
            return T.Constant(_share) * value;
        }
    }
}
