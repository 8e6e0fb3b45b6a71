using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Designs;

/// <summary>What came of reading a document: a design, or everything that is wrong with it.</summary>
/// <param name="Design">The design; null when there are faults.</param>
/// <param name="Faults">What is wrong, in the order of the file; empty when nothing is.</param>
public sealed record DesignReading(Design? Design, IReadOnlyList<DesignFault> Faults)
{
    /// <summary>The design, or an exception with all faults.</summary>
    /// <exception cref="DesignFaultException">There are faults.</exception>
    public Design DesignOrThrow() => Design ?? throw new DesignFaultException(Faults);
}
