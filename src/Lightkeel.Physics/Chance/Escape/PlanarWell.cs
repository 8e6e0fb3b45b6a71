using Lightkeel.Numerics;
using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>A round potential well in the plane across the beam, from its middle to the distance at which a craft is lost.</summary>
/// <remarks>
/// Everything is held as a function of the square of the distance, u = r², in which a round potential is smooth also at its
/// middle. Immutable; safe to share between threads.
/// </remarks>
public sealed class PlanarWell
{
    private readonly PiecewiseChebyshev _slope;
    private readonly ChebyshevSeries[] _curvature;
    private readonly PiecewiseChebyshev? _widthSlope;

    private PlanarWell(double mass, double edge, double outer, PiecewiseChebyshev slope, PiecewiseChebyshev? widthSlope)
    {
        (MassKilograms, EdgeMetres, OuterMetres, _slope, _widthSlope) = (mass, edge, outer, slope, widthSlope);
        _curvature = [.. slope.Pieces.Select(p => p.Derivative())];
        DepthJoules = Potential(edge * edge);
        FrequencyHertz = Math.Sqrt(2 * slope.Value(0) / mass) / (2 * Math.PI);
    }

    /// <summary>Mass of the craft, kg.</summary>
    public double MassKilograms { get; }

    /// <summary>Distance at which the craft counts as lost: the rim of the well, or a nearer limit, m.</summary>
    public double EdgeMetres { get; }

    /// <summary>Distance to which the pull is known, m: the edge, or beyond it where the light pushes away.</summary>
    public double OuterMetres { get; }

    /// <summary>Potential at the edge over that of the middle, J.</summary>
    public double DepthJoules { get; }

    /// <summary>Frequency of small swings, Hz.</summary>
    public double FrequencyHertz { get; }

    /// <summary>True when the well's dependence on the width of the beam is known.</summary>
    public bool KnowsWidth => _widthSlope is not null;

    /// <summary>Builds a well.</summary>
    /// <param name="massKilograms">Mass of the craft, kg.</param>
    /// <param name="edgeMetres">
    /// Distance at which it counts as lost, m: at or inside the rim, the first place where the pull vanishes.
    /// </param>
    /// <param name="pull">Pull towards the middle at a distance, N: above zero inside the edge, and odd in the distance.</param>
    /// <param name="widthPull">Change of the pull for a relative change of the beam's width, N; null where not known.</param>
    /// <param name="tolerance">Error of the fit, relative to the largest pull per distance.</param>
    /// <param name="outerMetres">Distance to which the pull may be asked, m, at the edge or beyond; null for the edge.</param>
    /// <exception cref="ArgumentException">A number is out of range, or the middle does not hold the craft.</exception>
    public static PlanarWell Of(
        double massKilograms,
        double edgeMetres,
        Func<double, double> pull,
        Func<double, double>? widthPull = null,
        double tolerance = 1e-8,
        double? outerMetres = null
    )
    {
        ArgumentNullException.ThrowIfNull(pull);
        Require.Positive(massKilograms);
        Require.Positive(edgeMetres);
        double outer = Math.Max(edgeMetres, outerMetres ?? edgeMetres);
        double end = outer * outer;
        double scale = pull(0.5 * edgeMetres) / edgeMetres;
        PiecewiseChebyshev Slope(Func<double, double> force) =>
            PiecewiseChebyshev.Fit(u => 0.5 * force(Math.Sqrt(u)) / Math.Sqrt(u), 0, end, tolerance * Math.Abs(scale));
        // The fit also asks at the ends, where the pull per distance is a limit.
        double least = 1e-3 * edgeMetres;
        Func<double, double> Guarded(Func<double, double> force) =>
            r => r > least ? force(r) : force(least) * r / least;
        PiecewiseChebyshev slope = Slope(r => r > 0 ? Guarded(pull)(r) : 0);
        return slope.Value(0) > 0 && slope.Value(0.5 * edgeMetres * edgeMetres) > 0
            ? new(massKilograms, edgeMetres, outer, slope, widthPull is null ? null : Slope(Guarded(widthPull)))
            : throw new ArgumentException("The middle of the well does not hold the craft.", nameof(pull));
    }

    /// <summary>Potential over that of the middle at a squared distance, J.</summary>
    /// <param name="square">Squared distance, m².</param>
    public double Potential(double square) => _slope.IntegralTo(square);

    /// <summary>Derivative of the potential by the squared distance, J/m²: the pull is 2 r times it.</summary>
    /// <param name="square">Squared distance, m².</param>
    public double Slope(double square) => _slope.Value(square);

    /// <summary>Second derivative of the potential by the squared distance, J/m⁴.</summary>
    /// <param name="square">Squared distance, m².</param>
    public double Curvature(double square)
    {
        foreach (ChebyshevSeries piece in _curvature)
        {
            if (square <= piece.End)
            {
                return piece.Value(square);
            }
        }
        return _curvature[^1].Value(square);
    }

    /// <summary>Change of the potential for a relative change of the beam's width, J; zero where not known.</summary>
    /// <param name="square">Squared distance, m².</param>
    public double WidthPotential(double square) => _widthSlope?.IntegralTo(square) ?? 0;

    /// <summary>Derivative of <see cref="WidthPotential"/> by the squared distance, J/m²; zero where not known.</summary>
    /// <param name="square">Squared distance, m².</param>
    public double WidthSlope(double square) => _widthSlope?.Value(square) ?? 0;
}
