using System.Globalization;

namespace Lightkeel.Studies.Output.Requirements;

internal enum ValueKind
{
    /// <summary>Does not exist; <see cref="ConditionValue.Text"/> says why.</summary>
    Unknown,
    Null,
    Number,
    Text,
    Truth,
    List,
    Record,
}

/// <summary>A value met while a condition is worked out.</summary>
internal sealed record ConditionValue(
    ValueKind Kind,
    double Number = 0,
    string Text = "",
    IReadOnlyList<ConditionValue>? Entries = null
)
{
    public static readonly ConditionValue Null = new(ValueKind.Null);

    public static readonly ConditionValue Record = new(ValueKind.Record);

    public bool IsTrue => Kind == ValueKind.Truth && Number != 0;

    public bool IsUnknown => Kind == ValueKind.Unknown;

    public static ConditionValue Of(double number) => new(ValueKind.Number, number);

    public static ConditionValue Of(string text) => new(ValueKind.Text, Text: text);

    public static ConditionValue Of(bool truth) => new(ValueKind.Truth, truth ? 1 : 0);

    public static ConditionValue Of(IReadOnlyList<ConditionValue> entries) => new(ValueKind.List, Entries: entries);

    public static ConditionValue Unknown(string reason) => new(ValueKind.Unknown, Text: reason);

    /// <summary>What it is, for messages: "a text", "a list of 4".</summary>
    public string Describe() =>
        Kind switch
        {
            ValueKind.Number => "a number",
            ValueKind.Text => "a text",
            ValueKind.Truth => "true or false",
            ValueKind.List => $"a list of {Entries!.Count.ToString(CultureInfo.InvariantCulture)}",
            ValueKind.Record => "a record",
            _ => "null",
        };

    /// <summary>The value itself, for explanations.</summary>
    public string Show() =>
        Kind switch
        {
            ValueKind.Number => Number.ToString("R", CultureInfo.InvariantCulture),
            ValueKind.Text => $"\"{Text}\"",
            ValueKind.Truth => IsTrue ? "true" : "false",
            ValueKind.Unknown => Text.Length == 0 ? "null" : $"null ({Text})",
            ValueKind.List when Entries!.Count <= 6 => $"[{string.Join(", ", Entries.Select(entry => entry.Show()))}]",
            _ => Describe(),
        };
}
