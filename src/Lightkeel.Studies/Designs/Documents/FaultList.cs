namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Collects faults, up to a number that a person can still read.</summary>
internal sealed class FaultList
{
    /// <summary>How many faults are listed before the rest is only counted.</summary>
    public const int Most = 100;

    private readonly List<DesignFault> _faults = [];
    private int _left;

    public bool IsEmpty => _faults.Count == 0;

    /// <summary>How many faults have been added, listed or not.</summary>
    public int Count => _faults.Count + _left;

    public void Add(SourcePosition position, string what, string accepted)
    {
        DesignFault fault = new(position, what, accepted);
        if (_faults.Count < Most)
        {
            _faults.Add(fault);
        }
        else
        {
            _left++;
        }
    }

    /// <summary>The faults in the order of the file.</summary>
    public IReadOnlyList<DesignFault> ToList()
    {
        List<DesignFault> sorted =
        [
            .. _faults
                .Distinct()
                .OrderBy(f => f.Position.Source, StringComparer.Ordinal)
                .ThenBy(f => f.Position.Line)
                .ThenBy(f => f.Position.Column),
        ];
        if (_left > 0)
        {
            sorted.Add(new(_faults[^1].Position, $"{_left} more faults are not listed", "correct those above first"));
        }
        return sorted;
    }
}
