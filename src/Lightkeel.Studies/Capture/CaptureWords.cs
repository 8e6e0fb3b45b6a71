using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Capture;

/// <summary>Words of a capture.</summary>
internal static class CaptureWords
{
    public const string Held = "held";
    public const string NotComputable = "not-computable";
    public const string NotReached = "not-reached";

    public static string Of(StartEnding ending) =>
        ending switch
        {
            StartEnding.Held => Held,
            StartEnding.OffBeam => "off-beam",
            StartEnding.TiltLimit => "tilt-limit",
            StartEnding.Ground => "ground",
            StartEnding.NotComputable => NotComputable,
            _ => NotReached,
        };

    /// <summary>A value in the unit that people read: angles in degrees.</summary>
    public static string Value(double si, string unit, Func<double, double>? round = null)
    {
        (double factor, string shown) = Shown(unit);
        double value = factor * si;
        return $"{SummaryRow.Write(round is null ? value : round(value))} {shown}".TrimEnd();
    }

    /// <summary>Factor and unit of what people read.</summary>
    public static (double Factor, string Unit) Shown(string unit) =>
        unit switch
        {
            "rad" => (180 / Math.PI, "deg"),
            "rad/s" => (180 / Math.PI, "deg/s"),
            _ => (1, unit),
        };

    public static string Release(
        CaptureGrid grid,
        string about,
        double x,
        double y,
        CaptureShape box,
        CaptureShape ellipse
    )
    {
        string wordX = StartField.Of(grid.X.Path)!.Word;
        string wordY = StartField.Of(grid.Y.Path)!.Word;
        string Pair(CaptureShape s) =>
            $"±{Value(s.XHalfWidth, grid.X.Unit, RoundDown)} ({wordX}) and ±{Value(s.YHalfWidth, grid.Y.Unit, RoundDown)} ({wordY})";
        string place = $"{Value(x, grid.X.Unit)}, {Value(y, grid.Y.Unit)}";
        string edge =
            box.MeetsEdge || ellipse.MeetsEdge
                ? " The rectangle of the axes ends before the craft is lost: wider axes may allow more."
                : "";
        return $"Release within {Pair(box)} of {about} ({place}), or, where both errors seldom meet, inside the ellipse of half-axes {Pair(ellipse)}; everything else as the design says.{edge}";
    }

    /// <summary>Three significant digits, towards zero: a tolerance is never rounded up.</summary>
    public static double RoundDown(double value)
    {
        if (!(value > 0))
        {
            return 0;
        }
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)) - 2);
        return Math.Floor(value / power * (1 + 1e-12)) * power;
    }
}
