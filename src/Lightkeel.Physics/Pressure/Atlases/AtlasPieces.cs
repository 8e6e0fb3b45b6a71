namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Pieces of a table, to be found by place.</summary>
internal sealed class AtlasPieces
{
    private readonly AtlasPiece[] _pieces;

    public AtlasPieces(IReadOnlyList<AtlasPiece> pieces) => _pieces = [.. pieces];

    /// <summary>The piece that holds a place; null where there is none that reached the accuracy.</summary>
    public AtlasPiece? At(double a, double b, double w)
    {
        foreach (AtlasPiece piece in _pieces)
        {
            if (piece.Region.Holds(a, b, w))
            {
                return piece.Serves ? piece : null;
            }
        }
        return null;
    }
}
