namespace Lightkeel.Numerics.Optimisation;

/// <summary>Makes children of parents: bounded simulated binary crossover and polynomial mutation; categories are exchanged and redrawn.</summary>
/// <remarks>
/// Source: Complex Systems 9, 115 (1995) for the crossover; IEEE Trans. Evol. Comput. 6, 182 (2002), DOI 10.1109/4235.996017,
/// for both with bounds and for the usual indices of 20.
/// </remarks>
/// <param name="variables">The variables.</param>
/// <param name="draws">Random numbers.</param>
internal sealed class Variation(IReadOnlyList<SearchVariable> variables, IOptimiserDraws draws)
{
    public double CrossoverProbability { get; init; } = 0.9;

    public double CrossoverIndex { get; init; } = 20;

    public double MutationIndex { get; init; } = 20;

    /// <summary>Probability that a variable is changed; null for one over their number.</summary>
    public double? MutationProbability { get; init; }

    /// <summary>Two children of two parents.</summary>
    public (double[] First, double[] Second) Children(long step, double[] mother, double[] father)
    {
        double[] first = [.. mother];
        double[] second = [.. father];
        int draw = 0;
        if (draws.Uniform(step, draw++) <= CrossoverProbability)
        {
            for (int i = 0; i < variables.Count; i++)
            {
                Cross(step, ref draw, i, first, second);
            }
        }
        Mutate(step, ref draw, first);
        Mutate(step, ref draw, second);
        return (first, second);
    }

    private void Cross(long step, ref int draw, int i, double[] first, double[] second)
    {
        double choice = draws.Uniform(step, draw++);
        double spread = draws.Uniform(step, draw++);
        double exchange = draws.Uniform(step, draw++);
        SearchVariable variable = variables[i];
        (double a, double b) = (Math.Min(first[i], second[i]), Math.Max(first[i], second[i]));
        if (choice > 0.5 || b - a <= 1e-14 * Math.Max(1, Math.Abs(b)))
        {
            return;
        }
        if (variable.Kind == SearchVariableKind.Category)
        {
            (first[i], second[i]) = exchange <= 0.5 ? (second[i], first[i]) : (first[i], second[i]);
            return;
        }
        double low = 0.5 * (a + b - Stretch(spread, 1 + 2 * (a - variable.Lower) / (b - a)) * (b - a));
        double high = 0.5 * (a + b + Stretch(spread, 1 + 2 * (variable.Upper - b) / (b - a)) * (b - a));
        (low, high) = (variable.Nearest(low), variable.Nearest(high));
        (first[i], second[i]) = exchange <= 0.5 ? (high, low) : (low, high);
    }

    // How far children lie apart against their parents, so that none lies outside a bound this far away.
    private double Stretch(double u, double room)
    {
        double alpha = 2 - Math.Pow(room, -(CrossoverIndex + 1));
        double power = 1 / (CrossoverIndex + 1);
        return u <= 1 / alpha ? Math.Pow(u * alpha, power) : Math.Pow(1 / (2 - u * alpha), power);
    }

    private void Mutate(long step, ref int draw, double[] child)
    {
        double probability = MutationProbability ?? 1.0 / variables.Count;
        for (int i = 0; i < child.Length; i++)
        {
            double choice = draws.Uniform(step, draw++);
            double u = draws.Uniform(step, draw++);
            SearchVariable v = variables[i];
            double range = v.Upper - v.Lower;
            if (choice > probability || !(range > 0))
            {
                continue;
            }
            if (v.Kind == SearchVariableKind.Category)
            {
                // Any other one.
                double other = Math.Min(range - 1, Math.Floor(u * range));
                child[i] = other >= child[i] ? other + 1 : other;
                continue;
            }
            double moved = v.Nearest(
                child[i] + Step(u, (child[i] - v.Lower) / range, (v.Upper - child[i]) / range) * range
            );
            child[i] =
                v.Kind == SearchVariableKind.Whole && moved == child[i]
                    ? v.Nearest(child[i] + (u < 0.5 ? -1 : 1))
                    : moved;
        }
    }

    private double Step(double u, double below, double above)
    {
        double power = 1 / (MutationIndex + 1);
        return u < 0.5
            ? Math.Pow(2 * u + (1 - 2 * u) * Math.Pow(1 - below, MutationIndex + 1), power) - 1
            : 1 - Math.Pow(2 * (1 - u) + (2 * u - 1) * Math.Pow(1 - above, MutationIndex + 1), power);
    }
}
