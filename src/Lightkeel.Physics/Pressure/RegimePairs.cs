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

    private const int Followed = 10;
    private const int StepLimit = 120;
    private const double SmallestStep = 1e-8;

    // Fractional parts of multiples of the powers of the inverse root of x⁵ = x + 1 fill four dimensions evenly (from memory).
    private static readonly double[] Strides =
    [
        0.8566748838545029,
        0.733891856627126,
        0.6287067210378087,
        0.5385972572236101,
    ];
    private static readonly double[][] Moves = AllMoves();

    /// <summary>The least tilt over all ordered pairs of surfaces and both effects.</summary>
    public RegimeFinding Least()
    {
        RegimeFinding least = new(RegimeEffect.Shades, "", "", 0, 0, double.PositiveInfinity);
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

    private RegimeFinding Smaller(RegimeFinding least, RegimeEffect effect, int i, int j)
    {
        double[][] seeds = [.. Enumerable.Range(0, Seeds).Select(Seed)];
        double[] tilts = [.. seeds.Select(s => Tilt(effect, i, j, s))];
        Array.Sort(tilts, seeds);
        for (int k = 0; k < Followed && double.IsFinite(tilts[k]); k++)
        {
            (double tilt, double[] at) = Follow(effect, i, j, seeds[k], tilts[k]);
            if (tilt < least.TiltRadians)
            {
                (int actor, int other) = effect == RegimeEffect.Shades && IsBehind(i, j, at) ? (j, i) : (i, j);
                least = new(effect, surfaces[actor].Name, surfaces[other].Name, 0, Seeds, tilt);
            }
        }
        return least;
    }

    private (double Tilt, double[] At) Follow(RegimeEffect effect, int i, int j, double[] start, double tilt)
    {
        double[] at = start;
        double step = 0.05;
        for (int k = 0; k < StepLimit && step > SmallestStep; k++)
        {
            double before = tilt;
            double[] centre = at;
            foreach (double[] move in Moves)
            {
                double[] tried = Moved(centre, move, step);
                double found = Tilt(effect, i, j, tried);
                (tilt, at) = found < tilt ? (found, tried) : (tilt, at);
            }
            step = tilt < before ? 1.5 * step : 0.4 * step;
        }
        return (tilt, at);
    }

    private double Tilt(RegimeEffect effect, int i, int j, double[] at)
    {
        (Vec3 from, Vec3 front) = rays.PointAt(i, at[0], at[1]);
        Vec3 line = rays.PointAt(j, at[2], at[3]).Point - from;
        double length = line.Length;
        if (length <= rays.NearMetres)
        {
            return double.PositiveInfinity;
        }
        line = 1 / length * line;
        double flat = Math.Sqrt(line.X * line.X + line.Y * line.Y);
        if (effect == RegimeEffect.Shades)
        {
            return Math.Atan2(flat, Math.Abs(line.Z));
        }
        Vec3 light = line - 2 * Vec3.Dot(line, front) * front;
        LitSide side = Vec3.Dot(line, front) > 0 ? LitSide.Front : LitSide.Back;
        return RegimeRays.SideOf(surfaces[i], light) == side
            ? Math.Atan2(Math.Sqrt(light.X * light.X + light.Y * light.Y), light.Z)
            : double.PositiveInfinity;
    }

    private bool IsBehind(int i, int j, double[] at) =>
        rays.PointAt(i, at[0], at[1]).Point.Z > rays.PointAt(j, at[2], at[3]).Point.Z;

    private static double[] Seed(int k)
    {
        double[] at = new double[4];
        for (int d = 0; d < 4; d++)
        {
            double x = 0.5 + Strides[d] * (k + 1);
            at[d] = x - Math.Floor(x);
        }
        return at;
    }

    // Shares of area stay within 0 … 1; turns go round.
    private static double[] Moved(double[] at, double[] move, double step) =>
        [
            Math.Clamp(at[0] + step * move[0], 0, 1),
            at[1] + step * move[1],
            Math.Clamp(at[2] + step * move[2], 0, 1),
            at[3] + step * move[3],
        ];

    // One or two of the four numbers up or down.
    private static double[][] AllMoves()
    {
        List<double[]> moves = [];
        int[] signs = [-1, 0, 1];
        foreach (int a in signs)
        {
            foreach (int b in signs)
            {
                foreach (int c in signs)
                {
                    foreach (int d in signs)
                    {
                        int moved = Math.Abs(a) + Math.Abs(b) + Math.Abs(c) + Math.Abs(d);
                        if (moved is 1 or 2)
                        {
                            moves.Add([a, b, c, d]);
                        }
                    }
                }
            }
        }
        return [.. moves];
    }
}
