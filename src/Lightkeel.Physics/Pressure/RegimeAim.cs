using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Looks for mirror rays that meet a small surface which evenly spread rays would miss, by aiming at it.</summary>
internal static class RegimeAim
{
    private const int Seeds = 64;
    private const int Targets = 4;
    private const double SmallestStep = 1e-9;
    private const int StepLimit = 400;

    /// <summary>A ray of one surface that meets another, or null; <paramref name="spreadRays"/> evenly spread ones had met nothing.</summary>
    public static RegimeFinding? Examine(
        RegimeRays rays,
        IReadOnlyList<PlacedSurface> surfaces,
        Vec3 light,
        int spreadRays
    )
    {
        for (int i = 0; i < surfaces.Count; i++)
        {
            for (int j = 0; j < surfaces.Count; j++)
            {
                bool isMirror = surfaces[i].Optics.Specular > RegimeOfSurface.NoShare;
                if (i == j || !isMirror)
                {
                    continue;
                }
                int met = Aim(rays, i, j, light);
                if (met >= 0)
                {
                    double tilt = Math.Atan2(Math.Sqrt(light.X * light.X + light.Y * light.Y), light.Z);
                    return new(RegimeEffect.Reflects, surfaces[i].Name, surfaces[met].Name, 0, spreadRays, tilt);
                }
            }
        }
        return null;
    }

    private static int Aim(RegimeRays rays, int from, int to, Vec3 light)
    {
        for (int t = 0; t < Targets; t++)
        {
            (double area, double turn) = RegimePoints.Pair(t);
            Vec3 target = rays.PointAt(to, area, turn).Point;
            (double u, double v) = BestSeed(rays, from, target, light);
            double best = Miss(rays, from, u, v, target, light);
            double step = 0.1;
            for (int k = 0; k < StepLimit && best < double.PositiveInfinity && step > SmallestStep; k++)
            {
                (double nu, double nv, double miss) = BestNeighbour(rays, from, u, v, step, target, light);
                (u, v, best, step) = miss < best ? (nu, nv, miss, step) : (u, v, best, 0.5 * step);
            }
            if (rays.Reflected(from, u, v, light) is { } ray)
            {
                int met = rays.FirstOther(from, ray.Point + rays.NearMetres * ray.Direction, ray.Direction);
                if (met >= 0)
                {
                    return met;
                }
            }
        }
        return -1;
    }

    private static (double, double) BestSeed(RegimeRays rays, int from, Vec3 target, Vec3 light)
    {
        (double, double) best = RegimePoints.Pair(0);
        double least = double.PositiveInfinity;
        for (int k = 0; k < Seeds; k++)
        {
            (double u, double v) = RegimePoints.Pair(k);
            double miss = Miss(rays, from, u, v, target, light);
            (best, least) = miss < least ? ((u, v), miss) : (best, least);
        }
        return best;
    }

    private static (double U, double V, double Miss) BestNeighbour(
        RegimeRays rays,
        int from,
        double u,
        double v,
        double step,
        Vec3 target,
        Vec3 light
    )
    {
        (double, double, double) best = (u, v, double.PositiveInfinity);
        foreach ((int du, int dv) in (ReadOnlySpan<(int, int)>)[(1, 0), (-1, 0), (0, 1), (0, -1)])
        {
            double nu = Math.Clamp(u + du * step, 0, 1);
            double nv = v + dv * step;
            double miss = Miss(rays, from, nu, nv, target, light);
            best = miss < best.Item3 ? (nu, nv, miss) : best;
        }
        return best;
    }

    // Chord between the reflected direction and the direction to the target; +∞ where the place is not lit.
    private static double Miss(RegimeRays rays, int from, double u, double v, Vec3 target, Vec3 light)
    {
        if (rays.Reflected(from, u, v, light) is not { } ray)
        {
            return double.PositiveInfinity;
        }
        Vec3 wanted = target - ray.Point;
        double length = wanted.Length;
        return length > 0 ? (1 / length * wanted - ray.Direction).Length : 0;
    }
}
