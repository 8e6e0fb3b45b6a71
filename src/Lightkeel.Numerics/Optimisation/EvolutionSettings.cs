namespace Lightkeel.Numerics.Optimisation;

/// <summary>How the next population is chosen.</summary>
public enum EvolutionKind
{
    /// <summary>By fronts and crowding, for up to three aims.</summary>
    NsgaII,

    /// <summary>By fronts and reference directions, for three aims and more.</summary>
    NsgaIII,
}

/// <summary>Settings of an evolution.</summary>
public sealed record EvolutionSettings
{
    private readonly int _population = 100;

    /// <summary>How the next population is chosen.</summary>
    public EvolutionKind Kind { get; init; } = EvolutionKind.NsgaII;

    /// <summary>Members of a population: even, 4 or more.</summary>
    /// <exception cref="ArgumentException">It is not.</exception>
    public int Population
    {
        get => _population;
        init =>
            _population =
                value >= 4 && value % 2 == 0
                    ? value
                    : throw new ArgumentException("A population has an even number of members, 4 or more.");
    }

    /// <summary>Probability that two parents are crossed.</summary>
    public double CrossoverProbability { get; init; } = 0.9;

    /// <summary>Distribution index of the crossover: larger keeps children nearer to their parents.</summary>
    public double CrossoverIndex { get; init; } = 20;

    /// <summary>Distribution index of the mutation.</summary>
    public double MutationIndex { get; init; } = 20;

    /// <summary>Probability that a variable is mutated; null for one over the number of variables.</summary>
    public double? MutationProbability { get; init; }

    /// <summary>Share of the population kept for the kinds, split evenly over them; 0 for none.</summary>
    public double KindShare { get; init; } = 0.5;

    /// <summary>Places that the first population begins with; the rest is drawn.</summary>
    public IReadOnlyList<double[]> Seeds { get; init; } = [];
}
