using Lightkeel.Numerics;

namespace Lightkeel.Studies.Verify;

/// <summary>
/// A value known from outside this project and the call of the library that must give it. The tests and the command
/// <c>verify</c> run the same list of these.
/// </summary>
/// <remarks>
/// A check may hold several values that one call gives, such as the components of a force. The error of each is measured
/// by its own size, or by <see cref="Size"/> where that is stated; the largest decides.
/// </remarks>
/// <param name="Id">Short name that stays, such as <c>BEA-01</c>.</param>
/// <param name="Quantity">What is computed, a few words.</param>
/// <param name="Inputs">For which numbers; empty where the quantity says it.</param>
public sealed record OutsideCheck(string Id, string Quantity, string Inputs = "")
{
    private readonly double? _size;
    private readonly double _tolerance;

    /// <summary>Where the quantity or its formula is published: title or journal, volume, page, year; or the derivation.</summary>
    public required string Source { get; init; }

    /// <summary>How the expected values came to be known.</summary>
    public required ExpectedOrigin Origin { get; init; }

    /// <summary>The expected values, one or more, finite.</summary>
    public required IReadOnlyList<double> Expected { get; init; }

    /// <summary>Names of the values, as many as there are; may be empty where there is one.</summary>
    public IReadOnlyList<string> Parts { get; init; } = [];

    /// <summary>Unit of the values; empty for pure numbers and where the values have several.</summary>
    public string Unit { get; init; } = "";

    /// <summary>Size by which the errors are measured, positive; null for the size of each expected value.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is not positive.</exception>
    public double? Size
    {
        get => _size;
        init => _size = value is { } size ? Require.Positive(size) : null;
    }

    /// <summary>Largest error that passes, relative to the size; zero where the values must be the same.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is negative.</exception>
    public required double Tolerance
    {
        get => _tolerance;
        init => _tolerance = Require.NotNegative(value);
    }

    /// <summary>Calls the library; as many values as are expected.</summary>
    public required Func<IReadOnlyList<double>> Compute { get; init; }

    /// <summary>Name of a value.</summary>
    /// <param name="index">Its place.</param>
    public string PartName(int index) => Parts.Count > 0 ? Parts[index] : "";

    /// <summary>The size by which the error of a value is measured.</summary>
    /// <param name="index">Its place.</param>
    public double SizeOf(int index) => Size ?? Math.Abs(Expected[index]);

    /// <summary>What is wrong with the check as data, one sentence; null when nothing is.</summary>
    public string? Fault() =>
        Expected.Count == 0 ? $"{Id} expects nothing."
        : Expected.Any(value => !double.IsFinite(value)) ? $"{Id} expects a number that is not finite."
        : Size is null && Expected.Contains(0.0) ? $"{Id} expects zero and states no size to measure the error by."
        : Expected.Count > 1 && Parts.Count != Expected.Count ? $"{Id} does not name each of its values."
        : Source.Length == 0 || Quantity.Length == 0 ? $"{Id} lacks its quantity or source."
        : Origin.Detail.Length == 0 && Origin.Kind != ValueOrigin.CommonPractice
            ? $"{Id} does not say where its values come from."
        : null;
}

/// <summary>The checks of one part of the library.</summary>
/// <param name="Name">Name for filters, lower case with hyphens.</param>
/// <param name="Title">Heading.</param>
/// <param name="Checks">The checks, in the order they are shown.</param>
public sealed record CheckModule(string Name, string Title, IReadOnlyList<OutsideCheck> Checks);
