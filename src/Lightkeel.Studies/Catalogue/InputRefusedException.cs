namespace Lightkeel.Studies.Catalogue;

/// <summary>What the user gave is wrong; all faults that were found are listed at once.</summary>
public sealed class InputRefusedException : Exception
{
    /// <summary>Creates the exception without faults.</summary>
    public InputRefusedException()
        : this("The input is refused.") { }

    /// <summary>Creates the exception from one fault without a place.</summary>
    public InputRefusedException(string message)
        : this([new InputFault("", message)]) { }

    /// <summary>Creates the exception from one fault without a place, and its cause.</summary>
    public InputRefusedException(string message, Exception innerException)
        : base(message, innerException) => Faults = [new InputFault("", message)];

    /// <summary>Creates the exception from its faults.</summary>
    /// <param name="faults">One fault or more.</param>
    public InputRefusedException(IReadOnlyList<InputFault> faults)
        : base(string.Join('\n', faults)) => Faults = faults;

    /// <summary>Creates the exception from one fault.</summary>
    /// <param name="where">The place.</param>
    /// <param name="what">What is wrong.</param>
    /// <param name="accepted">What would be accepted instead.</param>
    public InputRefusedException(string where, string what, string accepted = "")
        : this([new InputFault(where, what, accepted)]) { }

    /// <summary>The faults.</summary>
    public IReadOnlyList<InputFault> Faults { get; }
}
