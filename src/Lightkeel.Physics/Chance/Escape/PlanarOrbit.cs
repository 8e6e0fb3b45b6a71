namespace Lightkeel.Physics.Chance.Escape;

/// <summary>One orbit of a craft in a round well, given by its least and greatest squared distance.</summary>
/// <remarks>
/// With u = r² the radial motion obeys u'² = Q(u) = (8/m)(E − U) u − 4 L²/m², which vanishes at both turning points. With
/// u = (u₁ + u₂)/2 − (u₂ − u₁)/2 cos ψ it becomes dt = dψ/√q, q = Q/((u − u₁)(u₂ − u)): smooth, and constant in a harmonic well,
/// so that the midpoint rule in ψ converges geometrically. Times at the nodes have the next term of the Euler-Maclaurin
/// series. Derived here. Holds its nodes: one per thread, used again for orbit after orbit.
/// </remarks>
internal sealed class PlanarOrbit
{
    private const int MostNodes = 512;
    private readonly double[] _weight = new double[MostNodes];

    /// <summary>Squared distances at the nodes of half a radial swing, m².</summary>
    public double[] Squares { get; } = new double[MostNodes];

    /// <summary>Share of the period that belongs to each node, of the half swing: they add up to one half.</summary>
    public double[] Shares { get; } = new double[MostNodes];

    /// <summary>Phase of the radial swing at the nodes, rad, 0 to π.</summary>
    public double[] Phases { get; } = new double[MostNodes];

    /// <summary>Angle around the middle less its mean advance, at the nodes, rad.</summary>
    public double[] Excess { get; } = new double[MostNodes];

    /// <summary>How many nodes are in use.</summary>
    public int Count { get; private set; }

    /// <summary>Energy, J.</summary>
    public double Energy { get; private set; }

    /// <summary>Angular momentum, kg m²/s, not negative.</summary>
    public double Momentum { get; private set; }

    /// <summary>Radial period, s.</summary>
    public double PeriodSeconds { get; private set; }

    /// <summary>Radial angular frequency, rad/s.</summary>
    public double RadialRate => 2 * Math.PI / PeriodSeconds;

    /// <summary>Mean rate of turn around the middle, rad/s.</summary>
    public double TurnRate { get; private set; }

    /// <summary>Prepares an orbit; false when it is not bound.</summary>
    /// <param name="well">The well.</param>
    /// <param name="inner">Least squared distance, m², above zero.</param>
    /// <param name="outer">Greatest squared distance, m², greater.</param>
    /// <param name="nodes">Nodes of half a radial swing.</param>
    public bool Prepare(PlanarWell well, double inner, double outer, int nodes)
    {
        Count = Math.Min(nodes, MostNodes);
        double mass = well.MassKilograms;
        double u1 = well.Potential(inner);
        double u2 = well.Potential(outer);
        double gap = outer - inner;
        Energy = (u2 * outer - u1 * inner) / gap;
        double square = 2 * mass * (u2 - u1) * inner * outer / gap;
        if (!(square >= 0))
        {
            return false;
        }
        Momentum = Math.Sqrt(square);
        double step = Math.PI / Count;
        double time = 0;
        for (int j = 0; j < Count; j++)
        {
            (double half, double cosine) = Math.SinCos(0.5 * step * (j + 0.5));
            // u − u₁ and u₂ − u without cancellation.
            double low = gap * half * half;
            double high = gap * cosine * cosine;
            double u = inner + low;
            double q = (8 / mass * (Energy - well.Potential(u)) * u - 4 * square / (mass * mass)) / (low * high);
            if (!(q > 0))
            {
                return false;
            }
            Squares[j] = u;
            _weight[j] = step / Math.Sqrt(q);
            time += _weight[j];
        }
        PeriodSeconds = 2 * time;
        Accumulate(mass, inner, outer);
        return double.IsFinite(PeriodSeconds);
    }

    // The turn has a narrow peak at the least distance: its part w(0)/u in closed form, (w − w(0))/u by the nodes.
    private void Accumulate(double mass, double inner, double outer)
    {
        double near = (9 * _weight[0] - _weight[1]) / 8;
        double perStep = Math.Sqrt(inner * outer);
        double step = Math.PI / Count;
        double rate = Momentum / mass;
        double rest = 0;
        double time = 0;
        for (int j = 0; j < Count; j++)
        {
            double tilt = Tilt(j, near, plain: true);
            double turnTilt = Tilt(j, near, plain: false);
            double phase = 0.5 * step * (j + 0.5);
            double closed = 2 * near / (step * perStep) * Math.Atan(Math.Sqrt(outer / inner) * Math.Tan(phase));
            double here = (_weight[j] - near) / Squares[j];
            Shares[j] = _weight[j] / PeriodSeconds;
            Phases[j] = RadialRate * (time + 0.5 * _weight[j] - tilt);
            Excess[j] = rate * (closed + rest + 0.5 * here - turnTilt);
            time += _weight[j];
            rest += here;
        }
        double whole = rate * (near * Math.PI / (step * perStep) + rest);
        TurnRate = 2 * whole / PeriodSeconds;
        for (int j = 0; j < Count; j++)
        {
            Excess[j] -= TurnRate / RadialRate * Phases[j];
        }
    }

    // A twelfth of the slope over a step: the next term of the midpoint sums.
    private double Tilt(int j, double near, bool plain)
    {
        int before = Math.Max(0, j - 1);
        int after = Math.Min(Count - 1, j + 1);
        return plain
            ? (_weight[after] - _weight[before]) / 24
            : ((_weight[after] - near) / Squares[after] - (_weight[before] - near) / Squares[before]) / 24;
    }
}
