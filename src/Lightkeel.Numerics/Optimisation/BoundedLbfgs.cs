namespace Lightkeel.Numerics.Optimisation;

/// <summary>Descent by gradients with a limited memory of curvature, inside bounds. Asks for values and gradients, one place at a time.</summary>
/// <remarks>
/// Two-loop recursion on the variables that are free (Numerical Optimization, 2nd ed., Springer (2006), sections 7.2 and
/// 16.7); the line search halves and doubles along the path bent at the bounds until decrease and curvature are right
/// (Math. Program. 141, 135 (2013), DOI 10.1007/s10107-012-0514-2). It converges to a place where the gradient, as far as
/// the bounds let it act, is zero: a local minimum.
/// </remarks>
public sealed class BoundedLbfgs
{
    private const int Memory = 10;
    private const double Decrease = 1e-4;
    private const double Curvature = 0.9;
    private const int MostTrials = 60;
    private readonly double[] _lower;
    private readonly double[] _upper;
    private readonly double _gradientTolerance;
    private readonly double _valueTolerance;
    private readonly List<(double[] Step, double[] Change)> _pairs = [];
    private double[] _trial;
    private double[] _direction = [];
    private double[]? _gradient;
    private double _length;
    private double _low;
    private double _high;
    private int _trials;
    private int _still;

    /// <summary>Begins.</summary>
    /// <param name="start">First place; moved inside the bounds.</param>
    /// <param name="lower">Least values; may be minus infinity.</param>
    /// <param name="upper">Greatest values; may be infinity.</param>
    /// <param name="gradientTolerance">Ends when no component of the gradient that may act is larger.</param>
    /// <param name="valueTolerance">Ends when two steps in a row improve the value by less than this share of its size.</param>
    public BoundedLbfgs(
        IReadOnlyList<double> start,
        IReadOnlyList<double> lower,
        IReadOnlyList<double> upper,
        double gradientTolerance = 1e-10,
        double valueTolerance = 1e-15
    )
    {
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(lower);
        ArgumentNullException.ThrowIfNull(upper);
        (_lower, _upper) = ([.. lower], [.. upper]);
        (_gradientTolerance, _valueTolerance) = (gradientTolerance, valueTolerance);
        _trial = Bent([.. start], new double[start.Count], 0);
        Place = _trial;
    }

    /// <summary>The best place so far.</summary>
    public double[] Place { get; private set; }

    /// <summary>The value there; infinite before the first is told.</summary>
    public double Value { get; private set; } = double.PositiveInfinity;

    /// <summary>Why it has ended; null while it goes on.</summary>
    public string? EndReason { get; private set; }

    /// <summary>Steps taken.</summary>
    public int Iterations { get; private set; }

    /// <summary>The place where value and gradient are wanted.</summary>
    public double[] Ask() => _trial;

    /// <summary>Tells value and gradient there. A value that is not finite counts as too large.</summary>
    public void Tell(double value, IReadOnlyList<double> gradient)
    {
        ArgumentNullException.ThrowIfNull(gradient);
        if (EndReason is not null)
        {
            return;
        }
        bool usable = double.IsFinite(value) && gradient.All(double.IsFinite);
        if (_gradient is null)
        {
            if (!usable)
            {
                EndReason = "the start has no value";
                return;
            }
            Accept(value, [.. gradient]);
            return;
        }
        double slope = Dot(_gradient, Difference(_trial, Place));
        double along = usable ? SlopeAt(gradient) : 0;
        double before = SlopeAt(_gradient);
        if (!usable || value > Value + Decrease * Math.Min(0, slope) || value >= Value)
        {
            _high = _length;
        }
        else if (along < Curvature * before && _length < 1e10)
        {
            _low = _length;
        }
        else
        {
            Accept(value, [.. gradient]);
            return;
        }
        TryAgain(usable && value < Value ? (value, gradient) : null);
    }

    private void TryAgain((double Value, IReadOnlyList<double> Gradient)? good)
    {
        double next = double.IsPositiveInfinity(_high) ? 2 * _low : 0.5 * (_low + _high);
        double[] place = Bent(Place, _direction, next);
        bool moves = !place.AsSpan().SequenceEqual(_trial) && !place.AsSpan().SequenceEqual(Place);
        if (++_trials >= MostTrials || !moves)
        {
            if (good is { } g)
            {
                Accept(g.Value, [.. g.Gradient]);
            }
            else if (_pairs.Count > 0)
            {
                // The remembered curvature may mislead: once more along the gradient itself.
                _pairs.Clear();
                Aim();
            }
            else
            {
                EndReason = "no step along the gradient improves the value";
            }
            return;
        }
        (_length, _trial) = (next, place);
    }

    private void Accept(double value, double[] gradient)
    {
        if (_gradient is not null)
        {
            double[] step = Difference(_trial, Place);
            double[] change = Difference(gradient, _gradient);
            double product = Dot(step, change);
            if (product > 1e-12 * Math.Sqrt(Dot(step, step) * Dot(change, change)))
            {
                _pairs.Add((step, change));
                if (_pairs.Count > Memory)
                {
                    _pairs.RemoveAt(0);
                }
            }
            double gain = Value - value;
            _still = gain <= _valueTolerance * Math.Max(Math.Abs(value), 1e-300) ? _still + 1 : 0;
            Iterations++;
        }
        (Place, Value, _gradient) = (_trial, value, gradient);
        if (LargestActing() <= _gradientTolerance)
        {
            EndReason = "the gradient is zero as far as the bounds let it act";
        }
        else if (_still >= 2)
        {
            EndReason = "the value no longer improves";
        }
        else
        {
            Aim();
        }
    }

    // The direction of the next search, and its first place.
    private void Aim()
    {
        double[] free = [.. _gradient!.Select((g, i) => IsHeld(i, g) ? 0 : g)];
        _direction = Recursion(free);
        for (int i = 0; i < free.Length; i++)
        {
            // Off a bound only if the step leads inside.
            bool outward = (Place[i] <= _lower[i] && _direction[i] < 0) || (Place[i] >= _upper[i] && _direction[i] > 0);
            _direction[i] = free[i] == 0 || outward ? 0 : _direction[i];
        }
        if (!(Dot(_direction, free) < 0))
        {
            _pairs.Clear();
            _direction = [.. free.Select(g => -g)];
        }
        double norm = Math.Sqrt(Dot(_direction, _direction));
        (_low, _high, _trials) = (0, double.PositiveInfinity, 0);
        _length = _pairs.Count == 0 ? Math.Min(1, 0.1 * Size() / norm) : 1;
        _trial = Bent(Place, _direction, _length);
    }

    // How large the first step may be: a share of the room between the bounds, or of the place itself.
    private double Size()
    {
        double room = double.PositiveInfinity;
        for (int i = 0; i < Place.Length; i++)
        {
            double own = _upper[i] - _lower[i];
            room = Math.Min(room, double.IsFinite(own) ? own : Math.Max(1, Math.Abs(Place[i])));
        }
        return room;
    }

    private double[] Recursion(double[] gradient)
    {
        double[] q = [.. gradient];
        double[] share = new double[_pairs.Count];
        for (int k = _pairs.Count - 1; k >= 0; k--)
        {
            (double[] s, double[] y) = _pairs[k];
            share[k] = Dot(s, q) / Dot(s, y);
            AddTo(q, y, -share[k]);
        }
        if (_pairs.Count > 0)
        {
            (double[] s, double[] y) = _pairs[^1];
            double scale = Dot(s, y) / Dot(y, y);
            q = [.. q.Select(v => scale * v)];
        }
        for (int k = 0; k < _pairs.Count; k++)
        {
            (double[] s, double[] y) = _pairs[k];
            AddTo(q, s, share[k] - Dot(y, q) / Dot(s, y));
        }
        return [.. q.Select(v => -v)];
    }

    private bool IsHeld(int i, double gradient) =>
        (Place[i] <= _lower[i] && gradient > 0) || (Place[i] >= _upper[i] && gradient < 0);

    private double LargestActing() => _gradient!.Select((g, i) => IsHeld(i, g) ? 0 : Math.Abs(g)).Max();

    // The slope of the value along the bent path: variables that have met their bound move no more.
    private double SlopeAt(IReadOnlyList<double> gradient)
    {
        double slope = 0;
        for (int i = 0; i < _direction.Length; i++)
        {
            bool stopped =
                (_trial[i] <= _lower[i] && _direction[i] < 0) || (_trial[i] >= _upper[i] && _direction[i] > 0);
            slope += stopped ? 0 : gradient[i] * _direction[i];
        }
        return slope;
    }

    private double[] Bent(double[] from, double[] direction, double length)
    {
        double[] place = new double[from.Length];
        for (int i = 0; i < place.Length; i++)
        {
            place[i] = Math.Clamp(from[i] + length * direction[i], _lower[i], _upper[i]);
        }
        return place;
    }

    private static double[] Difference(double[] a, double[] b) => [.. a.Select((v, i) => v - b[i])];

    private static void AddTo(double[] target, double[] other, double factor)
    {
        for (int i = 0; i < target.Length; i++)
        {
            target[i] += factor * other[i];
        }
    }

    private static double Dot(double[] a, double[] b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }
        return sum;
    }
}
