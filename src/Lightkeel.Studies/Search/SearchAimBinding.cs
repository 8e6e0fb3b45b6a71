using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models.Quantities;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Search;

/// <summary>Looks up the quantities that aims and limits name, and whether the method fits them.</summary>
/// <param name="file">The study file.</param>
/// <param name="faults">Receives what is wrong.</param>
internal sealed class SearchAimBinding(SearchFile file, FaultList faults)
{
    public IReadOnlyList<SearchAim> Aims()
    {
        List<SearchAim> aims = [];
        foreach (AimDesign aim in file.Aims)
        {
            if (Find(aim.Quantity, aim.Position, "aim") is not { } quantity)
            {
                continue;
            }
            bool maximised = aim.Maximise is not null;
            SearchMetric metric = new(quantity, aim.Statistic, aim.Quantile ?? 0.5, WorseIsLarger: !maximised);
            CheckStatistic(aim.Statistic, aim.Quantile, aim.Position, "aim");
            if (aims.Any(a => a.Metric.Name == metric.Name))
            {
                faults.Add(aim.Position, $"the aim {metric.Name} is given twice", "give each aim once");
            }
            aims.Add(new(metric, maximised));
        }
        return aims;
    }

    public IReadOnlyList<SearchLimit> Limits()
    {
        List<SearchLimit> limits = [];
        foreach (LimitDesign limit in file.Limits)
        {
            if (Find(limit.Quantity, limit.Position, "limit") is not { } quantity)
            {
                continue;
            }
            CheckStatistic(limit.Statistic, limit.Quantile, limit.Position, "limit");
            double? least = Read(limit.AtLeast, quantity, limit.AtLeastPosition);
            double? most = Read(limit.AtMost, quantity, limit.AtMostPosition);
            if (limit.AtLeast is null && limit.AtMost is null)
            {
                faults.Add(limit.Position, $"limit of {quantity.Name} limits nothing", "give at_least or at_most");
            }
            else if (least > most)
            {
                faults.Add(
                    limit.AtMostPosition,
                    $"limit of {quantity.Name}: at_most is below at_least",
                    "leave room between them"
                );
            }
            limits.Add(
                new(new(quantity, limit.Statistic, limit.Quantile ?? 0.5, WorseIsLarger: most is not null), least, most)
            );
        }
        // Cheap ones first: what fails them is looked at no further.
        return [.. limits.OrderBy(l => l.Metric.Quantity.Cost)];
    }

    public void CheckMethod(IReadOnlyList<SearchNumber> variables)
    {
        SearchMethodKind kind = file.Method.Kind;
        bool single = kind is SearchMethodKind.CmaEs or SearchMethodKind.Gradient;
        SourcePosition place = file.Aims.Count > 1 ? file.Aims[1].Position : file.DesignPosition;
        string name = kind == SearchMethodKind.CmaEs ? "cma-es" : "gradient";
        if (single && file.Aims.Count > 1)
        {
            faults.Add(
                place,
                $"{name} takes one aim, {file.Aims.Count} are given",
                "take nsga2 or hybrid, or limits in place of aims"
            );
        }
        if (single && variables.FirstOrDefault(v => v.IsChoice || v.IsWhole) is { } discrete)
        {
            faults.Add(
                file.DesignPosition,
                $"{name} varies real numbers, but {discrete.Name} is {(discrete.IsChoice ? "a choice" : "a whole number")}",
                "take nsga2 or hybrid"
            );
        }
        if (kind == SearchMethodKind.NsgaIII && file.Aims.Count < 3)
        {
            faults.Add(file.DesignPosition, "nsga3 takes three aims or more", "take nsga2 or hybrid");
        }
        if (file.Method.Population % 2 != 0 || file.Method.Population is > 0 and < 4)
        {
            faults.Add(
                file.DesignPosition,
                $"method.population is {file.Method.Population}",
                "expected an even number, 4 or more, or 0 for the usual one"
            );
        }
    }

    private void CheckStatistic(SearchStatistic statistic, double? quantile, SourcePosition position, string what)
    {
        if (statistic != SearchStatistic.Nominal && file.Scatters.Count == 0)
        {
            faults.Add(
                position,
                $"the {what} has a statistic, but nothing scatters",
                "add a table [[scatter]], or leave statistic out"
            );
        }
        if (statistic == SearchStatistic.Quantile != quantile is not null)
        {
            faults.Add(
                position,
                $"the {what} has {(quantile is null ? "no quantile" : "a quantile without statistic = \"quantile\"")}",
                "give both or neither"
            );
        }
    }

    private DesignQuantity? Find(string name, SourcePosition position, string what)
    {
        if (QuantityList.Find(name) is { } found)
        {
            return found;
        }
        string[] known = [.. QuantityList.All.Select(q => q.Name)];
        string? near = NearestName.Of(name, known);
        faults.Add(
            position,
            $"{what}: there is no quantity \"{name}\"{(near is null ? "" : $" (did you mean \"{near}\"?)")}",
            $"the quantities are {string.Join(", ", known)}"
        );
        return null;
    }

    private double? Read(string? text, DesignQuantity quantity, SourcePosition position)
    {
        if (text is null)
        {
            return null;
        }
        Dimension dimension =
            quantity.Unit.Length > 0 && Quantity.TryParse("1 " + quantity.Unit, out Quantity one, out _)
                ? one.Dimension
                : Dimension.None;
        if (Quantity.TryParse(text, dimension, out double value, out string? fault))
        {
            return value;
        }
        faults.Add(
            position,
            $"limit of {quantity.Name}: {fault}",
            quantity.Unit.Length > 0
                ? $"expected a value in {quantity.Unit} or a unit like it"
                : "expected a pure number"
        );
        return null;
    }
}
