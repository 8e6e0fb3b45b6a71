using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Physics.Stability;
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

    /// <summary>Whether the trim itself lets the craft go.</summary>
    public static bool LetsGo(string trimVerdict) => trimVerdict is "divergent" or "flutter";

    /// <summary>What the verdict about the trim means for the starts.</summary>
    public static string Trim(StabilityReport? trim, double holdSeconds) =>
        trim switch
        {
            null => "No trim, or no light pressure there: nothing is known of small motions.",
            { Verdict: StabilityVerdict.Divergent or StabilityVerdict.Flutter, EFoldingSeconds: { } folding } =>
                FormattableString.Invariant(
                    $"The trim is {trim.Verdict.Word()}: a small motion about it grows by e in {folding:G3} s, {holdSeconds / folding:G3} times in the stated time. A start that is called held has not left yet; it is not bound."
                ),
            { Verdict: StabilityVerdict.Divergent or StabilityVerdict.Flutter } =>
                $"The trim is {trim.Verdict.Word()}: a small motion about it is not brought back. A start that is called held has not left yet; it is not bound.",
            { Verdict: StabilityVerdict.Undecided } =>
                "Linear analysis does not decide at this accuracy whether small motions about the trim grow.",
            _ => "Small motions about the trim do not grow.",
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
