using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>
/// Assessors of the slices in work, safe to ask from several threads. Each shares light between its cells; those of slices that are
/// done are let go.
/// </summary>
/// <param name="input">The input.</param>
/// <param name="accuracy">Requested relative accuracy of forces.</param>
/// <param name="most">Most slices kept at once.</param>
internal sealed class MapSlices(MapInput input, double accuracy, int most)
{
    private readonly Lock _lock = new();
    private readonly Dictionary<int, MapAssessor> _open = [];

    /// <summary>The cell of a slice at values of x and y.</summary>
    public MapCell Assess(int slice, double x, double y) =>
        input.Z is { } z ? Of(slice).At(x, y, z.Values[slice]) : Of(slice).At(x, y);

    private MapAssessor Of(int slice)
    {
        lock (_lock)
        {
            if (!_open.TryGetValue(slice, out MapAssessor? assessor))
            {
                if (_open.Count >= most)
                {
                    _open.Remove(_open.Keys.MaxBy(k => Math.Abs(k - slice)));
                }
                DesignAxis[] axes = input.Z is { } z ? [input.X, input.Y, z] : [input.X, input.Y];
                _open[slice] = assessor = new(input.Design.Document, axes, input.Engine, accuracy);
            }
            return assessor;
        }
    }
}
