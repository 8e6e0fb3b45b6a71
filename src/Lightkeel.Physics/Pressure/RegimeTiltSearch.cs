using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>What a search found about several surfaces: the widest cone of light about body +z without a second meeting.</summary>
/// <param name="LimitRadians">Half-angle of that cone, rad; negative when untilted light already meets two surfaces.</param>
/// <param name="Rays">Surface points from which rays were traced.</param>
/// <param name="Pairs">Pairs of surface points examined before the best were followed.</param>
/// <param name="Worst">The second meeting that bounds the cone, or null when the search was bounded otherwise.</param>
internal sealed record RegimeTiltSearch(double LimitRadians, int Rays, int Pairs, RegimeFinding? Worst)
{
    private const int UprightPoints = 2048;
    private const int CheckPoints = 192;
    private const int CheckAzimuths = 12;
    private const int CheckLimit = 12;

    // Held back from the least tilt that was found.
    private const double Margin = 0.999;
    private const double SmallestRadians = 1e-4;

    public static RegimeTiltSearch Of(IReadOnlyList<PlacedSurface> surfaces, double widestRadians)
    {
        RegimeRays rays = new(surfaces);
        int pairs = surfaces.Count * (surfaces.Count - 1) / 2 * RegimePairs.Seeds;
        int traced = surfaces.Count * UprightPoints;
        if (rays.Examine(Vec3.UnitZ, UprightPoints, 0) is { } upright)
        {
            return new(-1, traced, pairs, upright);
        }
        RegimeFinding least = new RegimePairs(rays, surfaces).Least();
        if (least.TiltRadians < SmallestRadians)
        {
            return new(-1, traced, pairs, least with { TiltRadians = 0, Rays = UprightPoints });
        }
        double widest = Math.Min(widestRadians, Math.PI / 2);
        bool isBounded = least.TiltRadians <= widest;
        return Checked(
            rays,
            new(isBounded ? Margin * least.TiltRadians : widest, traced, pairs, isBounded ? least : null)
        );
    }

    // Rays along the edge of the cone, from surface points not used before; a finding narrows the cone.
    private static RegimeTiltSearch Checked(RegimeRays rays, RegimeTiltSearch search)
    {
        int next = UprightPoints;
        for (int check = 0; check < CheckLimit; check++)
        {
            RegimeFinding? found = null;
            for (int k = 0; k < CheckAzimuths && found is null; k++, next += CheckPoints)
            {
                double tilt = search.LimitRadians * (k % 3 == 2 ? 0.5 : 1);
                found = rays.Examine(Tilted(tilt, 2 * Math.PI * (k + 0.5) / CheckAzimuths), CheckPoints, next);
            }
            if (found is null)
            {
                return search with { Rays = search.Rays + next };
            }
            search = search with { LimitRadians = 0.9 * found.TiltRadians, Worst = found };
        }
        return search with { LimitRadians = 0, Rays = search.Rays + next };
    }

    private static Vec3 Tilted(double tilt, double azimuth)
    {
        (double s, double c) = Math.SinCos(tilt);
        return new(s * Math.Cos(azimuth), s * Math.Sin(azimuth), c);
    }
}
