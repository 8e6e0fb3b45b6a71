using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>Steady circular motions that grow out of one whirl of the linear picture.</summary>
/// <param name="WhirlRadiansPerSecond">Rate of that whirl at vanishing tilt, rad/s; negative against the sense of positive rotation.</param>
/// <param name="Trims">The motions, from a small tilt on; past a fold the tilt falls again.</param>
/// <param name="FoldTiltRadians">Largest tilt of the family, where it turns back, rad; null when it does not within what could be followed.</param>
/// <param name="Ending">Why the family was followed no further, one sentence.</param>
public sealed record CircularFamily(
    double WhirlRadiansPerSecond,
    IReadOnlyList<CircularTrim> Trims,
    double? FoldTiltRadians,
    string Ending
)
{
    /// <summary>Largest tilt up to which every motion of the family is stable, rad; zero when none is.</summary>
    public double StableToRadians
    {
        get
        {
            double stable = 0;
            foreach (CircularTrim trim in Trims)
            {
                if (!trim.IsStable || trim.TiltRadians < stable)
                {
                    break;
                }
                stable = trim.TiltRadians;
            }
            return stable;
        }
    }
}

/// <summary>How far families are followed.</summary>
/// <param name="LargestTiltRadians">Largest tilt, rad.</param>
/// <param name="LargestOffsetMetres">Largest offset, m.</param>
/// <param name="LengthMetres">Length over which the beam changes, m: the measure of steps in offset.</param>
public sealed record CircularSearch(double LargestTiltRadians, double LargestOffsetMetres, double LengthMetres);

/// <summary>Follows families of steady circular motions from the whirls of the linear picture.</summary>
/// <remarks>
/// Pseudo-arclength continuation in (offset over length, tilt, rate over whirl rate): a step along the tangent, then Newton's
/// method with exact derivatives back to the curve along the shortest way, so that folds are no obstacle. Pure.
/// </remarks>
internal sealed class CircularContinuation(CircularEquations equations, CircularSearch search, double whirl)
{
    private const double FirstTilt = 2e-3;
    private const double FirstStep = 4e-3;
    private const double LongestStep = 0.04;
    private const double ShortestStep = 1e-7;
    private const int MostTrims = 60;
    private const double Settled = 1e-9;

    public CircularFamily Follow(double offsetPerTilt)
    {
        List<CircularTrim> trims = [];
        Vec3? first = Correct(new(offsetPerTilt * FirstTilt / search.LengthMetres, FirstTilt, 1));
        if (first is not { } at)
        {
            return new(whirl, trims, null, "The light pressure could not be computed at the first tilt.");
        }
        Vec3 tangent = Tangent(at, Vec3.UnitY);
        trims.Add(Judged(at));
        double step = FirstStep;
        double? fold = null;
        string ending = "the number of steps was used up";
        while (trims.Count < MostTrims)
        {
            if (Advance(at, tangent, step) is not { } next)
            {
                step *= 0.5;
                if (step < ShortestStep)
                {
                    ending = "the light pressure cannot be computed beyond";
                    break;
                }
                continue;
            }
            Vec3 direction = Tangent(next, tangent);
            if (fold is null && tangent.Y > 0 && direction.Y <= 0)
            {
                fold = Fold(at, tangent, step);
            }
            (at, tangent) = (next, direction);
            if (Outside(at) is { } reason)
            {
                ending = reason;
                break;
            }
            trims.Add(Judged(at));
            step = Math.Min(1.5 * step, LongestStep);
        }
        return new(whirl, trims, fold, $"Followed until {ending}.");
    }

    private string? Outside(Vec3 at) =>
        at.Y > search.LargestTiltRadians ? "the largest tilt looked at"
        : at.Y < 0.5 * FirstTilt ? "it came back to no tilt"
        : Math.Abs(at.X) * search.LengthMetres > search.LargestOffsetMetres ? "it left the beam"
        : null;

    private CircularTrim Judged(Vec3 u) => equations.Judge(u.X * search.LengthMetres, u.Y, u.Z * whirl);

    // The tilt is largest where the tangent has none: the step that ends there, by bisection.
    private double Fold(Vec3 at, Vec3 tangent, double step)
    {
        (double low, double high, double tilt) = (0, step, at.Y);
        for (int k = 0; k < 30; k++)
        {
            double middle = 0.5 * (low + high);
            if (Advance(at, tangent, middle) is not { } there)
            {
                break;
            }
            tilt = Math.Max(tilt, there.Y);
            (low, high) = Tangent(there, tangent).Y > 0 ? (middle, high) : (low, middle);
        }
        return tilt;
    }

    private Vec3? Advance(Vec3 at, Vec3 tangent, double step)
    {
        Vec3? next = Correct(at + step * tangent);
        // Farther than a step and a half is another curve.
        return next is { } found && (found - at).Length < 1.5 * step && Vec3.Dot(found - at, tangent) > 0
            ? found
            : null;
    }

    private Vec3? Correct(Vec3 u)
    {
        for (int k = 0; k < 8; k++)
        {
            if (!TryAt(u, out double a, out double b, out Vec3 slopeA, out Vec3 slopeB))
            {
                return null;
            }
            // The shortest step with slopes · step = −imbalance, each equation measured by its slope.
            (double na, double nb) = (slopeA.Length, slopeB.Length);
            if (!(na > 0) || !(nb > 0))
            {
                return null;
            }
            (Vec3 p, Vec3 q) = (1 / na * slopeA, 1 / nb * slopeB);
            double overlap = Vec3.Dot(p, q);
            double determinant = 1 - overlap * overlap;
            if (!(determinant > 1e-14))
            {
                return null;
            }
            (double fa, double fb) = (-a / na, -b / nb);
            Vec3 move = (fa - overlap * fb) / determinant * p + (fb - overlap * fa) / determinant * q;
            u += move;
            if (!u.IsFinite || move.Length > 1)
            {
                return null;
            }
            if (move.Length < Settled)
            {
                return u;
            }
        }
        return null;
    }

    private Vec3 Tangent(Vec3 u, Vec3 along)
    {
        if (!TryAt(u, out _, out _, out Vec3 slopeA, out Vec3 slopeB))
        {
            return along;
        }
        Vec3 cross = Vec3.Cross(1 / slopeA.Length * slopeA, 1 / slopeB.Length * slopeB);
        Vec3 tangent = 1 / cross.Length * cross;
        return Vec3.Dot(tangent, along) >= 0 ? tangent : -tangent;
    }

    private bool TryAt(Vec3 u, out double a, out double b, out Vec3 slopeA, out Vec3 slopeB)
    {
        (a, b, slopeA, slopeB) = (0, 0, default, default);
        try
        {
            (a, b, slopeA, slopeB) = equations.At(u.X * search.LengthMetres, u.Y, u.Z * whirl);
        }
        catch (PressureUnavailableException)
        {
            return false;
        }
        slopeA = new(slopeA.X * search.LengthMetres, slopeA.Y, slopeA.Z * whirl);
        slopeB = new(slopeB.X * search.LengthMetres, slopeB.Y, slopeB.Z * whirl);
        return true;
    }
}
