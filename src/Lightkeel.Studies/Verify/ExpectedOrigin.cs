namespace Lightkeel.Studies.Verify;

/// <summary>How an expected value came to be known.</summary>
public enum ValueOrigin
{
    /// <summary>Read in a publication or a public file.</summary>
    Read,

    /// <summary>Computed outside this project's code, from a published formula or with a general-purpose library.</summary>
    Computed,

    /// <summary>Remembered; not read again and not computed.</summary>
    Memory,

    /// <summary>A rule of the trade without a source.</summary>
    CommonPractice,
}

/// <summary>Where an expected value comes from. Immutable.</summary>
/// <param name="Kind">Read, computed, remembered, or common practice.</param>
/// <param name="Detail">Where it was read or with what it was computed; empty for common practice.</param>
public sealed record ExpectedOrigin(ValueOrigin Kind, string Detail)
{
    /// <summary>The word of the kind: read, computed, memory or common-practice.</summary>
    public string Word =>
        Kind switch
        {
            ValueOrigin.Read => "read",
            ValueOrigin.Computed => "computed",
            ValueOrigin.Memory => "memory",
            _ => "common-practice",
        };

    /// <summary>A value that was read.</summary>
    /// <param name="where">Where.</param>
    public static ExpectedOrigin Read(string where) => new(ValueOrigin.Read, where);

    /// <summary>A value that was computed outside this project's code.</summary>
    /// <param name="with">With what.</param>
    public static ExpectedOrigin Computed(string with) => new(ValueOrigin.Computed, with);

    /// <summary>A value from memory.</summary>
    /// <param name="what">What is remembered.</param>
    public static ExpectedOrigin FromMemory(string what) => new(ValueOrigin.Memory, what);

    /// <summary>A rule of the trade without a source.</summary>
    public static ExpectedOrigin CommonPractice { get; } = new(ValueOrigin.CommonPractice, "");
}
