namespace Lightkeel.Studies.Output.Requirements;

/// <summary>A part of a condition, with its place in the text.</summary>
internal abstract record ConditionNode(int Position);

internal sealed record LiteralNode(int Position, ConditionValue Value) : ConditionNode(Position);

internal sealed record PathNode(int Position, IReadOnlyList<PathStep> Steps) : ConditionNode(Position)
{
    public string Text => PathStep.Show(Steps, Steps.Count);
}

internal sealed record UnaryNode(int Position, string Symbol, ConditionNode Operand) : ConditionNode(Position);

internal sealed record BinaryNode(int Position, string Symbol, ConditionNode Left, ConditionNode Right)
    : ConditionNode(Position);

internal sealed record CallNode(int Position, string Name, IReadOnlyList<ConditionNode> Arguments)
    : ConditionNode(Position);

/// <summary>A step of a path: a key, an index (from the end when negative), or every entry.</summary>
internal readonly record struct PathStep(int Position, string? Key, int? Index)
{
    public bool IsEvery => Key is null && Index is null;

    public static string Show(IReadOnlyList<PathStep> steps, int count)
    {
        System.Text.StringBuilder text = new();
        for (int i = 0; i < count; i++)
        {
            PathStep step = steps[i];
            _ =
                step.Key is not null ? text.Append(i > 0 ? "." : "").Append(step.Key)
                : step.Index is int index ? text.Append(System.Globalization.CultureInfo.InvariantCulture, $"[{index}]")
                : text.Append("[*]");
        }
        return text.ToString();
    }
}
