using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>What one reading of a document shares between its tables.</summary>
internal sealed class ReadingContext(TableNode root, FaultList faults, SideFiles files, bool isSyntaxBroken)
{
    public TableNode Root { get; } = root;

    public FaultList Faults { get; } = faults;

    public SideFiles Files { get; } = files;

    /// <summary>True when part of the file could not be read, so that a missing key means nothing.</summary>
    public bool IsSyntaxBroken { get; } = isSyntaxBroken;

    /// <summary>Receives every number, when somebody wants to know them.</summary>
    public List<DesignNumber>? Numbers { get; init; }

    /// <summary>Receives every key that was asked for, when a test wants to know them.</summary>
    public HashSet<Field>? Asked { get; init; }
}
