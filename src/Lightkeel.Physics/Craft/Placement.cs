using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>Where a part sits in the body and how it is turned. The default value is at the origin and unturned.</summary>
public readonly record struct Placement
{
    /// <summary>Places a part.</summary>
    /// <param name="originMetres">The part's reference point, body axes, m.</param>
    /// <param name="turnRadians">
    /// Turns about the fixed body axes x, then y, then z, rad: a vector of the part's own frame is carried by
    /// R_z(turn z) · R_y(turn y) · R_x(turn x).
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    public Placement(Vec3 originMetres, Vec3 turnRadians = default)
    {
        Require.Finite(originMetres.X);
        Require.Finite(originMetres.Y);
        Require.Finite(originMetres.Z);
        OriginMetres = originMetres;
        Require.Finite(turnRadians.X);
        Require.Finite(turnRadians.Y);
        Require.Finite(turnRadians.Z);
        TurnRadians = turnRadians;
    }

    /// <summary>The part's reference point, body axes, m.</summary>
    public Vec3 OriginMetres { get; }

    /// <summary>Turns about the fixed body axes x, then y, then z, rad.</summary>
    public Vec3 TurnRadians { get; }

    /// <summary>Rotation from the part's own frame to body axes.</summary>
    public Mat3 BodyFromPart =>
        Mat3.Rotation(Vec3.UnitZ, TurnRadians.Z)
        * Mat3.Rotation(Vec3.UnitY, TurnRadians.Y)
        * Mat3.Rotation(Vec3.UnitX, TurnRadians.X);
}
