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
    private readonly Cell[] _cells;
    private readonly double _step;

    private EscapeMesh(PlanarWell well, Cell[] cells, int count, int degrees)
    {
        (Well, _cells, Count, Degrees) = (well, cells, count, degrees);
        _step = 1.0 / count;
        Mass = new(count, degrees);
        Volume = new double[count * degrees];
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
    public EscapeMesh Fewer(int degrees) => new(Well, _cells, Count, Math.Min(degrees, Degrees));

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
                    cells[i * Forms + k] = CellOf(well, orbit, point, i, share) with
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
        return new(well, cells, count, MostDegrees);
    }

    /// <summary>The diffusion of a noise as a form over the basis.</summary>
    /// <param name="noise">The noise.</param>
    public BlockTridiagonal Stiffness(WellNoise noise)
    {
        BlockTridiagonal sum = new(Count, Degrees);
        double resolution = 0.25 * _step;
        foreach (Cell cell in _cells)
        {
            if (cell.Volume > 0)
            {
                AddStiffness(sum, cell, OrbitDiffusion.Of(cell.Lines!, noise, resolution));
            }
        }
        return sum;
    }

    /// <summary>Values of the basis at a point of the plane.</summary>
    public double[] BasisAt(double share, double form)
    {
        double[] values = new double[Count * Degrees];
        double place = share * Count;
        int i = Math.Min((int)place, Count - 1);
        double t = place - i;
        double[] p = Legendre(form);
        for (int m = 0; m < Degrees; m++)
        {
            values[i * Degrees + m] = (1 - t) * p[m];
            if (i + 1 < Count)
            {
                values[(i + 1) * Degrees + m] = t * p[m];
            }
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
            double next = i + 1 < count ? coefficients[(i + 1) * degrees + m] : 0;
            sum += ((1 - t) * coefficients[i * degrees + m] + t * next) * p[m];
        }
        return sum;
    }

    /// <summary>The orbits in order of s, each with its volume of phase space, energy, frequencies and lines.</summary>
    public IEnumerable<(double Share, double Energy, double Volume, OrbitLines Lines)> Orbits =>
        _cells
            .Where(c => c.Volume > 0)
            .Select(c => (c.Share, c.Point.Energy, c.Volume * Math.Abs(c.Point.Determinant) * c.Weight, c.Lines!));

    private static Cell CellOf(PlanarWell well, PlanarOrbit orbit, in OrbitPoint point, int row, double share)
    {
        int nodes =
            share < 0.8 ? 32
            : share < 0.95 ? 64
            : share < 0.99 ? 128
            : 256;
        // An orbit through a narrow turn near the middle wants more nodes as well.
        nodes = point.Inner < 0.05 * point.Outer ? Math.Max(nodes, 64) : nodes;
        if (!orbit.Prepare(well, point.Inner, point.Outer, nodes))
        {
            return new(row, share, point);
        }
        OrbitLines lines = new();
        OrbitDiffusion.Lines(well, orbit, lines);
        return new(row, share, point) { Volume = orbit.PeriodSeconds / (2 * Math.PI), Lines = lines };
    }

    private void AddMass(Cell cell)
    {
        double volume = cell.Weight * cell.Volume * Math.Abs(cell.Point.Determinant);
        for (int a = 0; a < Degrees; a++)
        {
            Volume[cell.Row * Degrees + a] += 0.5 * volume * cell.Values[a];
            if (cell.Row + 1 < Count)
            {
                Volume[(cell.Row + 1) * Degrees + a] += 0.5 * volume * cell.Values[a];
            }
            for (int b = 0; b < Degrees; b++)
            {
                double entry = volume * cell.Values[a] * cell.Values[b];
                Place(Mass, cell.Row, a, b, entry / 3, entry / 6, entry / 6, entry / 3);
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
        double ss = scale * (d.Energy * se * se + 2 * d.Mixed * se * sl + d.Momentum * sl * sl);
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
                Place(
                    sum,
                    cell.Row,
                    a,
                    b,
                    pp - pq - qp + qq / 3,
                    -pp - pq + qp + qq / 6,
                    -pp + pq - qp + qq / 6,
                    pp + pq + qp + qq / 3
                );
            }
        }
    }

    // Entries of the hat that falls in a cell (its left node) and the one that rises: left-left, left-right, right-left, right-right.
    private void Place(BlockTridiagonal sum, int row, int a, int b, double ll, double lr, double rl, double rr)
    {
        int at = a * Degrees + b;
        sum.Diagonal[row][at] += ll;
        if (row + 1 < Count)
        {
            sum.Upper[row][at] += lr;
            sum.Diagonal[row + 1][at] += rr;
            _ = rl;
        }
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

    private sealed record Cell(int Row, double Share, OrbitPoint Point)
    {
        public double Volume { get; init; }

        public double Weight { get; init; }

        public OrbitLines? Lines { get; init; }

        public double[] Values { get; init; } = [];

        public double[] Slopes { get; init; } = [];
    }
}
