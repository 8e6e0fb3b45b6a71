namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Which side of a hollow shape faces the laser.</summary>
public enum TowardLaser
{
    /// <summary>The vertex, pole or narrow end: the shape lies in z ≥ 0 of its axes.</summary>
    Vertex,

    /// <summary>The opening: the shape lies in z ≤ 0 of its axes.</summary>
    Mouth,
}

/// <summary>The shape of a sail, in axes with their origin at its reference point and +z away from the laser.</summary>
public abstract record ShapeDesign;

/// <summary>Flat disc, with a hole or without.</summary>
public sealed record DiscShapeDesign : ShapeDesign
{
    /// <summary>Outer radius, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Radius of the hole, m; zero for none.</summary>
    public required double InnerRadiusMetres { get; init; }
}

/// <summary>Cone.</summary>
public sealed record ConeShapeDesign : ShapeDesign
{
    /// <summary>Radius of the base, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Angle between axis and generator, rad; π/2 would be a disc.</summary>
    public required double HalfAngleRadians { get; init; }

    /// <summary>Which side faces the laser.</summary>
    public required TowardLaser TowardLaser { get; init; }
}

/// <summary>Cone without its tip.</summary>
public sealed record FrustumShapeDesign : ShapeDesign
{
    /// <summary>Radius of the wide end, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Radius of the narrow end, m.</summary>
    public required double SmallRadiusMetres { get; init; }

    /// <summary>Angle between axis and generator, rad.</summary>
    public required double HalfAngleRadians { get; init; }

    /// <summary>Which end faces the laser; the vertex is the narrow one.</summary>
    public required TowardLaser TowardLaser { get; init; }
}

/// <summary>Part of a sphere around its pole.</summary>
public sealed record CapShapeDesign : ShapeDesign
{
    /// <summary>Radius of the sphere, m.</summary>
    public required double CurvatureRadiusMetres { get; init; }

    /// <summary>Angle at the centre of curvature from the pole to the rim, rad, given or from the radius of the rim.</summary>
    public required double RimAngleRadians { get; init; }

    /// <summary>Radius of the rim, m; null when the angle was given.</summary>
    public double? RadiusMetres { get; init; }

    /// <summary>Which side faces the laser; the vertex is the pole.</summary>
    public required TowardLaser TowardLaser { get; init; }
}

/// <summary>Paraboloid of revolution.</summary>
public sealed record ParaboloidShapeDesign : ShapeDesign
{
    /// <summary>Distance from vertex to focus, m.</summary>
    public required double FocalLengthMetres { get; init; }

    /// <summary>Radius of the rim, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Which side faces the laser.</summary>
    public required TowardLaser TowardLaser { get; init; }
}

/// <summary>Whole sphere.</summary>
public sealed record SphereShapeDesign : ShapeDesign
{
    /// <summary>Radius, m.</summary>
    public required double RadiusMetres { get; init; }
}

/// <summary>Surface of revolution through given points.</summary>
public sealed record ProfileShapeDesign : ShapeDesign
{
    /// <summary>Distances from the axis, strictly increasing, m.</summary>
    public required IReadOnlyList<double> RadiiMetres { get; init; }

    /// <summary>Heights along body +z at those radii, m.</summary>
    public required IReadOnlyList<double> HeightsMetres { get; init; }
}
