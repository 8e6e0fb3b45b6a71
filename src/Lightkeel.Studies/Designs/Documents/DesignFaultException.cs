namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Thrown by the calls that must return a design, with every fault of the input.</summary>
public sealed class DesignFaultException : Exception
{
    /// <summary>An exception without faults.</summary>
    public DesignFaultException()
        : this([]) { }

    /// <summary>An exception with a message of its own and no faults.</summary>
    /// <param name="message">The message.</param>
    public DesignFaultException(string message)
        : base(message) { }

    /// <summary>An exception with a message and a cause.</summary>
    /// <param name="message">The message.</param>
    /// <param name="innerException">The cause.</param>
    public DesignFaultException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>An exception that lists faults, one a line.</summary>
    /// <param name="faults">What is wrong.</param>
    public DesignFaultException(IReadOnlyList<DesignFault> faults)
        : base(string.Join('\n', faults)) => Faults = faults;

    /// <summary>What is wrong.</summary>
    public IReadOnlyList<DesignFault> Faults { get; } = [];
}
