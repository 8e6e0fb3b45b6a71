using System.Text.Json.Serialization.Metadata;

namespace Lightkeel.Studies.Output.Requirements;

/// <summary>A condition on a result, such as <c>growth_rate_1_s &lt;= 0 &amp;&amp; verdict == "damped"</c>.</summary>
/// <remarks>
/// <para>Paths begin at the results: <c>modes[0].frequency_Hz</c>, <c>modes[-1]</c> (the last), <c>modes[*].growth_1_s</c> (a
/// list of all). Operators, weakest first: <c>||</c>, <c>&amp;&amp;</c>, comparisons (chains such as <c>0.9 &lt; x &lt; 1.1</c>
/// are allowed), <c>+ -</c>, <c>* /</c>, signs and <c>!</c>. They act entry by entry on lists. Functions: <c>abs sqrt min max sum
/// count all any</c> and <c>near(a, b, relative difference)</c>. Texts stand in single or double quotes. Numbers are in the
/// unit that the key ends in.</para>
/// <para>A quantity that does not exist (null) can be tested by <c>== null</c>; any other condition on it neither holds nor
/// fails, and counts as not holding. Immutable, safe to share.</para>
/// </remarks>
public sealed class Requirement
{
    private readonly ConditionNode _node;

    private Requirement(string text, ConditionNode node) => (Text, _node) = (text, node);

    /// <summary>The condition as written.</summary>
    public string Text { get; }

    /// <summary>Reads a condition.</summary>
    /// <param name="text">The condition.</param>
    /// <exception cref="RequirementException">It cannot be understood; the message shows the place.</exception>
    public static Requirement Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return new(text, ConditionParser.Parse(text));
    }

    /// <summary>Refuses keys that results of a shape cannot have, before the work is done.</summary>
    /// <param name="shape">The serialisation of the result record.</param>
    /// <exception cref="RequirementException">A key is unknown; the message names the nearest.</exception>
    public void CheckAgainst(JsonTypeInfo shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        ConditionShape.Check(Text, _node, shape);
    }

    /// <summary>Works the condition out.</summary>
    /// <param name="results">The results.</param>
    /// <returns>Whether it holds, and the values it looked at.</returns>
    /// <exception cref="RequirementException">It names something the results lack, or mixes kinds of value.</exception>
    public RequirementFinding Judge(ResultDocument results)
    {
        ArgumentNullException.ThrowIfNull(results);
        ConditionEvaluator evaluator = new(Text, results.Root);
        ConditionValue value = evaluator.Evaluate(_node);
        if (value.Kind is not (ValueKind.Truth or ValueKind.Unknown))
        {
            string hint = value.Kind == ValueKind.List ? " Wrap it in all(...) or any(...)." : "";
            throw new RequirementException(
                Text,
                _node.Position,
                $"The condition is {value.Describe()}, not true or false.{hint}"
            );
        }
        string values = string.Join(", ", evaluator.Seen.Select(pair => $"{pair.Key} = {pair.Value.Show()}"));
        return new(Text, value.IsTrue, values);
    }
}
