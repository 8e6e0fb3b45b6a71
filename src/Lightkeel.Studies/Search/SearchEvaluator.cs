using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Models.Quantities;

namespace Lightkeel.Studies.Search;

/// <summary>Measures designs: cheap limits first, and nothing dear for a design that fails them. Safe to ask from several threads.</summary>
internal sealed class SearchEvaluator
{
    private readonly SearchProblem _problem;
    private readonly double[][] _offsets;
    private readonly bool _scatters;

    public SearchEvaluator(SearchProblem problem, MeasurementSettings settings, ulong seed)
    {
        (_problem, Settings) = (problem, settings);
        _scatters = problem
            .Aims.Select(a => a.Metric)
            .Concat(problem.Limits.Select(l => l.Metric))
            .Any(m => m.Statistic != SearchStatistic.Nominal);
        _offsets = _scatters ? OffsetsOf(problem, seed) : [];
    }

    public MeasurementSettings Settings { get; }

    /// <summary>Measures the design at a place.</summary>
    public SearchFinding At(IReadOnlyList<double> genes)
    {
        try
        {
            return Of(_problem.DocumentAt(genes));
        }
        catch (Exception e) when (e is DesignFaultException or InputRefusedException)
        {
            return Refused();
        }
    }

    /// <summary>Measures a design.</summary>
    public SearchFinding Of(DesignDocument document)
    {
        (DesignMeasurement nominal, DesignMeasurement[] samples) = Measurements(document);
        int limits = _problem.Limits.Count;
        for (int i = 0; i < limits; i++)
        {
            SearchLimit limit = _problem.Limits[i];
            Measured<double> value = limit.Metric.Of(nominal, samples);
            double broken = value.Exists ? limit.Violation(value.Value) : 1;
            if (broken > 0)
            {
                // A design that fails early stands behind all that came further.
                double beyond = limits - 1 - i + broken / (1 + broken);
                return new(
                    value.Exists ? SearchStatus.LimitBroken : SearchStatus.Missing,
                    new double[_problem.Aims.Count],
                    beyond + (value.Exists ? 0 : 1)
                );
            }
        }
        double[] aims = new double[_problem.Aims.Count];
        foreach (int k in Enumerable.Range(0, aims.Length).OrderBy(k => _problem.Aims[k].Metric.Quantity.Cost))
        {
            Measured<double> value = _problem.Aims[k].Metric.Of(nominal, samples);
            if (!value.Exists)
            {
                return new(SearchStatus.Missing, new double[aims.Length], 0.5);
            }
            aims[k] = value.Value;
        }
        return new(SearchStatus.Feasible, aims, 0);
    }

    /// <summary>All aims and all limits of a design, whether limits hold or not; null entries do not exist.</summary>
    public (double?[] Aims, double?[] Limits) All(IReadOnlyList<double> genes)
    {
        try
        {
            return All(_problem.DocumentAt(genes), out _);
        }
        catch (Exception e) when (e is DesignFaultException or InputRefusedException)
        {
            return (new double?[_problem.Aims.Count], new double?[_problem.Limits.Count]);
        }
    }

    /// <summary>The same of a document, with the measurement of the design itself.</summary>
    public (double?[] Aims, double?[] Limits) All(DesignDocument document, out DesignMeasurement nominal)
    {
        (nominal, DesignMeasurement[] samples) = Measurements(document);
        DesignMeasurement own = nominal;
        double? Value(SearchMetric metric) => metric.Of(own, samples) is { Exists: true } v ? v.Value : null;
        return ([.. _problem.Aims.Select(a => Value(a.Metric))], [.. _problem.Limits.Select(l => Value(l.Metric))]);
    }

    private SearchFinding Refused() =>
        new(SearchStatus.Refused, new double[_problem.Aims.Count], _problem.Limits.Count + 2);

    private (DesignMeasurement Nominal, DesignMeasurement[] Samples) Measurements(DesignDocument document)
    {
        DesignMeasurement nominal = new(DesignModel.Build(document.Design), Settings);
        return (
            nominal,
            [.. _offsets.Select(o => new DesignMeasurement(DesignModel.Build(Moved(document, o).Design), Settings))]
        );
    }

    private DesignDocument Moved(DesignDocument document, double[] offsets)
    {
        Dictionary<string, double> own = document.Numbers.ToDictionary(n => n.Path, n => n.SiValue);
        for (int i = 0; i < offsets.Length; i++)
        {
            string path = _problem.Scatters[i].Path;
            if (own.TryGetValue(path, out double value))
            {
                document = document.WithNumber(path, value + offsets[i]);
            }
        }
        return document;
    }

    // How far each sample moves each scattered number: the same for every design.
    private static double[][] OffsetsOf(SearchProblem problem, ulong seed)
    {
        int count = problem.File.Method.Samples;
        LatinHypercube points = new(count, problem.Scatters.Count, new RandomDraws(seed, 0, "search-scatter"));
        Dictionary<string, double> own = problem.Design.Document.Numbers.ToDictionary(n => n.Path, n => n.SiValue);
        double[][] offsets = new double[count][];
        for (int s = 0; s < count; s++)
        {
            offsets[s] = new double[problem.Scatters.Count];
            points.Point((ulong)s, offsets[s]);
            for (int i = 0; i < offsets[s].Length; i++)
            {
                ScatterLaw law = problem.Scatters[i];
                offsets[s][i] = law.Law.Quantile(Math.Max(1e-12, offsets[s][i])) - own[law.Path];
            }
        }
        return offsets;
    }
}
