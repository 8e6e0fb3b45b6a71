namespace Lightkeel.Numerics.Sampling.Designs;

/// <summary>The one check that every point set makes of a request.</summary>
internal static class PointRequest
{
    /// <summary>Refuses a point that does not exist, or room for the wrong number of coordinates.</summary>
    public static void Check(IPointSet set, ulong index, ReadOnlySpan<double> coordinates)
    {
        if (index >= set.PointCount)
        {
            throw new ArgumentOutOfRangeException(nameof(index), index, $"Points are 0 to {set.PointCount - 1}.");
        }
        if (coordinates.Length != set.DimensionCount)
        {
            throw new ArgumentException(
                $"Give room for exactly {set.DimensionCount} coordinates, not {coordinates.Length}.",
                nameof(coordinates)
            );
        }
    }
}
