using Lightkeel.Numerics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>Where a film of revolution is stressed most, in a stated sense, outside its mount.</summary>
/// <remarks>
/// Stations in the middle of small intervals, the edge of the mount and the free ends; the best of them is followed between its
/// neighbours until its place is known to 1e-8 of their distance.
/// </remarks>
public sealed class MembraneExtremes
{
    private const double Golden = 0.6180339887498949;
    private readonly MembraneForces _forces;
    private readonly List<(int Piece, double Parameter, ShellStation At)> _stations = [];

    /// <summary>Prepares the stations.</summary>
    /// <param name="loads">The loads; even light on a curved film.</param>
    /// <param name="mountMetres">Radius within which the film is left out, m, ≥ 0.</param>
    public MembraneExtremes(ShellLoads loads, double mountMetres)
    {
        ArgumentNullException.ThrowIfNull(loads);
        Require.NotNegative(mountMetres);
        _forces = new(loads);
        SurfaceOfRevolution shape = loads.Lighting.Surface.Shape;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            List<double> places = [start];
            for (int i = 0; i < MembraneForces.Intervals; i++)
            {
                places.Add(start + (i + 0.5) * (end - start) / MembraneForces.Intervals);
            }
            places.Add(end);
            for (int i = 0; i + 1 < places.Count; i++)
            {
                Add(shape, p, places[i], mountMetres);
                if (IsOutside(shape, p, places[i], mountMetres) != IsOutside(shape, p, places[i + 1], mountMetres))
                {
                    Add(shape, p, Edge(shape, p, places[i], places[i + 1], mountMetres), 0);
                }
            }
            Add(shape, p, end, mountMetres);
        }
    }

    /// <summary>True when the whole film lies within the mount.</summary>
    public bool IsEmpty => _stations.Count == 0;

    /// <summary>True when the film is pressed somewhere.</summary>
    public bool IsPressed => _stations.Exists(s => s.At.Least < 0);

    /// <summary>The station nearest to the inner end: the edge of the mount, where there is one.</summary>
    public ShellStation Innermost => _stations[0].At;

    /// <summary>The station at which a measure is greatest.</summary>
    /// <param name="measure">The measure.</param>
    public ShellStation Greatest(Func<ShellStation, double> measure)
    {
        ArgumentNullException.ThrowIfNull(measure);
        int best = 0;
        for (int i = 1; i < _stations.Count; i++)
        {
            best = measure(_stations[i].At) > measure(_stations[best].At) ? i : best;
        }
        (int piece, double parameter, ShellStation at) = _stations[best];
        double low = Neighbour(best, -1)?.Parameter ?? parameter;
        double high = Neighbour(best, 1)?.Parameter ?? parameter;
        ShellStation refined = Refined(measure, piece, low, high);
        return measure(refined) > measure(at) ? refined : at;
    }

    private (int Piece, double Parameter, ShellStation At)? Neighbour(int index, int step)
    {
        int other = index + step;
        return other >= 0 && other < _stations.Count && _stations[other].Piece == _stations[index].Piece
            ? _stations[other]
            : null;
    }

    private ShellStation Refined(Func<ShellStation, double> measure, int piece, double low, double high)
    {
        double least = 1e-8 * (high - low);
        while (high - low > least)
        {
            double left = high - Golden * (high - low);
            double right = low + Golden * (high - low);
            bool isLeft = measure(_forces.At(piece, left)) >= measure(_forces.At(piece, right));
            (low, high) = isLeft ? (low, right) : (left, high);
        }
        return _forces.At(piece, 0.5 * (low + high));
    }

    // On the axis itself the formulas divide nothing by nothing.
    private void Add(SurfaceOfRevolution shape, int piece, double parameter, double mount)
    {
        double radius = shape.At(piece, parameter).RadiusMetres;
        if (radius >= mount && radius > 1e-6 * shape.MaximumRadiusMetres)
        {
            _stations.Add((piece, parameter, _forces.At(piece, parameter)));
        }
    }

    private static bool IsOutside(SurfaceOfRevolution shape, int piece, double parameter, double mount) =>
        shape.At(piece, parameter).RadiusMetres >= mount;

    private static double Edge(SurfaceOfRevolution shape, int piece, double from, double to, double mount)
    {
        bool outside = IsOutside(shape, piece, from, mount);
        (double low, double high) = (from, to);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = IsOutside(shape, piece, middle, mount) == outside ? (middle, high) : (low, middle);
        }
        return outside ? low : high;
    }
}
