using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>A payload, boom or other body of the craft that light does not push.</summary>
public sealed record MassDesign
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its mass, kg.</summary>
    public required double MassKilograms { get; init; }

    /// <summary>How the mass is spread.</summary>
    public required MassShapeDesign Shape { get; init; }

    /// <summary>Place of its centre in body axes, from the first sail's reference point, m.</summary>
    public required Vec3 PositionMetres { get; init; }

    /// <summary>Angles by which it is turned about body x, then y, then z, rad.</summary>
    public required Vec3 TurnRadians { get; init; }

    /// <summary>What it is in the mass budget; null to take rods for booms and all else for payload.</summary>
    public MassRole? Role { get; init; }

    /// <summary>Share of light absorbed; null when not stated.</summary>
    public double? Absorptivity { get; init; }

    /// <summary>Emissivity; null when not stated.</summary>
    public double? Emissivity { get; init; }

    /// <summary>Name of its material; null when not stated.</summary>
    public string? MaterialName { get; init; }
}

/// <summary>What a mass is in the budget.</summary>
public enum MassRole
{
    /// <summary>Carried for its own sake.</summary>
    Payload,

    /// <summary>Booms and frames.</summary>
    Boom,
}

/// <summary>How a mass is spread around its centre.</summary>
public abstract record MassShapeDesign;

/// <summary>In one point.</summary>
public sealed record PointMassDesign : MassShapeDesign;

/// <summary>Over a ball or a spherical shell.</summary>
public sealed record SphereMassDesign : MassShapeDesign
{
    /// <summary>Radius, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>True when the ball is filled, false for a thin shell.</summary>
    public required bool IsSolid { get; init; }
}

/// <summary>Along a thin straight rod.</summary>
public sealed record RodMassDesign : MassShapeDesign
{
    /// <summary>Length, m.</summary>
    public required double LengthMetres { get; init; }

    /// <summary>Unit vector along the rod.</summary>
    public required Vec3 Direction { get; init; }

    /// <summary>Outer radius as a tube, m; null when not stated.</summary>
    public double? OuterRadiusMetres { get; init; }

    /// <summary>Wall as a tube, m; null when not stated.</summary>
    public double? WallMetres { get; init; }
}

/// <summary>Along a thin ring.</summary>
public sealed record RingMassDesign : MassShapeDesign
{
    /// <summary>Radius, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Unit vector along its axis.</summary>
    public required Vec3 Direction { get; init; }
}

/// <summary>Over a filled box.</summary>
public sealed record BoxMassDesign : MassShapeDesign
{
    /// <summary>Edge lengths along x, y, z, m.</summary>
    public required Vec3 SizeMetres { get; init; }
}
