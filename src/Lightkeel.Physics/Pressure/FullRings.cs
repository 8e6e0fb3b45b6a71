using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Quadrature of a wholly lit surface: Gauss-Kronrod along the meridian times the trapezoid rule around it, both nested,
/// climbing each ladder only where its own error asks for it.
/// </summary>
internal static class FullRings
{
    private const int NodeLimit = 40_000;

    /// <summary>Computes a surface's answer, or null when the ladders end before the accuracy is reached.</summary>
    public static SurfaceAnswer? TryIntegrate<T, TProfile, TResponse>(
        SurfacePlan plan,
        TProfile profile,
        TResponse response,
        in SurfaceLight<T> light,
        double side,
        (int Pair, int Azimuths) start,
        AxisMeeting? meeting,
        in ErrorScale scale,
        double accuracy
    )
        where T : struct, IScalar<T>
        where TProfile : struct, IBeamProfile
        where TResponse : struct, ISurfaceResponse
    {
        (int pair, int azimuths) = start;
        while (pair < GaussKronrod.All.Count && azimuths < AzimuthRule.Ladder.Length)
        {
            RingTable table = meeting is { } at ? plan.Rings(pair, at) : plan.Rings(pair);
            AzimuthRule around = AzimuthRule.Of(AzimuthRule.Ladder[azimuths]);
            if (table.Rings.Length * around.Count > NodeLimit)
            {
                return null;
            }
            NestedAnswer nested = Nested<T, TProfile, TResponse>(table, around, profile, response, light, side);
            double size = scale.Size(nested.Fine);
            double meridian = ErrorScale.Credit(scale.Measure(nested.RingsValue, nested.RingsSlope) / size);
            double azimuth = ErrorScale.Credit(scale.Measure(nested.AroundValue, nested.AroundSlope) / size);
            double point = meeting is { } axis ? PointError(plan, axis, pair, around.Count, scale) / size : 0;
            if (meridian + azimuth + point <= accuracy)
            {
                return nested.Fine with { RelativeError = Math.Max(meridian + azimuth + point, 1e-15) };
            }
            pair += meridian > 0.4 * accuracy ? 1 : 0;
            azimuths += azimuth + point > 0.4 * accuracy ? 1 : 0;
        }
        return null;
    }

    // Gauss-type nodes crowd towards the edge of a stretch: the first gap is about half (π/n)² of its length.
    private static double PointError(SurfacePlan plan, AxisMeeting axis, int pair, int azimuths, in ErrorScale scale)
    {
        double crowding = Math.PI / GaussKronrod.All[pair].Count;
        return scale.PointError(
            0.5 * crowding * crowding * plan.LongestStretchMetres,
            2 * Math.PI * axis.RadiusMetres / azimuths
        );
    }

    private static NestedAnswer Nested<T, TProfile, TResponse>(
        RingTable table,
        AzimuthRule around,
        TProfile profile,
        TResponse response,
        in SurfaceLight<T> light,
        double side
    )
        where T : struct, IScalar<T>
        where TProfile : struct, IBeamProfile
        where TResponse : struct, ISurfaceResponse
    {
        int half = around.Count / 2;
        double step = 2 * Math.PI / around.Count;
        SurfaceMoments<T> fine = default;
        SurfaceMoments<T> fewerRings = default;
        SurfaceMoments<T> fewerAzimuths = default;
        foreach (ref readonly Ring ring in table.Rings.AsSpan())
        {
            RingSums<T> even = RingSums<T>.Sweep<TProfile, TResponse, EqualWeights>(
                profile,
                response,
                light,
                ring,
                side,
                around.Cosines.AsSpan(0, half),
                around.Sines.AsSpan(0, half),
                default
            );
            RingSums<T> odd = RingSums<T>.Sweep<TProfile, TResponse, EqualWeights>(
                profile,
                response,
                light,
                ring,
                side,
                around.Cosines.AsSpan(half),
                around.Sines.AsSpan(half),
                default
            );
            RingSums<T> all = even + odd;
            fine.Add(all, ring, side, step * ring.FineWeight, TResponse.PushesAlongBeam);
            fewerAzimuths.Add(even, ring, side, 2 * step * ring.FineWeight, TResponse.PushesAlongBeam);
            if (ring.CoarseWeight != 0)
            {
                fewerRings.Add(all, ring, side, step * ring.CoarseWeight, TResponse.PushesAlongBeam);
            }
        }
        (UnitWrench value, UnitWrench slope) = UnitWrench.Read(fine, light, response.Absorption);
        (UnitWrench ringsValue, UnitWrench ringsSlope) = UnitWrench.Read(fewerRings, light, response.Absorption);
        (UnitWrench aroundValue, UnitWrench aroundSlope) = UnitWrench.Read(fewerAzimuths, light, response.Absorption);
        return new(
            new(value, slope, 0),
            value - ringsValue,
            slope - ringsSlope,
            value - aroundValue,
            slope - aroundSlope
        );
    }

    // The fine answer, and its differences to fewer rings and to fewer azimuths.
    private readonly record struct NestedAnswer(
        SurfaceAnswer Fine,
        UnitWrench RingsValue,
        UnitWrench RingsSlope,
        UnitWrench AroundValue,
        UnitWrench AroundSlope
    );
}
