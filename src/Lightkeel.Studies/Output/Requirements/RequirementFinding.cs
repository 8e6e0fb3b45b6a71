namespace Lightkeel.Studies.Output.Requirements;

/// <summary>What became of a condition.</summary>
/// <param name="Condition">The condition as written.</param>
/// <param name="Holds">True when it holds.</param>
/// <param name="Values">The quantities it looked at, such as <c>growth_rate_1_s = 0.42</c>.</param>
public sealed record RequirementFinding(string Condition, bool Holds, string Values)
{
    /// <summary>One sentence for people.</summary>
    public override string ToString() =>
        $"{(Holds ? "holds" : "does not hold")}: {Condition}{(Values.Length == 0 ? "" : $"  ({Values})")}";
}
