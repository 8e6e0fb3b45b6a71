namespace Lightkeel.Studies.Output;

/// <summary>A result holds a number that is infinite or not a number, which is never shown.</summary>
public sealed class NonFiniteResultException : Exception
{
    /// <summary>Creates the exception without places.</summary>
    public NonFiniteResultException()
        : this([]) { }

    /// <summary>Creates the exception with a message of its own.</summary>
    public NonFiniteResultException(string message)
        : base(message) => Paths = [];

    /// <summary>Creates the exception with a message of its own and a cause.</summary>
    public NonFiniteResultException(string message, Exception innerException)
        : base(message, innerException) => Paths = [];

    /// <summary>Creates the exception from the places of the numbers.</summary>
    /// <param name="paths">Paths in the result, such as <c>modes[0].frequency_Hz</c>.</param>
    public NonFiniteResultException(IReadOnlyList<string> paths)
        : base(Describe(paths)) => Paths = paths;

    /// <summary>Paths of the numbers in the result, at most eight.</summary>
    public IReadOnlyList<string> Paths { get; }

    private static string Describe(IReadOnlyList<string> paths) =>
        paths.Count == 0
            ? "The result holds a number that is not finite."
            : $"The result holds numbers that are not finite: {string.Join(", ", paths)}.";
}
