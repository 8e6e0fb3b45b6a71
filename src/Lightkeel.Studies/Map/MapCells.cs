using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Map;

/// <summary>The cells of a map and of all its slices, computed as one campaign.</summary>
internal sealed class MapCells
{
    private readonly MapInput _input;
    private readonly MapCell?[] _cells;

    private MapCells(MapInput input, MapCell?[] cells, bool isComplete) =>
        (_input, _cells, IsComplete) = (input, cells, isComplete);

    /// <summary>False when the run was stopped before.</summary>
    public bool IsComplete { get; }

    /// <summary>Computes all cells, as far as they are not in the archive.</summary>
    /// <param name="input">The input.</param>
    /// <param name="context">The run.</param>
    /// <param name="slices">What assesses a cell.</param>
    public static MapCells Compute(MapInput input, StudyContext context, MapSlices slices)
    {
        int columns = input.X.Values.Count;
        int rows = input.Y.Values.Count;
        Campaign campaign = new(
            MapCampaign.Cells(input, context),
            (item, row) =>
            {
                (long line, long column) = Math.DivRem(item, columns);
                (long slice, long at) = Math.DivRem(line, rows);
                (double x, double y) = (input.X.Values[(int)column], input.Y.Values[(int)at]);
                double z = input.Z?.Values[(int)slice] ?? double.NaN;
                MapCampaign.Write(row, (x, y, z), slices.Assess((int)slice, x, y));
            }
        )
        {
            Failure = MapCampaign.FailureOf,
        };
        CampaignResults results = context.Complete(campaign);
        MapCell?[] cells = new MapCell?[results.Plan.Items];
        foreach ((long item, MapCell cell) in results.Items((item, row) => (item, MapCampaign.Read(row))))
        {
            cells[item] = cell;
        }
        return new(input, cells, results.IsComplete);
    }

    /// <summary>The cells of a slice.</summary>
    public MapGrid Grid(int slice)
    {
        int columns = _input.X.Values.Count;
        int start = slice * columns * _input.Y.Values.Count;
        return MapGrid.Of(_input.X, _input.Y, (row, column) => _cells[start + row * columns + column]);
    }
}
