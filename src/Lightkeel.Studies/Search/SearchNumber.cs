using System.Globalization;
using Lightkeel.Numerics.Optimisation;
using Lightkeel.Studies.Designs;

namespace Lightkeel.Studies.Search;

/// <summary>Something that a search turns: a number, a profile's point, or a choice. Genes of real ones run from 0 to 1.</summary>
/// <param name="Name">Its name: a path, or the name of a choice.</param>
/// <param name="Unit">SI unit; empty for pure numbers and choices.</param>
/// <param name="Lower">Least value, SI.</param>
/// <param name="Upper">Greatest value, SI.</param>
/// <param name="IsLogarithmic">True when equal ratios count the same.</param>
/// <param name="IsWhole">True for whole numbers.</param>
/// <param name="Words">Names of the choices; empty for numbers.</param>
internal sealed record SearchNumber(
    string Name,
    string Unit,
    double Lower,
    double Upper,
    bool IsLogarithmic,
    bool IsWhole,
    IReadOnlyList<string> Words
)
{
    /// <summary>The choice under which it exists: its number among the variables, and the choices; null for always.</summary>
    public (int Variable, IReadOnlyList<int> Choices)? When { get; init; }

    /// <summary>True for a choice.</summary>
    public bool IsChoice => Words.Count > 0;

    /// <summary>Its gene as an optimiser sees it.</summary>
    public SearchVariable Gene =>
        IsChoice ? SearchVariable.Category(Words.Count)
        : IsWhole ? SearchVariable.Whole((long)Lower, (long)Upper)
        : SearchVariable.Real(0, 1);

    /// <summary>Its value at a gene, SI; for a choice its number.</summary>
    public double Value(double gene) =>
        IsChoice || IsWhole ? gene
        : gene <= 0 ? Lower
        : gene >= 1 ? Upper
        : IsLogarithmic ? Lower * Math.Exp(gene * Math.Log(Upper / Lower))
        : Lower + gene * (Upper - Lower);

    /// <summary>The gene of a value.</summary>
    public double GeneOf(double value) =>
        IsChoice || IsWhole ? value
        : IsLogarithmic ? Math.Log(value / Lower) / Math.Log(Upper / Lower)
        : (value - Lower) / (Upper - Lower);

    /// <summary>Whether it exists at a place.</summary>
    public bool IsActive(IReadOnlyList<double> genes) =>
        When is not { } when || when.Choices.Contains((int)genes[when.Variable]);
}

/// <summary>A profile with free points: heights of a sail, or relative irradiances of the beam.</summary>
/// <param name="Path">The sail, or beam.</param>
/// <param name="First">Number of its first point among the variables.</param>
/// <param name="Count">Free points.</param>
/// <param name="RadiusMetres">Where it ends, m.</param>
internal sealed record SearchProfile(string Path, int First, int Count, double RadiusMetres)
{
    /// <summary>True for the beam.</summary>
    public bool IsBeam => Path == "beam";

    /// <summary>The design with the profile drawn through points.</summary>
    /// <param name="document">The design.</param>
    /// <param name="values">Values of all variables, SI.</param>
    public DesignDocument Put(DesignDocument document, IReadOnlyList<double> values)
    {
        double[] own = [.. Enumerable.Range(First, Count).Select(i => values[i])];
        if (!IsBeam)
        {
            // The pole is the reference point, so its height is zero.
            IEnumerable<string> rows = own.Select((h, i) => Row(RadiusMetres * (i + 1) / Count, h));
            return document
                .WithValue(Path + ".shape", "profile")
                .WithValue(Path + ".points", $"[{string.Join(", ", rows.Prepend(Row(0, 0)))}]");
        }
        IEnumerable<string> radii = Enumerable
            .Range(0, Count + 1)
            .Select(i => $"\"{Text(RadiusMetres * i / Count)} m\"");
        return document
            .WithValue("beam.profile", "radial-table")
            .WithValue("beam.radii", $"[{string.Join(", ", radii)}]")
            .WithValue("beam.values", $"[{string.Join(", ", own.Append(0).Select(Text))}]");
    }

    private static string Row(double radius, double height) => $"[\"{Text(radius)} m\", \"{Text(height)} m\"]";

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
