using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Studies.Map;

/// <summary>
/// Finds a change of sign between two cells where rays give the light: there a force costs a hundred times more, and an
/// indicator may jump, or have no value close to where bounces change (45° of a cone, say), as a tilt's step reaches over it.
/// </summary>
/// <remarks>
/// Halving first, at places that all rows of cells share, so that they share the light; where the indicator turns out continuous,
/// interpolation then. A jump is closed in on to <see cref="JumpShare"/> of the cell; where values end before, its place is
/// the middle of the gap, if that is no wider than <see cref="GapShare"/> of the cell.
/// </remarks>
internal static class MapRayEdge
{
    /// <summary>Width of a jump's bracket over that of the cell.</summary>
    public const double JumpShare = 1.0 / 4096;

    /// <summary>Widest gap without values that is taken for a boundary, over the width of the cell.</summary>
    public const double GapShare = 1.0 / 8;

    /// <summary>Width to which continuous changes are searched, relative to the coordinate.</summary>
    public const double RelativeWidth = 1e-8;

    private const int SharedHalvings = 4;
    private const int GapHalvings = 3;
    private const double Continuous = 0.25;

    /// <summary>The place, or null where there is none.</summary>
    /// <param name="function">The indicator along the edge; null where it has no value.</param>
    /// <param name="a">One end.</param>
    /// <param name="b">Other end.</param>
    public static double? Find(Func<double, double?> function, double a, double b)
    {
        if (function(a) is not { } fa || function(b) is not { } fb || fa > 0 == fb > 0)
        {
            return null;
        }
        double cell = Math.Abs(b - a);
        double rise = Math.Abs(fa - fb);
        for (int k = 0; Math.Abs(b - a) > JumpShare * cell; k++)
        {
            bool isContinuous = Math.Abs(fa - fb) < Continuous * rise;
            if (k >= SharedHalvings && isContinuous)
            {
                double width = RelativeWidth * Math.Max(Math.Abs(a), Math.Abs(b));
                return SignChange.Find(function, a, fa, b, fb, width) ?? Gap(function, a, b, cell);
            }
            double middle = 0.5 * (a + b);
            if (function(middle) is not { } fm)
            {
                return Gap(function, a, b, cell);
            }
            (a, fa, b, fb) = fm > 0 == fa > 0 ? (middle, fm, b, fb) : (a, fa, middle, fm);
        }
        return 0.5 * (a + b);
    }

    // Narrows a gap without values from both sides.
    private static double? Gap(Func<double, double?> function, double a, double b, double cell)
    {
        double from = a;
        double to = b;
        for (int k = 0; k < GapHalvings && Math.Abs(b - a) > JumpShare * cell; k++)
        {
            double middle = 0.5 * (from + to);
            double left = 0.5 * (a + middle);
            double right = 0.5 * (b + middle);
            (bool hasLeft, bool hasRight) = (function(left) is not null, function(right) is not null);
            a = hasLeft ? left : a;
            b = hasRight ? right : b;
            if (!hasLeft && !hasRight)
            {
                break;
            }
        }
        return Math.Abs(b - a) <= GapShare * cell ? 0.5 * (a + b) : null;
    }
}
