namespace Lightkeel.Numerics.Interpolation;

/// <summary>Joins segments between crossed edges to lines as long as they go.</summary>
internal sealed class EdgeChain
{
    private readonly Dictionary<GridEdge, List<GridEdge>> _neighbours = [];
    private readonly List<GridEdge> _order = [];

    /// <summary>Adds a segment.</summary>
    public void Add(GridEdge a, GridEdge b)
    {
        Neighbours(a).Add(b);
        Neighbours(b).Add(a);
    }

    /// <summary>The lines: open ones first, each in the order in which its first segment was added.</summary>
    public IEnumerable<IReadOnlyList<GridEdge>> Lines()
    {
        foreach (GridEdge end in _order.Where(e => _neighbours[e].Count == 1))
        {
            if (_neighbours[end].Count == 1)
            {
                yield return Follow(end);
            }
        }
        foreach (GridEdge start in _order)
        {
            if (_neighbours[start].Count == 2)
            {
                yield return Follow(start);
            }
        }
    }

    private List<GridEdge> Neighbours(GridEdge edge)
    {
        if (!_neighbours.TryGetValue(edge, out List<GridEdge>? list))
        {
            _neighbours[edge] = list = [];
            _order.Add(edge);
        }
        return list;
    }

    // Walks and takes the segments away, so that none is walked twice.
    private List<GridEdge> Follow(GridEdge start)
    {
        List<GridEdge> line = [start];
        GridEdge at = start;
        while (_neighbours[at].Count > 0)
        {
            GridEdge next = _neighbours[at][0];
            _neighbours[at].RemoveAt(0);
            _neighbours[next].Remove(at);
            line.Add(next);
            at = next;
        }
        return line;
    }
}
