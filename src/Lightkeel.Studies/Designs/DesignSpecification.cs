using System.Text.Json.Nodes;
using Lightkeel.Physics.Materials;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs;

/// <summary>The one description of the design file: it reads files, addresses numbers, and writes the schema and the reference page.</summary>
public static class DesignSpecification
{
    private static readonly TextField Title = TextField.Free(
        "title",
        "Title of the design, for screens and reports.",
        "untitled"
    );

    private static readonly TableSpec<Design> Document = new(
        "A craft on a beam.",
        [
            Title,
            BeamSpec.Section,
            SailSpec.Section,
            SurfaceSpec.Section,
            MassSpec.Section,
            CraftSpec.Section,
            StartSpec.Section,
            RideSpec.Section,
            NoiseSpec.Section,
            DropOutSpec.Section,
            ScatterSpec.Section,
            SurroundingsSpec.Section,
            MaterialSpec.Section,
            LimitsSpec.Limits,
            LimitsSpec.Budget,
            LimitsSpec.Mission,
        ],
        Build
    );

    /// <summary>The whole file.</summary>
    public static TableSpec Root => Document;

    /// <summary>The JSON Schema (draft 2020-12) of a design file, for editors.</summary>
    /// <remarks>It knows keys, types, words, ranges of pure numbers and the form of quantities; the reader also knows dimensions.</remarks>
    public static JsonObject JsonSchema()
    {
        JsonObject schema = new()
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "Lightkeel design",
            ["$defs"] = new JsonObject
            {
                ["quantity"] = new JsonObject { ["type"] = "string", ["pattern"] = QuantityPattern.WithUnit },
            },
        };
        foreach ((string key, JsonNode? value) in Document.Schema())
        {
            schema[key] = value?.DeepClone();
        }
        return schema;
    }

    internal static Design? Read(ReadingContext context) =>
        Document.Read(new(context, context.Root, context.Root.Position, null, ""));

    private static Design Build(TableReading table)
    {
        Design design = new()
        {
            Title = table.Get(Title)!,
            Beam = table.Get(BeamSpec.Section)!,
            Sails = table.Get(SailSpec.Section),
            Surfaces = table.Get(SurfaceSpec.Section),
            Masses = table.Get(MassSpec.Section),
            Craft = table.Get(CraftSpec.Section),
            Start = table.Get(StartSpec.Section)!,
            Ride = table.Get(RideSpec.Section)!,
            Noises = table.Get(NoiseSpec.Section),
            DropOuts = table.Get(DropOutSpec.Section),
            Scatters = table.Get(ScatterSpec.Section),
            Surroundings = table.Get(SurroundingsSpec.Section)!,
            Materials = table.Get(MaterialSpec.Section),
            Limits = table.Get(LimitsSpec.Limits)!,
            Budget = table.Get(LimitsSpec.Budget)!,
            Mission = table.Get(LimitsSpec.Mission)!,
        };
        design = WithFilmMass(design, table);
        if (table.IsSound && design.Craft is null && !HasMass(design))
        {
            table.Fault(
                SailSpec.Section,
                "the craft has no mass",
                "expected an areal_density above 0, a [[mass]] above 0, or mass properties in [craft]"
            );
        }
        return design;
    }

    // A thickness without a density takes that of the sail's material, and a sail of which neither is said that of its film, wherever they stand.
    private static Design WithFilmMass(Design design, TableReading table)
    {
        if (!table.IsSound)
        {
            return design;
        }
        List<SailDesign> sails = [];
        foreach (SailDesign sail in design.Sails)
        {
            double? density = sail.DensityKilogramsPerCubicMetre;
            if (sail.ThicknessMetres is { } thickness && density is null)
            {
                density = design.MaterialOf(sail.MaterialName)?.Value(MaterialProperty.Density);
                if (density is null)
                {
                    table.Fault(
                        SailSpec.Section,
                        $"sail.{sail.Name} has a thickness, but its material {sail.MaterialName} has no density",
                        $"give the sail a density, or material.{sail.MaterialName} one"
                    );
                }
                sails.Add(sail with { ArealDensityKilogramsPerSquareMetre = thickness * (density ?? 0) });
            }
            else if (sail.IsWeighedByFilm && design.SurfaceOf(sail) is FilmSurfaceDesign film)
            {
                double? areal = film.ArealDensityKilogramsPerSquareMetre(design);
                if (areal is null)
                {
                    table.Fault(
                        SailSpec.Section,
                        $"sail.{sail.Name} lacks areal_density, and surface.{film.Name} has a layer of unknown density",
                        $"give the sail an areal_density, or each layer a density or a material that has one"
                    );
                }
                sails.Add(sail with { ArealDensityKilogramsPerSquareMetre = areal ?? 0 });
            }
            else
            {
                sails.Add(sail);
            }
        }
        return design with { Sails = sails };
    }

    private static bool HasMass(Design design) =>
        design.Sails.Any(s => s.ArealDensityKilogramsPerSquareMetre > 0) || design.Masses.Any(m => m.MassKilograms > 0);
}
