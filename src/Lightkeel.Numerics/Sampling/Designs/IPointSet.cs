namespace Lightkeel.Numerics.Sampling.Designs;

/// <summary>Numbered points of the unit cube; any point can be had alone and in any order.</summary>
public interface IPointSet
{
    /// <summary>Coordinates per point.</summary>
    int DimensionCount { get; }

    /// <summary>How many points there are.</summary>
    ulong PointCount { get; }

    /// <summary>Writes the coordinates of a point, each in (0, 1) unless the set says otherwise.</summary>
    /// <param name="index">0 … <see cref="PointCount"/> − 1.</param>
    /// <param name="coordinates">Exactly <see cref="DimensionCount"/> numbers.</param>
    /// <exception cref="ArgumentException">The index or the length of the span is out of range.</exception>
    void Point(ulong index, Span<double> coordinates);
}
