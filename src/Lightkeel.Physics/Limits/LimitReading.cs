using Lightkeel.Numerics;
using Lightkeel.Physics.Units;

namespace Lightkeel.Physics.Limits;

/// <summary>One limit: what was computed against what is allowed, or why it was not assessed.</summary>
public sealed record LimitReading
{
    private LimitReading(string name, string subject, string text) => (Name, Subject, Text) = (name, subject, text);

    /// <summary>Name of the kind of limit, such as <c>film-temperature</c>.</summary>
    public string Name { get; }

    /// <summary>The part it is about, such as a sail's name.</summary>
    public string Subject { get; }

    /// <summary>What was compared, or what is missing, in a sentence.</summary>
    public string Text { get; }

    /// <summary>What was computed, SI; null when not assessed.</summary>
    public double? Value { get; private init; }

    /// <summary>What is allowed with the safety factor in it, SI.</summary>
    public double? Allowed { get; private init; }

    /// <summary>Dimension of both.</summary>
    public Dimension Dimension { get; private init; }

    /// <summary>True when the value must not exceed what is allowed; false when it must reach it.</summary>
    public bool IsUpper { get; private init; } = true;

    /// <summary>The safety factor inside the allowed value.</summary>
    public double SafetyFactor { get; private init; } = 1;

    /// <summary>Where the allowed value comes from.</summary>
    public string Source { get; private init; } = "";

    /// <summary>Margin of safety: allowed/value − 1 for an upper limit, value/allowed − 1 for a lower one; below zero it fails.</summary>
    public double? Margin { get; private init; }

    /// <summary>True when the limit fails.</summary>
    public bool Fails => Margin < 0;

    /// <summary>Largest margin that is told: beyond it nothing is gained.</summary>
    public const double LargestMargin = 1e6;

    /// <summary>A limit that a value must not exceed.</summary>
    public static LimitReading Upper(
        string name,
        string subject,
        string text,
        double value,
        double limit,
        double safetyFactor,
        Dimension dimension,
        string source
    )
    {
        double allowed = Require.NotNegative(limit) / Require.Positive(safetyFactor);
        Require.Finite(value);
        return new(name, subject, text)
        {
            Value = value,
            Allowed = allowed,
            Dimension = dimension,
            SafetyFactor = safetyFactor,
            Source = source,
            Margin = value <= 0 ? LargestMargin : Math.Min(LargestMargin, allowed / value - 1),
        };
    }

    /// <summary>A limit that a value must reach.</summary>
    public static LimitReading Lower(
        string name,
        string subject,
        string text,
        double value,
        double limit,
        double safetyFactor,
        Dimension dimension,
        string source
    )
    {
        double allowed = Require.Positive(limit) * Require.Positive(safetyFactor);
        Require.Finite(value);
        return new(name, subject, text)
        {
            Value = value,
            Allowed = allowed,
            Dimension = dimension,
            IsUpper = false,
            SafetyFactor = safetyFactor,
            Source = source,
            Margin = Math.Min(LargestMargin, value / allowed - 1),
        };
    }

    /// <summary>A limit that fails without a number, such as a film that has run away.</summary>
    public static LimitReading Broken(string name, string subject, string text, string source) =>
        new(name, subject, text) { Margin = -1, Source = source };

    /// <summary>A limit that cannot be assessed.</summary>
    /// <param name="name">Name of the limit.</param>
    /// <param name="subject">The part.</param>
    /// <param name="missing">What to give in the design, or why it does not apply.</param>
    public static LimitReading NotAssessed(string name, string subject, string missing) => new(name, subject, missing);

    /// <summary>The limits with the governing one first, those not assessed last; equal margins in the order given.</summary>
    public static IReadOnlyList<LimitReading> Ordered(IEnumerable<LimitReading> limits)
    {
        ArgumentNullException.ThrowIfNull(limits);
        return [.. limits.OrderBy(l => l.Margin ?? double.PositiveInfinity)];
    }
}
