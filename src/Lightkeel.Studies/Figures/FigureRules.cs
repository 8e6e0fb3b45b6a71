namespace Lightkeel.Studies.Figures;

/// <summary>Rules that a figure must obey before anybody draws it.</summary>
public static class FigureRules
{
    /// <summary>Refuses a figure that cannot be drawn, naming the place.</summary>
    /// <param name="figure">The figure.</param>
    /// <exception cref="ArgumentException">A name is bad, lists differ in length, or a value is not finite or not positive on a logarithmic axis.</exception>
    public static void Check(Figure figure)
    {
        ArgumentNullException.ThrowIfNull(figure);
        RequireName(figure.Name);
        Require(figure.Panels.Count > 0, figure.Name, "has no panel");
        Require(figure.Columns >= 1, figure.Name, "has fewer than one column");
        for (int p = 0; p < figure.Panels.Count; p++)
        {
            Panel panel = figure.Panels[p];
            string where = $"{figure.Name}, panel {p + 1}";
            CheckAxis(panel.X, where);
            CheckAxis(panel.Y, where);
            Require(
                !panel.EqualAspect || (panel.X.Scale == AxisScale.Linear && panel.Y.Scale == AxisScale.Linear),
                where,
                "has equal aspect with a logarithmic axis"
            );
            for (int i = 0; i < panel.Items.Count; i++)
            {
                CheckItem(panel, panel.Items[i], $"{where}, item {i + 1} ({panel.Items[i].GetType().Name})");
            }
        }
    }

    private static void RequireName(string name)
    {
        bool good = name.Length > 0 && name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-');
        Require(good, name, "has a name that is no file name (lower-case letters, digits, hyphens)");
    }

    private static void CheckAxis(PlotAxis axis, string where)
    {
        foreach (double? end in (ReadOnlySpan<double?>)[axis.Minimum, axis.Maximum])
        {
            CheckValue(end ?? 1, axis, where);
        }
        Require(axis.Names is null || axis.Scale == AxisScale.Linear, where, "has names on a logarithmic axis");
        Require(
            axis.Minimum is null || axis.Maximum is null || axis.Minimum < axis.Maximum,
            where,
            "has an empty axis"
        );
    }

    private static void CheckItem(Panel panel, PlotItem item, string where)
    {
        switch (item)
        {
            case LineSeries line:
                CheckPoints(panel, line.X, line.Y, 1, where);
                break;
            case ScatterSeries points:
                CheckPoints(panel, points.X, points.Y, 0, where);
                break;
            case BandSeries band:
                CheckPoints(panel, band.X, band.Lower, 2, where);
                CheckPoints(panel, band.X, band.Upper, 2, where);
                break;
            case PolygonArea polygon:
                CheckPoints(panel, polygon.X, polygon.Y, 3, where);
                Require(polygon.Opacity is >= 0 and <= 1, where, "has an opacity outside 0 to 1");
                break;
            case ContourSeries contour:
                foreach (PlotPolyline piece in contour.Pieces)
                {
                    CheckPoints(panel, piece.X, piece.Y, 1, where);
                }
                break;
            case ArrowSeries arrows:
                CheckArrows(panel, arrows, where);
                break;
            case TextNote note:
                CheckValue(note.X, panel.X, where);
                CheckValue(note.Y, panel.Y, where);
                break;
            case MarkerLine marker:
                CheckValue(marker.Value, marker.IsVertical ? panel.X : panel.Y, where);
                break;
            case HeatMap map:
                CheckHeatMap(panel, map, where);
                break;
            case SurfaceMesh surface:
                CheckSurface(panel, surface, where);
                break;
            case CategoryMap map:
                CheckCategoryMap(panel, map, where);
                break;
        }
    }

    private static void CheckArrows(Panel panel, ArrowSeries arrows, string where)
    {
        CheckPoints(panel, arrows.X, arrows.Y, 0, where);
        Require(
            arrows.DX.Count == arrows.X.Count && arrows.DY.Count == arrows.X.Count,
            where,
            "has lists of different length"
        );
        for (int i = 0; i < arrows.X.Count; i++)
        {
            CheckValue(arrows.X[i] + arrows.DX[i], panel.X, where);
            CheckValue(arrows.Y[i] + arrows.DY[i], panel.Y, where);
        }
    }

    private static void CheckHeatMap(Panel panel, HeatMap map, string where)
    {
        CheckGrid(panel, map.X, map.Y, map.Values.Select(row => row.Count), map.Values.Count, where);
        PlotAxis colours = new("colour")
        {
            Scale = map.Scale,
            Minimum = map.Minimum,
            Maximum = map.Maximum,
        };
        CheckAxis(colours, where);
        foreach (double? value in map.Values.SelectMany(row => row))
        {
            CheckValue(value ?? 1, colours, where);
        }
    }

    private static void CheckSurface(Panel panel, SurfaceMesh surface, string where)
    {
        Require(panel.Items.Count == 1, where, "shares its panel with a surface, which must be alone");
        Require(
            panel.X.Scale == AxisScale.Linear && panel.Y.Scale == AxisScale.Linear,
            where,
            "is a surface over a logarithmic axis"
        );
        Require(surface.LineEvery >= 1, where, "draws a line every less than one row");
        int rows = surface.Values.Count;
        Require(rows >= 2 && surface.Values[0].Count >= 2, where, "needs two columns and two rows or more");
        Require(surface.X.Count == rows && surface.Y.Count == rows, where, "has lists of different length");
        for (int i = 0; i < rows; i++)
        {
            Require(surface.Values[i].Count == surface.Values[0].Count, where, "has rows of different length");
            CheckPoints(panel, surface.X[i], surface.Y[i], 2, where);
            CheckPoints(panel, surface.X[i], surface.Values[i], 2, where);
        }
        foreach (PlotPolyline line in surface.Lines)
        {
            CheckPoints(panel, line.X, line.Y, 1, where);
        }
        CheckValue(surface.LineValue, panel.X, where);
    }

    private static void CheckCategoryMap(Panel panel, CategoryMap map, string where)
    {
        CheckGrid(panel, map.X, map.Y, map.Values.Select(row => row.Count), map.Values.Count, where);
        Require(
            map.Values.SelectMany(row => row).All(index => index >= -1 && index < map.Categories.Count),
            where,
            "has an index without a category"
        );
    }

    private static void CheckGrid(
        Panel panel,
        IReadOnlyList<double> x,
        IReadOnlyList<double> y,
        IEnumerable<int> rowLengths,
        int rows,
        string where
    )
    {
        Require(x.Count >= 2 && y.Count >= 2, where, "needs two columns and two rows or more");
        Require(
            rows == y.Count && rowLengths.All(length => length == x.Count),
            where,
            "has values of another size than its axes"
        );
        foreach (
            (IReadOnlyList<double> centres, PlotAxis axis) in (ReadOnlySpan<(IReadOnlyList<double>, PlotAxis)>)
                [(x, panel.X), (y, panel.Y)]
        )
        {
            for (int i = 0; i < centres.Count; i++)
            {
                CheckValue(centres[i], axis, where);
                Require(i == 0 || centres[i] > centres[i - 1], where, "has centres that do not ascend");
            }
        }
    }

    private static void CheckPoints(
        Panel panel,
        IReadOnlyList<double> x,
        IReadOnlyList<double> y,
        int least,
        string where
    )
    {
        Require(x.Count == y.Count, where, "has lists of different length");
        Require(x.Count >= least, where, $"needs {least} points or more");
        for (int i = 0; i < x.Count; i++)
        {
            CheckValue(x[i], panel.X, where);
            CheckValue(y[i], panel.Y, where);
        }
    }

    private static void CheckValue(double value, PlotAxis axis, string where)
    {
        Require(double.IsFinite(value), where, "has a value that is not finite");
        Require(
            axis.Scale == AxisScale.Linear || value > 0,
            where,
            "has a value on a logarithmic axis that is not positive"
        );
    }

    private static void Require(bool condition, string where, string fault)
    {
        if (!condition)
        {
            throw new ArgumentException($"Figure \"{where}\" {fault}.");
        }
    }
}
