using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[[noise]]</c>.</summary>
internal static class NoiseSpec
{
    private static readonly string[] Measured = ["density", "rms", "points", "file"];

    private static readonly TextField Name = TextField.Name(
        "name",
        "Name of the noise, used in paths.",
        isRequired: false
    );

    private static readonly WordField<NoiseSource> Source = new(
        "source",
        "What is unsteady.",
        (
            "pointing",
            NoiseSource.Pointing,
            "The lateral place of the beam, as a length at the sail or an angle at the director."
        ),
        ("power", NoiseSource.Power, "The power of the beam, relative to its mean."),
        ("width", NoiseSource.Width, "The width of the beam, relative to its mean."),
        ("imbalance", NoiseSource.Imbalance, "The balance of the spinning craft, relative.")
    );

    /// <summary>The section.</summary>
    public static TablesField<NoiseDesign> Section { get; } =
        new(
            "noise",
            new TableSpec<NoiseDesign>(
                "One source of noise with its one-sided spectral density.",
                [Name, Source, SpectrumSpec.Choice],
                Build
            ),
            fewest: 0,
            most: 64
        );

    private static NoiseDesign Build(TableReading table)
    {
        NoiseDesign noise = new()
        {
            Name = table.Get(Name),
            Source = table.Get(Source),
            Spectrum = SpectrumSpec.Choice.Read(table)!,
        };
        if (table.IsSound)
        {
            CheckMeasure(table, noise.Source, noise.Spectrum.Measure);
        }
        return noise;
    }

    private static void CheckMeasure(TableReading table, NoiseSource source, NoiseMeasure measure)
    {
        bool pointing = source == NoiseSource.Pointing;
        (string key, Node node) = Measured
            .Select(k => (Key: k, Node: table.Node?.Find(k)))
            .Where(p => p.Node is not null)
            .Select(p => (p.Key, p.Node!))
            .First();
        if (pointing == (measure == NoiseMeasure.Relative))
        {
            string accepted = pointing
                ? "expected m^2/Hz (rms: m) at the sail or rad^2/Hz (rms: rad) at the director"
                : "expected 1/Hz (rms: a pure number)";
            string word = source.ToString().ToLowerInvariant();
            table.Fault(node, key, $"has a unit that does not fit source = \"{word}\"", accepted);
        }
        else if (measure == NoiseMeasure.Angle && !SpectrumSpec.HasDirector(table))
        {
            table.Fault(
                node,
                key,
                "is an angle at the director, but there is no [beam.director]",
                "add [beam.director], or give m^2/Hz (rms: m) at the sail"
            );
        }
    }
}
