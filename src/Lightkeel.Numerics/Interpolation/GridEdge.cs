namespace Lightkeel.Numerics.Interpolation;

/// <summary>An edge between two neighbouring points of a grid.</summary>
/// <param name="Column">Column of its first point.</param>
/// <param name="Row">Row of its first point.</param>
/// <param name="IsAcross">True when it leads to the next column, false when it leads to the next row.</param>
public readonly record struct GridEdge(int Column, int Row, bool IsAcross);

/// <summary>A line on which a function of two variables has one value.</summary>
/// <param name="X">First coordinates of its points.</param>
/// <param name="Y">Second coordinates, as many.</param>
/// <param name="IsClosed">True when it runs back into itself; its first point is then repeated at its end.</param>
public sealed record LevelLine(IReadOnlyList<double> X, IReadOnlyList<double> Y, bool IsClosed);
