using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>A sail's mass per area is given, or follows from its thickness and a density, its own or its material's.</summary>
internal sealed class SailMassRule : Rule
{
    private readonly OneGroupOf _stated;
    private readonly Field _arealDensity;
    private readonly Field _thickness;
    private readonly Field _density;
    private readonly Field _material;
    private readonly Field _surface;

    public SailMassRule(Field arealDensity, Field thickness, Field density, Field material, Field surface)
    {
        (_arealDensity, _thickness, _density, _material) = (arealDensity, thickness, density, material);
        _surface = surface;
        _stated = new([arealDensity], [thickness, density]);
    }

    public override string Description =>
        $"{_stated.Description}, or {_thickness.Key} with a {_material.Key} of known density, or none of them on a {_surface.Key} of kind film whose layers have known densities";

    internal override void Check(TableReading table)
    {
        bool byMaterial =
            table.Has(_thickness) && table.Has(_material) && !table.Has(_density) && !table.Has(_arealDensity);
        bool byFilm = IsOnFilm(table) && !table.Has(_thickness) && !table.Has(_density) && !table.Has(_arealDensity);
        if (!byMaterial && !byFilm)
        {
            _stated.Check(table);
        }
    }

    // The layers of a film tell the mass per area; whether their densities are known is asked when the whole file is read.
    private bool IsOnFilm(TableReading table) =>
        table.Node?.Find(_surface.Key) is TextNode name
        && (table.Context.Root.Find("surface") as TableNode)?.Find(name.Text) is TableNode surface
        && surface.Find("kind") is TextNode { Text: "film" };

    // On a film; that the surface is one, only the reader knows.
    private static JsonObject Without(params Field[] fields) =>
        new()
        {
            ["not"] = new JsonObject
            {
                ["anyOf"] = new JsonArray([
                    .. fields.Select(f => new JsonObject { ["required"] = new JsonArray(f.Key) }),
                ]),
            },
        };

    internal override JsonObject Schema() =>
        new()
        {
            ["anyOf"] = new JsonArray(
                _stated.Schema(),
                Without(_arealDensity, _thickness, _density),
                new JsonObject
                {
                    ["required"] = new JsonArray(_thickness.Key, _material.Key),
                    ["not"] = new JsonObject
                    {
                        ["anyOf"] = new JsonArray(
                            new JsonObject { ["required"] = new JsonArray(_arealDensity.Key) },
                            new JsonObject { ["required"] = new JsonArray(_density.Key) }
                        ),
                    },
                }
            ),
        };
}
