namespace Lightkeel.Numerics.Optimisation;

/// <summary>Covariance matrix adaptation with restarts of two kinds: populations that double, and small ones with steps of any size.</summary>
/// <remarks>
/// Source: Benchmarking a BI-population CMA-ES on the BBOB-2009 function testbed, GECCO workshop (2009), DOI
/// 10.1145/1570256.1570333. The next run is of the kind that has used fewer evaluations so far. Never ends by itself unless
/// the number of large runs is limited.
/// </remarks>
public sealed class BipopCmaEs : IAskTell
{
    private readonly IReadOnlyList<SearchVariable> _variables;
    private readonly double _sigma;
    private readonly IOptimiserDraws _draws;
    private readonly int _usual;
    private readonly int _mostLarge;
    private CmaEs _run;
    private int _runLambda;
    private bool _isLarge;
    private bool _isFirst = true;
    private long _large;
    private long _small;
    private long _step;
    private int _largeRuns;

    /// <summary>Begins.</summary>
    /// <param name="variables">Real variables with finite ends.</param>
    /// <param name="start">Mean of the first run; later ones begin anywhere.</param>
    /// <param name="sigma">First step size, in the units of the variables.</param>
    /// <param name="draws">Random numbers.</param>
    /// <param name="lambda">Candidates a generation of the first run; 0 for the usual number.</param>
    /// <param name="mostLargeRuns">How often the population may double.</param>
    public BipopCmaEs(
        IReadOnlyList<SearchVariable> variables,
        IReadOnlyList<double> start,
        double sigma,
        IOptimiserDraws draws,
        int lambda = 0,
        int mostLargeRuns = 9
    )
    {
        ArgumentNullException.ThrowIfNull(variables);
        (_variables, _sigma, _draws, _mostLarge) = (variables, sigma, draws, mostLargeRuns);
        CmaEsSettings first = CmaEsSettings.For(variables.Count, lambda);
        _usual = _runLambda = first.Lambda;
        _run = new(variables, first, start, sigma, draws);
    }

    /// <summary>Runs that have ended.</summary>
    public int Restarts { get; private set; }

    /// <inheritdoc/>
    public string? EndReason { get; private set; }

    /// <summary>Why the last run ended; null while the first goes on.</summary>
    public string? LastRunEnd { get; private set; }

    /// <inheritdoc/>
    public IReadOnlyList<double[]> Ask() => EndReason is not null ? [] : _run.Ask();

    /// <inheritdoc/>
    public void Tell(IReadOnlyList<Outcome> outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        _run.Tell(outcomes);
        if (!_isFirst && _isLarge)
        {
            _large += outcomes.Count;
        }
        else if (!_isFirst)
        {
            _small += outcomes.Count;
        }
        if (_run.EndReason is { } end)
        {
            LastRunEnd = end;
            Restart(end);
        }
    }

    private void Restart(string end)
    {
        _step += _run.StepsUsed + 1;
        _isFirst = false;
        Restarts++;
        _isLarge = _large <= _small;
        if (_isLarge && _largeRuns == _mostLarge)
        {
            EndReason = "all restarts have ended, the last because " + end;
            return;
        }
        double sigma = _sigma;
        if (_isLarge)
        {
            _largeRuns++;
            _runLambda = _usual << _largeRuns;
        }
        else
        {
            double u = _draws.Uniform(_step, 0);
            double largest = 0.5 * (_usual << Math.Max(1, _largeRuns)) / _usual;
            _runLambda = Math.Max(4, (int)(_usual * Math.Pow(largest, u * u)));
            sigma *= Math.Pow(10, -2 * _draws.Uniform(_step, 1));
        }
        double[] start = [.. _variables.Select((v, i) => v.At(_draws.Uniform(_step, 2 + i)))];
        _step++;
        _run = new(_variables, CmaEsSettings.For(_variables.Count, _runLambda), start, sigma, _draws, _step);
    }
}
