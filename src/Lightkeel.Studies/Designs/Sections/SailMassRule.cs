using System.Text.Json.Nodes;
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

    public SailMassRule(Field arealDensity, Field thickness, Field density, Field material)
    {
        (_arealDensity, _thickness, _density, _material) = (arealDensity, thickness, density, material);
        _stated = new([arealDensity], [thickness, density]);
    }

    public override string Description =>
        $"{_stated.Description}, or {_thickness.Key} with a {_material.Key} of known density";

    internal override void Check(TableReading table)
    {
        bool byMaterial =
            table.Has(_thickness) && table.Has(_material) && !table.Has(_density) && !table.Has(_arealDensity);
        if (!byMaterial)
        {
            _stated.Check(table);
        }
    }

    internal override JsonObject Schema() =>
        new()
        {
            ["anyOf"] = new JsonArray(
                _stated.Schema(),
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
