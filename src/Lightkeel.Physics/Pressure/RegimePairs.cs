using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Least tilt of the light at which one surface shades another or reflects onto it, over pairs of their points.</summary>
/// <remarks>
/// Two points fix the light that joins them. Light along the line from P to Q meets both, so one shades the other; light
/// along the mirror image of that line in the tangent plane at P is reflected by P onto Q. The tilt of that light from
/// body +z is a smooth function of the two points, whose least value is sought by a deterministic pattern search from
/// the best of many evenly spread pairs. That the least of all was found is likely, not proven.
/// </remarks>
internal sealed class RegimePairs(RegimeRays rays, IReadOnlyList<PlacedSurface> surfaces)
{
    /// <summary>Pairs of points tried for every two surfaces and each effect before the best are followed.</summary>
    public const int Seeds = 3072;

    private const int Followed = 6;
    private const int StepLimit = 90;
    private const double SmallestStep = 1e-8;

    // Below this the craft is refused untilted anyway.
    private const double Enough = 1e-5;

    private static readonly PairPlace[] Starts = [.. Enumerable.Range(0, Seeds).Select(PairPlace.Spread)];
    private static readonly PairPlace[] Moves = AllMoves();

    /// <summary>The least tilt over all ordered pairs of surfaces and both effects; infinite when there is none.</summary>
    public RegimeFinding Least()
    {
        RegimeFinding least = None;
        for (int i = 0; i < surfaces.Count; i++)
        {
            for (int j = 0; j < surfaces.Count; j++)
            {
                if (j > i)
                {
                    least = Smaller(least, RegimeEffect.Shades, i, j);
                }
                if (j != i && surfaces[i].Optics.Specular > RegimeOfSurface.NoShare)
                {
                    least = Smaller(least, RegimeEffect.Reflects, i, j);
                }
            }
        }
        return least;
    }

    /// <summary>The least tilt at which the only surface reflects onto itself; infinite when there is none.</summary>
    public RegimeFinding LeastOwn() => Smaller(None, RegimeEffect.Reflects, 0, 0);

    private static RegimeFinding None => new(RegimeEffect.Shades, "", "", 0, 0, double.PositiveInfinity);

    private RegimeFinding Smaller(RegimeFinding least, RegimeEffect effect, int i, int j)
    {
        double[] tilts = new double[Seeds];
        for (int k = 0; k < Seeds; k++)
        {
            tilts[k] = Tilt(effect, i, j, Starts[k]);
        }
        PairPlace[] starts = [.. Starts];
        Array.Sort(tilts, starts);
        for (int k = 0; k < Followed && double.IsFinite(tilts[k]) && least.TiltRadians > Enough; k++)
        {
            (double tilt, PairPlace at) = Follow(effect, i, j, starts[k], tilts[k]);
            if (tilt < least.TiltRadians)
            {
                (int actor, int other) = effect == RegimeEffect.Shades && IsBehind(i, j, at) ? (j, i) : (i, j);
                least = new(effect, surfaces[actor].Name, surfaces[other].Name, 0, Seeds, tilt);
            }
        }
        return least;
    }

    private (double Tilt, PairPlace At) Follow(RegimeEffect effect, int i, int j, PairPlace at, double tilt)
    {
        double step = 0.05;
        for (int k = 0; k < StepLimit && step > SmallestStep && tilt > Enough; k++)
        {
            double before = tilt;
            PairPlace centre = at;
            foreach (PairPlace move in Moves)
            {
                PairPlace tried = centre.Moved(move, step);
                double found = Tilt(effect, i, j, tried);
                (tilt, at) = found < tilt ? (found, tried) : (tilt, at);
            }
            step = tilt < before ? 1.5 * step : 0.4 * step;
        }
        return (tilt, at);
    }

    private double Tilt(RegimeEffect effect, int i, int j, PairPlace at)
    {
        (Vec3 from, Vec3 front) = rays.PointAt(i, at.Area, at.Turn);
        Vec3 line = rays.PointAt(j, at.OtherArea, at.OtherTurn).Point - from;
        double length = line.Length;
        if (length <= rays.NearMetres)
        {
            return double.PositiveInfinity;
        }
        line = 1 / length * line;
        if (effect == RegimeEffect.Shades)
        {
            return Math.Atan2(Math.Sqrt(line.X * line.X + line.Y * line.Y), Math.Abs(line.Z));
        }
        double rise = Vec3.Dot(line, front);
        Vec3 light = line - 2 * rise * front;
        LitSide side = rise > 0 ? LitSide.Front : LitSide.Back;
        return RegimeRays.SideOf(surfaces[i], light) == side
            ? Math.Atan2(Math.Sqrt(light.X * light.X + light.Y * light.Y), light.Z)
            : double.PositiveInfinity;
    }

    private bool IsBehind(int i, int j, PairPlace at) =>
        rays.PointAt(i, at.Area, at.Turn).Point.Z > rays.PointAt(j, at.OtherArea, at.OtherTurn).Point.Z;

    // One or two of the four numbers up or down.
    private static PairPlace[] AllMoves()
    {
        int[] signs = [-1, 0, 1];
        return
        [
            .. from a in signs
            from b in signs
            from c in signs
            from d in signs
            where Math.Abs(a) + Math.Abs(b) + Math.Abs(c) + Math.Abs(d) is 1 or 2
            select new PairPlace(a, b, c, d),
        ];
    }

    /// <summary>Places of two points: shares of area (0 … 1) and of a turn.</summary>
    private readonly record struct PairPlace(double Area, double Turn, double OtherArea, double OtherTurn)
    {
        // Multiples of the powers of the inverse root of x⁵ = x + 1 fill four dimensions evenly
        // (common practice, no source read).
        public static PairPlace Spread(int k) =>
            new(
                Part(0.8566748838545029 * (k + 1)),
                Part(0.733891856627126 * (k + 1)),
                Part(0.6287067210378087 * (k + 1)),
                Part(0.5385972572236101 * (k + 1))
            );

        public PairPlace Moved(PairPlace move, double step) =>
            new(
                Math.Clamp(Area + step * move.Area, 0, 1),
                Turn + step * move.Turn,
                Math.Clamp(OtherArea + step * move.OtherArea, 0, 1),
                OtherTurn + step * move.OtherTurn
            );

        private static double Part(double x) => x + 0.5 - Math.Floor(x + 0.5);
    }
}
