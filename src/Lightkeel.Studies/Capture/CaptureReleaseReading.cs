using Lightkeel.Numerics.Interpolation;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>Turns the held region into tolerances about a start: the largest box and ellipse with a margin of a cell.</summary>
internal static class CaptureReleaseReading
{
    /// <summary>The release requirement.</summary>
    /// <param name="grid">The starts.</param>
    /// <param name="answers">Held or not, at the finest finished level.</param>
    /// <param name="center">About which start.</param>
    public static (CaptureRelease? Release, string? Reason) Of(CaptureGrid grid, bool[][] answers, ReleaseCenter center)
    {
        (double X, double Y) own = (grid.X.Own, grid.Y.Own);
        (double X, double Y) trim = (TrimOf(grid.X), TrimOf(grid.Y));
        (string Word, (double X, double Y) At)[] tries =
            center == ReleaseCenter.Start ? [("the design's start", own), ("the trim", trim)] : [("the trim", trim)];
        foreach ((string word, (double x, double y)) in tries)
        {
            if (About(grid, answers, word, x, y) is { } release)
            {
                return (release, null);
            }
        }
        string where =
            center == ReleaseCenter.Start ? "Neither the design's start nor the trim lies" : "The trim does not lie";
        return (null, $"{where} in cells that are held with a margin of a cell: take a finer lattice, or other axes.");
    }

    private static CaptureRelease? About(CaptureGrid grid, bool[][] answers, string word, double x, double y)
    {
        double column = Place(grid.X, x) * grid.Lattice.BaseStep / grid.Lattice.Step;
        double row = Place(grid.Y, y) * grid.Lattice.BaseStep / grid.Lattice.Step;
        if (!(column >= 0 && column <= answers[0].Length - 1 && row >= 0 && row <= answers.Length - 1))
        {
            return null;
        }
        InscribedShapes shapes = new(answers, column, row);
        if (shapes.Box() is not { } box || shapes.Ellipse() is not { } ellipse)
        {
            return null;
        }
        CaptureShape Real(InscribedShape s)
        {
            double scale = grid.Lattice.Step;
            double width = Half(grid.X, column * scale, s.HalfWidth * scale, grid.ColumnValue, x);
            double height = Half(grid.Y, row * scale, s.HalfHeight * scale, grid.RowValue, y);
            return new(width, height, s.MeetsEdge);
        }
        (CaptureShape realBox, CaptureShape realEllipse) = (Real(box), Real(ellipse));
        return new(word, x, y, realBox, realEllipse, CaptureWords.Release(grid, word, x, y, realBox, realEllipse));
    }

    // On an axis of equal ratios the nearer of the two ends counts.
    private static double Half(DesignAxis axis, double place, double half, Func<double, double> value, double own) =>
        axis.IsLogarithmic
            ? Math.Min(value(place + half) - own, own - value(place - half))
            : value(place + half) - value(place);

    private static double TrimOf(DesignAxis axis) => StartField.Of(axis.Path)!.IsDeviation ? 0 : axis.Own;

    // Columns of the coarse lattice from its first.
    private static double Place(DesignAxis axis, double value)
    {
        if (axis.IsLogarithmic && !(value > 0))
        {
            return double.NaN;
        }
        double first = axis.Coordinate(axis.Values[0]);
        double last = axis.Coordinate(axis.Values[^1]);
        return (axis.Coordinate(value) - first) / (last - first) * (axis.Values.Count - 1);
    }
}
