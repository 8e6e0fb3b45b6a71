using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Numerics.Optimisation;

/// <summary>Covariance matrix adaptation: one run, for one aim over real variables.</summary>
/// <remarks>
/// Source: The CMA Evolution Strategy: A Tutorial, arXiv:1604.00772. The search itself knows no bounds: space is folded at
/// them, so that a place beyond a bound stands for its mirror image inside. Candidates that break limits come behind those
/// that do not, by how much they break them. Stops: as the tutorial's appendix B.3 describes them.
/// </remarks>
public sealed class CmaEs : IAskTell
{
    private readonly CmaEsSettings _settings;
    private readonly IReadOnlyList<SearchVariable> _variables;
    private readonly IOptimiserDraws _draws;
    private readonly long _firstStep;
    private readonly double _sigma0;
    private readonly double[,] _covariance;
    private readonly double[] _mean;
    private readonly double[] _pathSigma;
    private readonly double[] _pathCovariance;
    private readonly List<double> _bests = [];
    private readonly List<double> _medians = [];
    private double[] _axes;
    private double[,] _basis;
    private double[][] _drawn = [];
    private double[][]? _asked;

    /// <summary>Begins a run.</summary>
    /// <param name="variables">Real variables; ends may be infinite.</param>
    /// <param name="settings">Strategy parameters.</param>
    /// <param name="start">First mean.</param>
    /// <param name="sigma">First step size, in the units of the variables.</param>
    /// <param name="draws">Random numbers.</param>
    /// <param name="firstStep">First step whose draws are used; a generation uses one a candidate.</param>
    public CmaEs(
        IReadOnlyList<SearchVariable> variables,
        CmaEsSettings settings,
        IReadOnlyList<double> start,
        double sigma,
        IOptimiserDraws draws,
        long firstStep = 0
    )
    {
        ArgumentNullException.ThrowIfNull(variables);
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(start);
        ArgumentNullException.ThrowIfNull(draws);
        int n = settings.Dimension;
        if (variables.Count != n || start.Count != n || variables.Any(v => v.Kind != SearchVariableKind.Real))
        {
            throw new ArgumentException(
                "A real variable and a start for each dimension are needed.",
                nameof(variables)
            );
        }
        (_variables, _settings, _draws, _firstStep) = (variables, settings, draws, firstStep);
        Sigma = _sigma0 = Require.Positive(sigma);
        _mean = [.. start];
        (_pathSigma, _pathCovariance, _axes) = (new double[n], new double[n], new double[n]);
        (_covariance, _basis) = (new double[n, n], new double[n, n]);
        for (int i = 0; i < n; i++)
        {
            _covariance[i, i] = _basis[i, i] = _axes[i] = 1;
        }
    }

    /// <summary>Step size.</summary>
    public double Sigma { get; private set; }

    /// <summary>The mean.</summary>
    public IReadOnlyList<double> Mean => _mean;

    /// <summary>Generations that were told.</summary>
    public int Generation { get; private set; }

    /// <summary>Steps of draws used so far.</summary>
    public long StepsUsed => (long)Generation * _settings.Lambda;

    /// <inheritdoc/>
    public string? EndReason { get; private set; }

    /// <inheritdoc/>
    public IReadOnlyList<double[]> Ask()
    {
        if (EndReason is not null)
        {
            return [];
        }
        if (_asked is null)
        {
            _drawn = [.. Enumerable.Range(0, _settings.Lambda).Select(Draw)];
            _asked = [.. _drawn.Select(Folded)];
        }
        return _asked;
    }

    /// <inheritdoc/>
    public void Tell(IReadOnlyList<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        double[][] asked = _asked ?? throw new InvalidOperationException("Nothing was asked.");
        if (outcomes.Count != asked.Length)
        {
            throw new ArgumentException("One outcome for each place that was asked is needed.", nameof(outcomes));
        }
        int[] order =
        [
            .. Enumerable
                .Range(0, asked.Length)
                .OrderBy(i => outcomes[i].IsFeasible ? 0 : outcomes[i].Violation)
                .ThenBy(i => outcomes[i].IsFeasible ? outcomes[i].Aims[0] : 0)
                .ThenBy(i => i),
        ];
        _asked = null;
        Update([.. order.Select(i => _drawn[i])]);
        Generation++;
        double[] values = [.. order.Where(i => outcomes[i].IsFeasible).Select(i => outcomes[i].Aims[0])];
        EndReason = Ended(values);
    }

    private double[] Draw(int candidate)
    {
        int n = _settings.Dimension;
        long step = _firstStep + StepsUsed + candidate;
        double[] z = new double[n];
        for (int i = 0; i < n; i++)
        {
            z[i] = _axes[i] * _draws.Normal(step, i);
        }
        double[] x = new double[n];
        for (int i = 0; i < n; i++)
        {
            double y = 0;
            for (int j = 0; j < n; j++)
            {
                y += _basis[i, j] * z[j];
            }
            x[i] = _mean[i] + Sigma * y;
        }
        return x;
    }

    // Inside the bounds, by reflection at them.
    private double[] Folded(double[] place)
    {
        double[] inside = new double[place.Length];
        for (int i = 0; i < place.Length; i++)
        {
            SearchVariable v = _variables[i];
            double x = place[i];
            if (double.IsFinite(v.Lower) && double.IsFinite(v.Upper))
            {
                double width = v.Upper - v.Lower;
                double turn = Math.Abs(x - v.Lower) % (2 * width);
                x = v.Lower + (turn > width ? 2 * width - turn : turn);
            }
            else if (x < v.Lower)
            {
                x = 2 * v.Lower - x;
            }
            else if (x > v.Upper)
            {
                x = 2 * v.Upper - x;
            }
            inside[i] = v.Nearest(x);
        }
        return inside;
    }

    private void Update(double[][] best)
    {
        CmaEsSettings s = _settings;
        int n = s.Dimension;
        double[][] y = [.. best.Select(x => x.Select((v, i) => (v - _mean[i]) / Sigma).ToArray())];
        double[] step = new double[n];
        for (int k = 0; k < s.Mu; k++)
        {
            for (int i = 0; i < n; i++)
            {
                step[i] += s.Weights[k] * y[k][i];
            }
        }
        double[] white = Whitened(step);
        double forward = Math.Sqrt(s.CumulationSigma * (2 - s.CumulationSigma) * s.MuEffective);
        double length = 0;
        for (int i = 0; i < n; i++)
        {
            _mean[i] += Sigma * step[i];
            _pathSigma[i] = (1 - s.CumulationSigma) * _pathSigma[i] + forward * white[i];
            length += _pathSigma[i] * _pathSigma[i];
        }
        length = Math.Sqrt(length);
        double expected = Math.Sqrt(n) * (1 - 1.0 / (4 * n) + 1.0 / (21.0 * n * n));
        double faded = Math.Sqrt(1 - Math.Pow(1 - s.CumulationSigma, 2 * (Generation + 1)));
        bool advances = length / faded < (1.4 + 2.0 / (n + 1)) * expected;
        Adapt(y, step, advances);
        Sigma *= Math.Exp(Math.Min(1, s.CumulationSigma / s.DampingSigma * (length / expected - 1)));
    }

    private void Adapt(double[][] y, double[] step, bool advances)
    {
        CmaEsSettings s = _settings;
        int n = s.Dimension;
        double forward = Math.Sqrt(s.CumulationCovariance * (2 - s.CumulationCovariance) * s.MuEffective);
        for (int i = 0; i < n; i++)
        {
            _pathCovariance[i] = (1 - s.CumulationCovariance) * _pathCovariance[i] + (advances ? forward * step[i] : 0);
        }
        double[] weights = new double[y.Length];
        for (int k = 0; k < y.Length; k++)
        {
            double w = s.Weights[k];
            weights[k] = w >= 0 ? w : w * n / (Whitened(y[k]).Sum(v => v * v) + 1e-300);
        }
        double lost = advances ? 0 : s.CumulationCovariance * (2 - s.CumulationCovariance);
        double keep = 1 + s.RankOneRate * lost - s.RankOneRate - s.RankMuRate * s.Weights.Sum();
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double rank = 0;
                for (int k = 0; k < y.Length; k++)
                {
                    rank += weights[k] * y[k][i] * y[k][j];
                }
                double value =
                    keep * _covariance[i, j]
                    + s.RankOneRate * _pathCovariance[i] * _pathCovariance[j]
                    + s.RankMuRate * rank;
                _covariance[i, j] = _covariance[j, i] = value;
            }
        }
        (double[] values, _basis) = SymmetricEigen.Of(_covariance);
        double largest = values.Max();
        _axes = [.. values.Select(v => Math.Sqrt(Math.Max(v, 1e-30 * largest)))];
    }

    // C^(-1/2) applied to a vector.
    private double[] Whitened(double[] vector)
    {
        int n = vector.Length;
        double[] inner = new double[n];
        double[] result = new double[n];
        for (int j = 0; j < n; j++)
        {
            for (int i = 0; i < n; i++)
            {
                inner[j] += _basis[i, j] * vector[i];
            }
            inner[j] /= _axes[j];
        }
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                result[i] += _basis[i, j] * inner[j];
            }
        }
        return result;
    }

    private string? Ended(double[] values)
    {
        int n = _settings.Dimension;
        double widest = _axes.Max();
        if (widest > 1e7 * _axes.Min())
        {
            return "the covariance has a condition number above 1e14";
        }
        bool tiny = Enumerable
            .Range(0, n)
            .All(i => Sigma * Math.Max(Math.Abs(_pathCovariance[i]), Math.Sqrt(_covariance[i, i])) < 1e-12 * _sigma0);
        if (tiny)
        {
            return "steps have become smaller than 1e-12 of the first";
        }
        if (Sigma * widest > 1e8 * _sigma0)
        {
            return "steps have grown without end";
        }
        if (Generation >= 100 + 50 * (n + 3) * (n + 3) / Math.Sqrt(_settings.Lambda))
        {
            return "as many generations as one run may have";
        }
        return values.Length == 0 ? null : Settled(values, n);
    }

    private string? Settled(double[] values, int n)
    {
        _bests.Add(values[0]);
        _medians.Add(values[values.Length / 2]);
        int recent = 10 + (int)Math.Ceiling(30.0 * n / _settings.Lambda);
        if (_bests.Count >= recent)
        {
            double[] last = [.. _bests.TakeLast(recent), .. values];
            double range = last.Max() - last.Min();
            if (range <= 1e-12 * Math.Max(1e-30, Math.Abs(_bests[^1])) || range == 0)
            {
                return "the aim no longer changes";
            }
        }
        int window = Math.Min(20_000, (int)(120 + 30.0 * n / _settings.Lambda + 0.2 * Generation));
        return _bests.Count >= window && IsStagnant(_bests, window) && IsStagnant(_medians, window)
            ? "the aim has not improved for long"
            : null;
    }

    private static bool IsStagnant(List<double> history, int window)
    {
        int part = (int)(0.3 * window);
        double[] recent = [.. history.TakeLast(part).Order()];
        double[] before = [.. history.TakeLast(window).Take(part).Order()];
        return recent[part / 2] >= before[part / 2];
    }
}
