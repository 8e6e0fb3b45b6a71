using System.Text.Json.Serialization.Metadata;

namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Compares the paths of a condition with the shape of a result before there is one.</summary>
internal static class ConditionShape
{
    public static void Check(string condition, ConditionNode node, JsonTypeInfo shape)
    {
        switch (node)
        {
            case PathNode path:
                CheckPath(condition, path, shape);
                break;
            case UnaryNode unary:
                Check(condition, unary.Operand, shape);
                break;
            case BinaryNode binary:
                Check(condition, binary.Left, shape);
                Check(condition, binary.Right, shape);
                break;
            case CallNode call:
                foreach (ConditionNode argument in call.Arguments)
                {
                    Check(condition, argument, shape);
                }
                break;
        }
    }

    private static void CheckPath(string condition, PathNode path, JsonTypeInfo shape)
    {
        JsonTypeInfo at = shape;
        foreach (PathStep step in path.Steps)
        {
            if (step.Key is null)
            {
                if (at.Kind != JsonTypeInfoKind.Enumerable || at.ElementType is null)
                {
                    return; // the evaluation says what it is
                }
                at = shape.Options.GetTypeInfo(at.ElementType);
                continue;
            }
            if (at.Kind != JsonTypeInfoKind.Object || at.Properties.Count == 0)
            {
                return;
            }
            JsonPropertyInfo[] written = [.. Written(at)];
            if (written.FirstOrDefault(property => property.Name == step.Key) is not { } found)
            {
                IEnumerable<string> keys = written.Select(property => property.Name).Distinct();
                throw new RequirementException(
                    condition,
                    step.Position,
                    $"The result has no \"{step.Key}\" here: {NearestName.Suggestion(step.Key, keys)}"
                );
            }
            at = shape.Options.GetTypeInfo(found.PropertyType);
        }
    }

    // Those of the record and of every record that may stand in its place; properties left out of the document have no getter here.
    private static IEnumerable<JsonPropertyInfo> Written(JsonTypeInfo shape)
    {
        IEnumerable<JsonTypeInfo> kinds = (shape.PolymorphismOptions?.DerivedTypes ?? [])
            .Where(derived => derived.DerivedType != shape.Type)
            .Select(derived => shape.Options.GetTypeInfo(derived.DerivedType))
            .Prepend(shape);
        return kinds.SelectMany(kind => kind.Properties).Where(property => property.Get is not null);
    }
}
