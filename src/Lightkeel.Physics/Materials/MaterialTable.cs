using static Lightkeel.Physics.Materials.MaterialProperty;

namespace Lightkeel.Physics.Materials;

/// <summary>Sourced values of common film and boom materials, for first estimates near room temperature.</summary>
/// <remarks>
/// Strength of a film depends on how it was made, its flaws, its area and its temperature; a design that matters states
/// measured values of its own film. What is marked as from memory was not looked up while the table was made.
/// </remarks>
public static class MaterialTable
{
    private const string Handbook = "CRC Handbook of Chemistry and Physics, 97th ed. (2016)";
    private const string Glass = "material data sheet collection makeitfrom.com, Fused Silica";
    private const string Practice = "typical of supplier data sheets; common practice, no single source";

    /// <summary>The materials, by name.</summary>
    public static IReadOnlyList<Material> All { get; } =
    [
        Polymer(
            "polyimide",
            "aromatic polyimide film (PMDA-ODA type)",
            [1420, 2.5e9, 0.34, 170e6, 670, 1090, 20e-6, 0.12]
        ),
        Polymer("polyester", "biaxially drawn polyester film (PET)", [1390, 4.5e9, 0.38, 180e6, 420, 1170, 17e-6, 0.2]),
        Polymer(
            "parylene-n",
            "vapour-deposited poly-p-xylylene film",
            [1100, 2.4e9, 0.4, 45e6, 380, 1300, 69e-6, 0.13]
        ),
        Aluminium(),
        Metal("gold", "gold, annealed", [19300, 78e9, 0.44, 100e6, 1000, 129, 14.2e-6, 318]),
        Metal("silver", "silver, annealed", [10490, 83e9, 0.37, 125e6, 900, 235, 18.9e-6, 429]),
        Metal("titanium", "titanium alloy with 6 % Al and 4 % V", [4430, 114e9, 0.34, 900e6, 700, 560, 8.6e-6, 6.7]),
        FusedSilica(),
        SiliconNitride(),
        Ceramic("silicon", "single-crystal silicon, (100) film", [2329, 130e9, 0.28, 1000e6, 1200, 705, 2.6e-6, 148]),
        Ceramic("sapphire", "single-crystal aluminium oxide", [3980, 400e9, 0.29, 400e6, 1900, 760, 5.3e-6, 35]),
        Ceramic("diamond", "chemical-vapour diamond film", [3515, 1050e9, 0.1, 500e6, 1200, 510, 1.0e-6, 1000]),
        Composite(),
    ];

    /// <summary>The names, for messages.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. All.Select(m => m.Name)];

    /// <summary>The material of a name, or null when the table has none.</summary>
    public static Material? Find(string name) => All.FirstOrDefault(m => m.Name == name);

    // Values in the order of the properties; all from memory of one kind of source.
    private static Material FromMemory(string name, string description, string source, double[] values) =>
        new(
            name,
            description,
            MaterialProperties
                .All.Zip(values)
                .ToDictionary(p => p.First, p => new SourcedValue(p.Second, source, Provenance.Memory))
        );

    private static Material Polymer(string name, string description, double[] values) =>
        FromMemory(name, description, Practice, values);

    private static Material Metal(string name, string description, double[] values) =>
        Mixed(
            FromMemory(name, description, Handbook, values),
            (TensileStrength, values[3], Practice, Provenance.Memory),
            (TemperatureLimit, values[4], "common practice, no source: well below melting", Provenance.Memory)
        );

    private static Material Ceramic(string name, string description, double[] values) =>
        Mixed(
            FromMemory(name, description, Handbook, values),
            (TensileStrength, values[3], Practice, Provenance.Memory),
            (TemperatureLimit, values[4], "common practice, no source", Provenance.Memory)
        );

    private static Material Aluminium() =>
        Mixed(
            Metal("aluminium", "aluminium, pure, hard", [2700, 70.2e9, 0.345, 100e6, 700, 900, 23.1e-6, 237]),
            (Density, 2700, Handbook + ", as reprinted at matmake.com, Aluminum", Provenance.Read),
            (YoungsModulus, 70.2e9, Handbook + ", as reprinted at matmake.com, Aluminum", Provenance.Read),
            (PoissonRatio, 0.345, Handbook + ", as reprinted at matmake.com, Aluminum", Provenance.Read),
            (HeatCapacity, 900, Handbook + ", as reprinted at matmake.com, Aluminum", Provenance.Read),
            (Expansion, 23.1e-6, Handbook + ", as reprinted at matmake.com, Aluminum", Provenance.Read)
        );

    private static Material FusedSilica() =>
        Mixed(
            Ceramic("fused-silica", "fused silica glass", [2200, 73e9, 0.17, 50e6, 1353, 720, 0.5e-6, 1.4]),
            (Density, 2200, Glass, Provenance.Read),
            (YoungsModulus, 73e9, Glass, Provenance.Read),
            (PoissonRatio, 0.17, Glass, Provenance.Read),
            (
                TensileStrength,
                50e6,
                Glass + ": bulk glass with its flaws; fresh thin film is stronger",
                Provenance.Read
            ),
            (TemperatureLimit, 1353, Glass + ": mechanical limit 1080 degrees Celsius", Provenance.Read),
            (HeatCapacity, 720, Glass, Provenance.Read),
            (Expansion, 0.5e-6, Glass, Provenance.Read)
        );

    private static Material SiliconNitride()
    {
        const string Bulge = "bulge test of low-pressure vapour-deposited film, abstract at scilit.net ff5937b1";
        return Mixed(
            Ceramic(
                "silicon-nitride",
                "low-pressure vapour-deposited silicon nitride film",
                [3100, 222e9, 0.28, 2000e6, 1500, 700, 2.3e-6, 3]
            ),
            (YoungsModulus, 222e9, Bulge + " (222 GPa within 3)", Provenance.Read),
            (PoissonRatio, 0.28, Bulge + " (0.28 within 0.05)", Provenance.Read),
            (
                Expansion,
                2.3e-6,
                "Journal of Microelectromechanical Systems (2004), doi:10.1109/jmems.2004.836815, as quoted in a citing work",
                Provenance.Read
            )
        );
    }

    private static Material Composite() =>
        FromMemory(
            "carbon-composite",
            "carbon fibre in epoxy, along the fibres",
            Practice,
            [1600, 140e9, 0.3, 1500e6, 400, 900, 0.3e-6, 5]
        );

    private static Material Mixed(
        Material material,
        params (MaterialProperty Property, double Value, string Source, Provenance Provenance)[] known
    )
    {
        Dictionary<MaterialProperty, SourcedValue> values = new(material.Values);
        foreach ((MaterialProperty property, double value, string source, Provenance provenance) in known)
        {
            values[property] = new(value, source, provenance);
        }
        return material with { Values = values };
    }
}
