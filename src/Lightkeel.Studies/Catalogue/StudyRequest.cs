using System.Collections.Immutable;

namespace Lightkeel.Studies.Catalogue;

/// <summary>The values of a study's options, read and checked. Immutable.</summary>
public sealed class StudyRequest
{
    private readonly ImmutableDictionary<string, ImmutableArray<object>> _values;

    private StudyRequest(
        ImmutableDictionary<string, ImmutableArray<object>> values,
        ImmutableArray<IOpenDesign> designs
    ) => (_values, Designs) = (values, designs);

    /// <summary>A request without values.</summary>
    public static StudyRequest Empty { get; } =
        new(ImmutableDictionary.Create<string, ImmutableArray<object>>(StringComparer.Ordinal), []);

    /// <summary>All designs of the request, in the order they were given.</summary>
    public ImmutableArray<IOpenDesign> Designs { get; }

    /// <summary>The request with the values of an option set.</summary>
    /// <param name="option">The option.</param>
    /// <param name="values">Its values; none takes the option away.</param>
    public StudyRequest With<T>(StudyOption<T> option, params ReadOnlySpan<T> values)
        where T : notnull
    {
        ArgumentNullException.ThrowIfNull(option);
        StudyRequest result = this;
        object[] boxed = new object[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            boxed[i] = values[i];
        }
        return result.WithValues(option, boxed);
    }

    /// <summary>True when the option has a value, given or by default.</summary>
    public bool Has(StudyOption option)
    {
        ArgumentNullException.ThrowIfNull(option);
        return _values.TryGetValue(option.Name, out ImmutableArray<object> values) && values.Length > 0;
    }

    /// <summary>The value of an option, given or by default.</summary>
    /// <exception cref="KeyNotFoundException">It has none.</exception>
    public T Value<T>(StudyOption<T> option)
        where T : notnull
    {
        ArgumentNullException.ThrowIfNull(option);
        if (_values.TryGetValue(option.Name, out ImmutableArray<object> values) && values.Length > 0)
        {
            return (T)values[^1];
        }
        return option.Kind == OptionKind.Flag
            ? (T)(object)false
            : throw new KeyNotFoundException($"The option \"{option.Name}\" has no value; ask Has first.");
    }

    /// <summary>The value of an option, or a fallback.</summary>
    public T ValueOr<T>(StudyOption<T> option, T fallback)
        where T : notnull => Has(option) ? Value(option) : fallback;

    /// <summary>All values of a repeatable option, in the order given.</summary>
    public IReadOnlyList<T> Values<T>(StudyOption<T> option)
        where T : notnull
    {
        ArgumentNullException.ThrowIfNull(option);
        return _values.TryGetValue(option.Name, out ImmutableArray<object> values) ? [.. values.Cast<T>()] : [];
    }

    internal StudyRequest WithValues(StudyOption option, IReadOnlyList<object> values)
    {
        ImmutableDictionary<string, ImmutableArray<object>> next = _values.SetItem(option.Name, [.. values]);
        IEnumerable<IOpenDesign> designs =
            option.Kind == OptionKind.Design ? Designs.Concat(values.Cast<IOpenDesign>()) : Designs;
        return new(next, [.. designs]);
    }
}
