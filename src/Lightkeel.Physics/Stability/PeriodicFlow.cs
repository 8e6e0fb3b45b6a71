namespace Lightkeel.Physics.Stability;

/// <summary>The fundamental matrix Φ(t) of q' = A(t) q over one period, Φ(0) = 1.</summary>
internal sealed class PeriodicFlow
{
    private const int Levels = 8;
    private const int DeepestHalving = 24;

    private readonly Func<double, double[,]> _matrixAt;
    private readonly double _tolerance;
    private readonly List<(double Time, double[,] State)> _path = [];
    private double _error;

    private PeriodicFlow(Func<double, double[,]> matrixAt, double tolerance) =>
        (_matrixAt, _tolerance) = (matrixAt, tolerance);

    /// <summary>Φ at the end of every step, from time 0 to the period.</summary>
    public IReadOnlyList<(double Time, double[,] State)> Path => _path;

    /// <summary>Φ(T).</summary>
    public double[,] Monodromy => _path[^1].State;

    /// <summary>Sum of the step errors, relative.</summary>
    public double RelativeError => _error;

    /// <summary>Integrates from the first to the last of the ends; A may jump at the inner ones.</summary>
    public static PeriodicFlow Integrate(Func<double, double[,]> matrixAt, double[] ends, double tolerance)
    {
        PeriodicFlow flow = new(matrixAt, tolerance);
        double[,] state = Identity(matrixAt(0.5 * (ends[0] + ends[1])).GetLength(0));
        flow._path.Add((ends[0], state));
        for (int piece = 0; piece + 1 < ends.Length; piece++)
        {
            state = flow.Cross(ends[piece], ends[piece + 1], ends.Length > 2, state);
        }
        return flow;
    }

    private double[,] Cross(double from, double to, bool jumps, double[,] state)
    {
        // With jumps A is read just inside the piece; the shift is far below the tolerance of the step.
        double inset = jumps ? 1e-14 * (to - from) : 0;
        double Inside(double t) => Math.Clamp(t, from + inset, to - inset);
        double size = Enumerable.Range(0, 8).Max(k => Norm(_matrixAt(Inside(from + (k + 0.5) / 8 * (to - from)))));
        int steps = (int)Math.Clamp(Math.Ceiling((to - from) * size / 2), 1, 100_000);
        double h = (to - from) / steps;
        for (int k = 0; k < steps; k++)
        {
            state = Advance(t => _matrixAt(Inside(t)), from + k * h, h, state, 0);
        }
        return state;
    }

    private double[,] Advance(Func<double, double[,]> a, double t, double h, double[,] state, int halvings)
    {
        (double[,] next, double error) = Extrapolated(a, t, h, state);
        double relative = error / Norm(next);
        if (!(relative <= _tolerance) && halvings < DeepestHalving)
        {
            double[,] middle = Advance(a, t, 0.5 * h, state, halvings + 1);
            return Advance(a, t + 0.5 * h, 0.5 * h, middle, halvings + 1);
        }
        if (!double.IsFinite(Norm(next)) || !(relative <= 1e3 * _tolerance))
        {
            throw new ArithmeticException(
                "The periodic system could not be integrated to the requested accuracy: its coefficients are too rough or grow too fast over one period."
            );
        }
        _error += relative;
        _path.Add((t + h, next));
        return next;
    }

    /// <summary>Polynomial extrapolation in h² of the midpoint rule with 2, 4, … substeps.</summary>
    private static (double[,] State, double Error) Extrapolated(
        Func<double, double[,]> a,
        double t,
        double h,
        double[,] start
    )
    {
        double[][,] row = new double[Levels][,];
        double error = double.PositiveInfinity;
        for (int level = 0; level < Levels; level++)
        {
            double[,] entry = Midpoint(a, t, h, 2 * (level + 1), start);
            for (int k = 1; k <= level; k++)
            {
                double ratio = (level + 1.0) / (level + 1 - k);
                double factor = 1 / (ratio * ratio - 1);
                double[,] previous = row[k - 1];
                row[k - 1] = entry;
                entry = Combined(entry, previous, factor);
            }
            if (level > 0)
            {
                error = Distance(entry, row[level - 1]);
            }
            row[level] = entry;
        }
        return (row[Levels - 1], error);
    }

    private static double[,] Midpoint(Func<double, double[,]> a, double t, double h, int substeps, double[,] start)
    {
        double s = h / substeps;
        double[,] before = start;
        double[,] now = Sum(start, Product(a(t), start), s);
        for (int k = 1; k < substeps; k++)
        {
            double[,] next = Sum(before, Product(a(t + k * s), now), 2 * s);
            (before, now) = (now, next);
        }
        return now;
    }

    internal static double[,] Identity(int n)
    {
        double[,] one = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            one[i, i] = 1;
        }
        return one;
    }

    private static double[,] Product(double[,] a, double[,] b)
    {
        int n = a.GetLength(0);
        double[,] c = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int k = 0; k < n; k++)
            {
                double f = a[i, k];
                if (f == 0)
                {
                    continue;
                }
                for (int j = 0; j < n; j++)
                {
                    c[i, j] += f * b[k, j];
                }
            }
        }
        return c;
    }

    private static double[,] Sum(double[,] a, double[,] b, double factor) => Map(a, b, (x, y) => x + factor * y);

    private static double[,] Combined(double[,] entry, double[,] previous, double factor) =>
        Map(entry, previous, (x, y) => x + factor * (x - y));

    private static double[,] Map(double[,] a, double[,] b, Func<double, double, double> f)
    {
        int n = a.GetLength(0);
        double[,] c = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                c[i, j] = f(a[i, j], b[i, j]);
            }
        }
        return c;
    }

    private static double Distance(double[,] a, double[,] b) => Norm(Map(a, b, (x, y) => x - y));

    private static double Norm(double[,] a)
    {
        double sum = 0;
        foreach (double x in a)
        {
            sum = double.Hypot(sum, x);
        }
        return sum;
    }
}
