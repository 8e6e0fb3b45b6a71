namespace Lightkeel.Studies.Models.Quantities;

/// <summary>What it takes to compute a quantity of a design: each needs what stands before it, and costs many times as much.</summary>
public enum QuantityCost
{
    /// <summary>The masses alone.</summary>
    Mass,

    /// <summary>Light on the craft on its axis, trim and linear modes.</summary>
    Linear,

    /// <summary>The potential well.</summary>
    Well,

    /// <summary>The straight boost.</summary>
    Boost,

    /// <summary>The mean time to the escape from the well under the design's noise.</summary>
    Escape,

    /// <summary>A ride of the full equations without noise.</summary>
    Ride,
}

/// <summary>Something about a design that can be measured as one number.</summary>
/// <param name="Name">Name with its unit, as in results.</param>
/// <param name="Unit">SI unit; empty for a pure number.</param>
/// <param name="Cost">What it takes.</param>
/// <param name="Text">What it is, one phrase.</param>
/// <param name="Read">Its value, or why there is none.</param>
public sealed record DesignQuantity(
    string Name,
    string Unit,
    QuantityCost Cost,
    string Text,
    Func<DesignMeasurement, Measured<double>> Read
);

/// <summary>Something measured, or why it could not be.</summary>
/// <typeparam name="T">What is measured.</typeparam>
/// <param name="Value">The value; not read where there is a reason.</param>
/// <param name="Reason">Why there is none; null where there is one.</param>
public readonly record struct Measured<T>(T Value, string? Reason)
{
    /// <summary>True where there is a value.</summary>
    public bool Exists => Reason is null;

    /// <summary>Something that could not be measured.</summary>
    public static Measured<T> Missing(string reason) => new(default!, reason);

    /// <summary>Something that follows from this.</summary>
    public Measured<TNext> Then<TNext>(Func<T, Measured<TNext>> next)
    {
        ArgumentNullException.ThrowIfNull(next);
        return Reason is null ? next(Value) : Measured<TNext>.Missing(Reason);
    }

    /// <summary>A number that follows from this; one that does not exist carries a reason.</summary>
    public Measured<double> Number(Func<T, double?> next, string missing = "it does not exist")
    {
        ArgumentNullException.ThrowIfNull(next);
        return Reason is not null ? Measured<double>.Missing(Reason)
            : next(Value) is { } v && double.IsFinite(v) ? new(v, null)
            : Measured<double>.Missing(missing);
    }
}
