using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[ride]</c> that give the power against time as a table.</summary>
internal static class PowerTableSpec
{
    private const int FewestPoints = 2;

    private static readonly ColumnSpec Time = new(
        "time",
        NumberKind.Of(Dimension.OfTime, Interval.NotNegative, "60 s"),
        "Time at the laser, from the first light of the ride.",
        "time_s"
    );

    private static readonly ColumnSpec Factor = new(
        "factor",
        NumberKind.Pure(Interval.NotNegative, "0.5"),
        "Power there over the power of the beam.",
        "factor"
    );

    /// <summary>The table in a file.</summary>
    public static FileField InFile { get; } =
        new(
            "power_table",
            [Time, Factor],
            "CSV file with the power against the time at the laser: straight lines between points, a jump is two points at one time. The last value lasts; a table that ends with 0 ends the light, and the ride with it.",
            FewestPoints
        );

    /// <summary>The table in the design.</summary>
    public static RowsField Here { get; } =
        new(
            "power_points",
            [Time, Factor],
            "Points [time at the laser, factor on the power of the beam], as in power_table.",
            FewestPoints
        );

    /// <summary>Reads the table; null when there is none.</summary>
    public static PowerTableDesign? Read(TableReading t)
    {
        ColumnData? inFile = t.Get(InFile);
        ColumnData? here = t.Get(Here);
        if (!t.IsSound || (inFile ?? here) is not { } data)
        {
            return null;
        }
        PowerTableDesign table = new() { TimesSeconds = data[Time.Name], Factors = data[Factor.Name] };
        int row = FirstOutOfOrder(table.TimesSeconds);
        if (row >= 0)
        {
            string key = t.PathOf(inFile is null ? Here.Key : InFile.Key);
            t.Context.Faults.Add(
                data.PositionOf(row),
                $"{key}: time {row} ({Quantity.Format(table.TimesSeconds[row], "s")}, counted from 0) does not come after those before",
                "expected times that rise, at most two points at one time, which make a jump"
            );
        }
        else if (table.Factors.All(f => f == 0))
        {
            t.Fault(inFile is null ? Here : InFile, "the power table has no light", "expected a factor above 0");
        }
        return table;
    }

    // Two points at one time are a jump; a third one there would mean nothing.
    private static int FirstOutOfOrder(IReadOnlyList<double> times)
    {
        for (int i = 1; i < times.Count; i++)
        {
            if (times[i] < times[i - 1] || (i > 1 && times[i] == times[i - 2]))
            {
                return i;
            }
        }
        return -1;
    }
}
