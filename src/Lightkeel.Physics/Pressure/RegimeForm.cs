using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>What one side of a surface of revolution is like for light.</summary>
internal enum RegimeFormKind
{
    /// <summary>Flat.</summary>
    Flat,

    /// <summary>A closed convex surface.</summary>
    Closed,

    /// <summary>Convex toward the light: part of the outside of a convex body.</summary>
    Dome,

    /// <summary>Rising toward the laser from the inner end to the rim.</summary>
    Cup,

    /// <summary>None of these.</summary>
    Rough,
}

/// <summary>The geometry of one side that decides about second bounces.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="SteepestRadians">Greatest inclination of the wall against the rim plane, rad; above π/2 for caps deeper than a hemisphere.</param>
/// <param name="OpenTiltRadians">Domes: tilt at which light through an open narrow end meets the inner wall, rad; π/2 when there is no opening.</param>
/// <param name="MirrorTiltRadians">Cups with a closed form: exact largest tilt for mirrors, rad; negative when there is none.</param>
/// <param name="MirrorRule">Cups: the rule behind that number.</param>
/// <param name="Curve">Cups without a closed form: the meridian to search.</param>
internal sealed record RegimeForm(
    RegimeFormKind Kind,
    double SteepestRadians = 0,
    double OpenTiltRadians = Math.PI / 2,
    double MirrorTiltRadians = -1,
    string MirrorRule = "",
    RegimeCurve? Curve = null
)
{
    /// <summary>Cups: exact largest tilt for mirrors, rad, searched along the meridian where no closed form exists.</summary>
    public double MirrorTilt() => Curve is null ? MirrorTiltRadians : RegimeCupTilt.Of(Curve);

    public static RegimeForm Of(SurfaceOfRevolution shape, LitSide side) =>
        shape switch
        {
            _ when shape.IsFlat => new(RegimeFormKind.Flat),
            Sphere => new(RegimeFormKind.Closed, Math.PI),
            Cone cone => OfCone(cone, side),
            SphericalCap cap => OfCap(cap, side),
            Paraboloid dish => OfParaboloid(dish, side),
            Profile profile => OfProfile(profile, side),
            _ => new(RegimeFormKind.Rough, Math.PI / 2),
        };

    /// <summary>The surface's name with the numbers that matter here.</summary>
    public static string Label(PlacedSurface surface)
    {
        string numbers = surface.Shape switch
        {
            Cone cone => $", half-angle {RegimeStatement.Degrees(cone.HalfAngleRadians)}",
            SphericalCap cap => $", half-angle {RegimeStatement.Degrees(cap.HalfAngleRadians)}",
            Paraboloid dish => string.Create(
                CultureInfo.InvariantCulture,
                $", radius {dish.RadiusMetres:G6} m, focal length {dish.FocalLengthMetres:G6} m"
            ),
            _ => "",
        };
        return $"'{surface.Name}' ({surface.Shape.Kind}{numbers})";
    }

    /// <summary>True when the concave side of a shape with this orientation is the given one.</summary>
    private static bool IsMouth(LaserSide toward, LitSide side) =>
        (toward == LaserSide.Mouth) == (side == LitSide.Front);

    private static RegimeForm OfCone(Cone cone, LitSide side)
    {
        double wall = Math.PI / 2 - cone.HalfAngleRadians;
        bool isOpen = cone.SmallRadiusMetres > 0;
        if (!IsMouth(cone.TowardLaser, side))
        {
            return new(RegimeFormKind.Dome, wall, isOpen ? cone.HalfAngleRadians : Math.PI / 2);
        }
        return isOpen
            ? new(RegimeFormKind.Cup, wall, 0, FrustumTilt(cone), FrustumRule(cone))
            : new(
                RegimeFormKind.Cup,
                wall,
                0,
                3 * cone.HalfAngleRadians - Math.PI,
                "a mouth-first cone bounces light once up to a tilt of 3 × half-angle − 180°, so its half-angle is 60° or more"
            );
    }

    // Rays leave by the mouth (worst from the narrow end) or, from steep walls, by the narrow end (worst from the rim).
    private static double FrustumTilt(Cone cone)
    {
        (double byMouth, double byNarrowEnd) = FrustumTilts(cone);
        return Math.Max(byMouth, byNarrowEnd);
    }

    private static (double ByMouth, double ByNarrowEnd) FrustumTilts(Cone cone)
    {
        double wall = Math.PI / 2 - cone.HalfAngleRadians;
        double across = cone.RadiusMetres + cone.SmallRadiusMetres;
        double depth = (cone.RadiusMetres - cone.SmallRadiusMetres) * Math.Tan(wall);
        double chord = Math.Atan(depth / across);
        return (Math.PI / 2 - 2 * wall - chord, Math.Min(cone.HalfAngleRadians, 2 * wall - Math.PI / 2 - chord));
    }

    private static string FrustumRule(Cone cone)
    {
        (double byMouth, double byNarrowEnd) = FrustumTilts(cone);
        return byNarrowEnd > byMouth
            ? "all its light has to leave by the narrow end after one bounce"
            : "light from its narrow end has to clear the opposite rim after one bounce";
    }

    private static RegimeForm OfCap(SphericalCap cap, LitSide side) =>
        IsMouth(cap.TowardLaser, side)
            ? new(
                RegimeFormKind.Cup,
                cap.HalfAngleRadians,
                0,
                Math.PI / 2 - 2 * cap.HalfAngleRadians,
                "a mouth-first cap bounces light once up to a tilt of 90° − 2 × half-angle, so its half-angle is 45° or less"
            )
            : new(RegimeFormKind.Dome, cap.HalfAngleRadians);

    private static RegimeForm OfParaboloid(Paraboloid dish, LitSide side)
    {
        double wall = Math.Atan(dish.RadiusMetres / (2 * dish.FocalLengthMetres));
        return IsMouth(dish.TowardLaser, side)
            ? new(
                RegimeFormKind.Cup,
                wall,
                0,
                Math.PI / 2 - 2 * wall,
                "a mouth-first paraboloid bounces light once up to a tilt of 90° − 2 atan(radius/(2 × focal length)), so its radius is 2 focal lengths or less"
            )
            : new(RegimeFormKind.Dome, wall);
    }

    private static RegimeForm OfProfile(Profile profile, LitSide side)
    {
        int toward = side == LitSide.Front ? -1 : 1;
        double wall = Math.Atan(profile.SteepestSlope);
        if (profile.RisesOnlyToward(toward))
        {
            return new(
                RegimeFormKind.Cup,
                wall,
                0,
                -1,
                "every reflected ray has to clear the walls above it",
                new([(profile, 0)], side)
            );
        }
        return profile.RisesOnlyToward(-toward) && profile.BendsOnlyToward(-toward)
            ? new(RegimeFormKind.Dome, wall, OpenTilt(profile))
            : new(RegimeFormKind.Rough, wall);
    }

    private static double OpenTilt(Profile profile)
    {
        double inner = profile.Pieces[0].Start;
        (double lowest, double highest) = profile.HeightRangeMetres;
        return inner > 0 ? Math.Atan((profile.MaximumRadiusMetres - inner) / (highest - lowest)) : Math.PI / 2;
    }
}
