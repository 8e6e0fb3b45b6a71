using System.Text.Json;

namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Works a condition out on a result.</summary>
internal sealed class ConditionEvaluator(string condition, JsonElement root)
{
    private readonly Dictionary<string, ConditionValue> _seen = [];

    /// <summary>The paths met, with their values, in the order met.</summary>
    public IReadOnlyDictionary<string, ConditionValue> Seen => _seen;

    public ConditionValue Evaluate(ConditionNode node)
    {
        string? fault = null;
        ConditionValue value = node switch
        {
            LiteralNode literal => literal.Value,
            PathNode path => _seen[path.Text] = Look(path, root, 0),
            UnaryNode unary => ConditionOperators.Unary(unary.Symbol, Evaluate(unary.Operand), out fault),
            BinaryNode binary => EvaluateBinary(binary, out fault),
            CallNode call => ConditionFunctions.Call(call.Name, [.. call.Arguments.Select(Evaluate)], out fault),
            _ => throw new InvalidOperationException("Unknown kind of node."),
        };
        return fault is null ? value : throw new RequirementException(condition, node.Position, fault);
    }

    /// <summary>The right side of "and" and "or" is left alone when the left side decides.</summary>
    private ConditionValue EvaluateBinary(BinaryNode node, out string? fault)
    {
        fault = null;
        ConditionValue left = Evaluate(node.Left);
        bool decided = left.Kind == ValueKind.Truth && node.Symbol == (left.IsTrue ? "||" : "&&");
        return decided ? left : ConditionOperators.Binary(node.Symbol, left, Evaluate(node.Right), out fault);
    }

    private ConditionValue Look(PathNode path, JsonElement at, int from)
    {
        for (int i = from; i < path.Steps.Count; i++)
        {
            PathStep step = path.Steps[i];
            if (step.Key is not null)
            {
                JsonElement holder = at;
                at = Member(path, i, at, out ConditionValue? missing);
                if (missing is not null)
                {
                    return missing;
                }
                if (at.ValueKind == JsonValueKind.Null)
                {
                    return ConditionValue.Unknown(ReasonFor(holder, step.Key));
                }
            }
            else if (step.IsEvery)
            {
                RequireList(path, i, at);
                return ConditionValue.Of([.. at.EnumerateArray().Select(entry => Look(path, entry, i + 1))]);
            }
            else
            {
                at = Entry(path, i, at);
            }
        }
        return Convert(at);
    }

    private JsonElement Member(PathNode path, int index, JsonElement at, out ConditionValue? missing)
    {
        missing = null;
        PathStep step = path.Steps[index];
        string holder = index == 0 ? "The result" : $"\"{PathStep.Show(path.Steps, index)}\"";
        if (at.ValueKind != JsonValueKind.Object)
        {
            throw Fault(step, $"{holder} is {Convert(at).Describe()} and has no \"{step.Key}\".");
        }
        if (at.TryGetProperty(step.Key!, out JsonElement member))
        {
            return member;
        }
        const string Ending = "_reason";
        if (
            step.Key!.EndsWith(Ending, StringComparison.Ordinal) && at.TryGetProperty(step.Key[..^Ending.Length], out _)
        )
        {
            missing = ConditionValue.Unknown("");
            return default;
        }
        IEnumerable<string> keys = at.EnumerateObject().Select(property => property.Name);
        throw Fault(step, $"{holder} has no \"{step.Key}\": {NearestName.Suggestion(step.Key, keys)}");
    }

    private JsonElement Entry(PathNode path, int index, JsonElement at)
    {
        RequireList(path, index, at);
        int count = at.GetArrayLength();
        int wanted = path.Steps[index].Index!.Value;
        int entry = wanted < 0 ? count + wanted : wanted;
        return entry >= 0 && entry < count
            ? at[entry]
            : throw Fault(
                path.Steps[index],
                FormattableString.Invariant(
                    $"\"{PathStep.Show(path.Steps, index)}\" has {count} entries, counted from 0; there is no [{wanted}]."
                )
            );
    }

    private void RequireList(PathNode path, int index, JsonElement at)
    {
        if (at.ValueKind != JsonValueKind.Array)
        {
            throw Fault(
                path.Steps[index],
                $"\"{PathStep.Show(path.Steps, index)}\" is {Convert(at).Describe()}, not a list."
            );
        }
    }

    private static string ReasonFor(JsonElement holder, string key) =>
        holder.TryGetProperty(key + "_reason", out JsonElement reason) && reason.ValueKind == JsonValueKind.String
            ? reason.GetString()!
            : "";

    private static ConditionValue Convert(JsonElement element) =>
        element.ValueKind switch
        {
            JsonValueKind.Number => ConditionValue.Of(element.GetDouble()),
            JsonValueKind.String => ConditionValue.Of(element.GetString()!),
            JsonValueKind.True or JsonValueKind.False => ConditionValue.Of(element.GetBoolean()),
            JsonValueKind.Array => ConditionValue.Of([.. element.EnumerateArray().Select(Convert)]),
            JsonValueKind.Object => ConditionValue.Record,
            _ => ConditionValue.Unknown(""),
        };

    private RequirementException Fault(PathStep step, string what) => new(condition, step.Position, what);
}
