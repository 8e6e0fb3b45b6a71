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
