using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>The orbits of a well on a mesh, with the lines of each: what the averaged equations of any noise are put together from.</summary>
/// <remarks>
/// Hat functions in s times Legendre polynomials in y, one orbit in the middle of each cell of s at Gauss-Legendre points of y.
/// Immutable; safe to share between threads.
/// </remarks>
internal sealed class EscapeMesh
{
    private const int MostDegrees = 6;
    private const int Forms = 8;

    // Orbits at the edge itself take for ever to turn where it is the top of a barrier; this near, what noise does to one swing no
    // longer changes.
    private const double BesideEdge = 0.997;
    private const int EdgeNodes = 256;
    private readonly Cell[] _cells;
    private readonly Cell[] _edge;
    private readonly double _step;

    private EscapeMesh(PlanarWell well, Cell[] cells, Cell[] edge, int count, int degrees)
    {
        (Well, _cells, _edge, Count, Degrees) = (well, cells, edge, count, degrees);
        _step = 1.0 / count;
        Mass = new(count + 1, degrees);
        Volume = new double[(count + 1) * degrees];
        foreach (Cell cell in cells)
        {
            AddMass(cell);
        }
    }

    /// <summary>The well.</summary>
    public PlanarWell Well { get; }

    /// <summary>Cells of s.</summary>
    public int Count { get; }

    /// <summary>Polynomials in y.</summary>
    public int Degrees { get; }

    /// <summary>The same orbits with fewer polynomials in y: shows what these are worth.</summary>
    public EscapeMesh Fewer(int degrees) => new(Well, _cells, _edge, Count, Math.Min(degrees, Degrees));

    /// <summary>Integrals of products of the basis over the orbits' volume.</summary>
    public BlockTridiagonal Mass { get; }

    /// <summary>Integrals of the basis over the orbits' volume.</summary>
    public double[] Volume { get; }

    /// <summary>Builds the mesh.</summary>
    /// <param name="well">The well.</param>
    /// <param name="count">Cells of s.</param>
    /// <param name="threads">Threads that may work at once.</param>
    public static EscapeMesh Build(PlanarWell well, int count, int threads)
    {
        OrbitPlane plane = new(well);
        // The momentum is odd in the root of y and the averages are even in it: the positive half of a rule in the root.
        GaussLegendre rule = GaussLegendre.Order(2 * Forms);
        double[] roots = [.. rule.Nodes.ToArray().Skip(Forms)];
        double[] forms = [.. roots.Select(x => x * x)];
        double[] weights = [.. rule.Weights.ToArray().Skip(Forms).Select((w, k) => 2 * roots[k] * w)];
        double[] limits = [.. forms.Select(plane.LimitSquare)];
        double[] slopes = [.. forms.Select(y => (plane.LimitSquare(y + 1e-5) - plane.LimitSquare(y - 1e-5)) / 2e-5)];
        double[][] polynomials = [.. forms.Select(Legendre)];
        double[][] derivatives = [.. forms.Select(LegendreDerivative)];
        Cell[] cells = new Cell[count * Forms];
        Parallel.For(
            0,
            count,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            () => new PlanarOrbit(),
            (i, _, orbit) =>
            {
                double share = (i + 0.5) / count;
                for (int k = 0; k < Forms; k++)
                {
                    OrbitPoint point = plane.Point(share, forms[k], limits[k], slopes[k]);
                    cells[i * Forms + k] = CellOf(well, orbit, point, i, NodesOf(point, share)) with
                    {
                        Weight = weights[k] / count,
                        Values = polynomials[k],
                        Slopes = derivatives[k],
                    };
                }
                return orbit;
            },
            _ => { }
        );
        PlanarOrbit beside = new();
        Cell[] edge =
        [
            .. forms.Select(
                (form, k) =>
                    CellOf(well, beside, plane.Point(BesideEdge, form, limits[k], slopes[k]), count, EdgeNodes) with
                    {
                        Weight = weights[k],
                        Values = polynomials[k],
                    }
            ),
        ];
        return new(well, cells, edge, count, MostDegrees);
    }

    /// <summary>The diffusion of a noise as a form over the basis.</summary>
    /// <param name="noise">The noise.</param>
    public BlockTridiagonal Stiffness(WellNoise noise)
    {
        BlockTridiagonal sum = new(Count + 1, Degrees);
        foreach (Cell cell in _cells)
        {
            if (cell.Volume > 0)
            {
                AddStiffness(sum, cell, OrbitDiffusion.Of(cell.Lines!, noise, Resolution));
            }
        }
        return sum;
    }

    /// <summary>
    /// For each form of orbit, by what one noise moves an orbit beside the edge across it in one swing, squared: the variance of the
    /// change of E − E(edge, L), times (∂L/∂y)².
    /// </summary>
    /// <param name="noise">The noise.</param>
    public double[] SwingVariances(WellNoise noise) =>
        [
            .. _edge.Select(cell =>
                cell.Volume > 0
                    ? 4 * Math.PI * cell.Volume * Across(cell.Point, OrbitDiffusion.Of(cell.Lines!, noise, Resolution))
                    : 0
            ),
        ];

    /// <summary>Adds the way out through the edge.</summary>
    /// <param name="sum">The diffusion; receives the edge.</param>
    /// <param name="conductances">Flow through the edge over the value there, for each form of orbit.</param>
    public void AddEdge(BlockTridiagonal sum, ReadOnlySpan<double> conductances)
    {
        for (int k = 0; k < _edge.Length; k++)
        {
            double weight = _edge[k].Weight * conductances[k];
            for (int a = 0; a < Degrees; a++)
            {
                for (int b = 0; b < Degrees; b++)
                {
                    sum.Diagonal[Count][a * Degrees + b] += weight * _edge[k].Values[a] * _edge[k].Values[b];
                }
            }
        }
    }

    // Half of the band over which a density is averaged, relative to the frequency.
    private double Resolution => 0.25 * _step;

    /// <summary>Values of the basis at a point of the plane.</summary>
    public double[] BasisAt(double share, double form)
    {
        double[] values = new double[(Count + 1) * Degrees];
        double place = share * Count;
        int i = Math.Min((int)place, Count - 1);
        double t = place - i;
        double[] p = Legendre(form);
        for (int m = 0; m < Degrees; m++)
        {
            values[i * Degrees + m] = (1 - t) * p[m];
            values[(i + 1) * Degrees + m] = t * p[m];
        }
        return values;
    }

    /// <summary>Value of coefficients of the basis at a point of the plane.</summary>
    public static double ValueAt(double[] coefficients, int count, int degrees, double share, double form)
    {
        double place = share * count;
        int i = Math.Min((int)place, count - 1);
        double t = place - i;
        double[] p = Legendre(form);
        double sum = 0;
        for (int m = 0; m < degrees; m++)
        {
            double next = coefficients[(i + 1) * degrees + m];
            sum += ((1 - t) * coefficients[i * degrees + m] + t * next) * p[m];
        }
        return sum;
    }

    /// <summary>The orbits in order of s, each with its volume of phase space, energy, frequencies and lines.</summary>
    public IEnumerable<(double Share, double Energy, double Volume, OrbitLines Lines)> Orbits =>
        _cells
            .Where(c => c.Volume > 0)
            .Select(c =>
                ((c.Row + 0.5) * _step, c.Point.Energy, c.Volume * Math.Abs(c.Point.Determinant) * c.Weight, c.Lines!)
            );

    private static int NodesOf(in OrbitPoint point, double share)
    {
        int nodes =
            share < 0.8 ? 32
            : share < 0.95 ? 64
            : share < 0.99 ? 128
            : 256;
        // An orbit through a narrow turn near the middle wants more nodes as well.
        return point.Inner < 0.05 * point.Outer ? Math.Max(nodes, 64) : nodes;
    }

    private static Cell CellOf(PlanarWell well, PlanarOrbit orbit, in OrbitPoint point, int row, int nodes)
    {
        if (!orbit.Prepare(well, point.Inner, point.Outer, nodes))
        {
            return new(row, point);
        }
        OrbitLines lines = new();
        OrbitDiffusion.Lines(well, orbit, lines);
        return new(row, point) { Volume = orbit.PeriodSeconds / (2 * Math.PI), Lines = lines };
    }

    private void AddMass(Cell cell)
    {
        double volume = cell.Weight * cell.Volume * Math.Abs(cell.Point.Determinant);
        for (int a = 0; a < Degrees; a++)
        {
            Volume[cell.Row * Degrees + a] += 0.5 * volume * cell.Values[a];
            Volume[(cell.Row + 1) * Degrees + a] += 0.5 * volume * cell.Values[a];
            for (int b = 0; b < Degrees; b++)
            {
                double entry = volume * cell.Values[a] * cell.Values[b];
                Place(Mass, cell.Row, a, b, entry / 3, entry / 6, entry / 3);
            }
        }
    }

    private void AddStiffness(BlockTridiagonal sum, Cell cell, in OrbitDiffusion d)
    {
        OrbitPoint p = cell.Point;
        double determinant = p.Determinant;
        double scale = cell.Weight * cell.Volume / Math.Abs(determinant);
        // (E, L) to (s, y): the inverse of ∂(E, L)/∂(s, y), its determinant taken out above.
        (double se, double sl) = (p.MomentumByForm, -p.EnergyByForm);
        (double ye, double yl) = (-p.MomentumByShare, p.EnergyByShare);
        double ss = scale * Across(p, d);
        double sy = scale * (d.Energy * se * ye + d.Mixed * (se * yl + sl * ye) + d.Momentum * sl * yl);
        double yy = scale * (d.Energy * ye * ye + 2 * d.Mixed * ye * yl + d.Momentum * yl * yl);
        double steep = ss / (_step * _step);
        double half = 0.5 * sy / _step;
        for (int a = 0; a < Degrees; a++)
        {
            for (int b = 0; b < Degrees; b++)
            {
                double pp = steep * cell.Values[a] * cell.Values[b];
                double pq = half * cell.Values[a] * cell.Slopes[b];
                double qp = half * cell.Slopes[a] * cell.Values[b];
                double qq = yy * cell.Slopes[a] * cell.Slopes[b];
                Place(sum, cell.Row, a, b, pp - pq - qp + qq / 3, -pp - pq + qp + qq / 6, pp + pq + qp + qq / 3);
            }
        }
    }

    // The diffusion across lines of equal s, times the square of ∂(E, L)/∂(s, y).
    private static double Across(in OrbitPoint p, in OrbitDiffusion d) =>
        d.Energy * p.MomentumByForm * p.MomentumByForm
        - 2 * d.Mixed * p.MomentumByForm * p.EnergyByForm
        + d.Momentum * p.EnergyByForm * p.EnergyByForm;

    // Entries of the hat that falls in a cell (its left node) and the one that rises: left-left, left-right, right-right.
    private void Place(BlockTridiagonal sum, int row, int a, int b, double ll, double lr, double rr)
    {
        int at = a * Degrees + b;
        sum.Diagonal[row][at] += ll;
        sum.Upper[row][at] += lr;
        sum.Diagonal[row + 1][at] += rr;
    }

    private static double[] Legendre(double form)
    {
        double x = 2 * form - 1;
        double[] p = new double[MostDegrees];
        (p[0], p[1]) = (1, x);
        for (int n = 1; n + 1 < MostDegrees; n++)
        {
            p[n + 1] = ((2 * n + 1) * x * p[n] - n * p[n - 1]) / (n + 1);
        }
        return p;
    }

    private static double[] LegendreDerivative(double form)
    {
        double[] p = Legendre(form);
        double[] d = new double[MostDegrees];
        for (int n = 1; n < MostDegrees; n++)
        {
            // P'_n = (2n − 1) P_{n−1} + P'_{n−2}, and twice that for the map from 0 … 1.
            d[n] = 2 * (2 * n - 1) * p[n - 1] + (n >= 2 ? d[n - 2] : 0);
        }
        return d;
    }

    private sealed record Cell(int Row, OrbitPoint Point)
    {
        public double Volume { get; init; }

        public double Weight { get; init; }

        public OrbitLines? Lines { get; init; }

        public double[] Values { get; init; } = [];

        public double[] Slopes { get; init; } = [];
    }
}
