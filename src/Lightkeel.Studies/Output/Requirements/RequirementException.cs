namespace Lightkeel.Studies.Output.Requirements;

/// <summary>A condition cannot be understood or names something that the result does not have.</summary>
public sealed class RequirementException : Exception
{
    /// <summary>Creates the exception without details.</summary>
    public RequirementException()
        : this("The condition cannot be understood.") { }

    /// <summary>Creates the exception with a message.</summary>
    public RequirementException(string message)
        : base(message) => What = message;

    /// <summary>Creates the exception with a message and a cause.</summary>
    public RequirementException(string message, Exception innerException)
        : base(message, innerException) => What = message;

    /// <summary>Creates the exception with the place in the condition.</summary>
    /// <param name="condition">The condition as written.</param>
    /// <param name="position">Place of the fault, from 0.</param>
    /// <param name="what">What is wrong there.</param>
    public RequirementException(string condition, int position, string what)
        : base($"{what}\n  {OneLine(condition)}\n  {new string(' ', position)}^") =>
        (Position, What) = (position, what);

    /// <summary>Place of the fault in the condition, from 0.</summary>
    public int Position { get; }

    /// <summary>What is wrong, without the picture of the place.</summary>
    public string What { get; }

    private static string OneLine(string condition) => condition.ReplaceLineEndings(" ").Replace('\t', ' ');
}
