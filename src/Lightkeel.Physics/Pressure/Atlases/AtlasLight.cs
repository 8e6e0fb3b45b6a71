using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>The light on a moving craft as a table wants it: upright profile, small slant.</summary>
internal struct AtlasLight
{
    public double Doppler;
    public bool IsSlanted;
    public double SlantX;
    public double SlantY;

    /// <summary>Small turn that sets the profile upright, to be taken from the pose and given to the answer.</summary>
    public Vec3 Turn;

    /// <summary>The light on a craft with a velocity.</summary>
    public static AtlasLight On(Vec3 velocity)
    {
        AtlasLight light = default;
        light.Doppler = 1;
        if (velocity.X != 0 || velocity.Y != 0)
        {
            Illumination seen = Illumination.SeenFrom(velocity);
            light.Doppler = seen.IrradianceFactor;
            light.IsSlanted = true;
            light.Turn = new(seen.ProfileY.Z, -seen.ProfileX.Z, 0);
            light.SlantX = seen.Direction.X + seen.ProfileX.Z;
            light.SlantY = seen.Direction.Y + seen.ProfileY.Z;
        }
        else if (velocity.Z != 0)
        {
            double beta = velocity.Z / Illumination.LightSpeed;
            light.Doppler = Math.Abs(beta) < 1 ? (1 - beta) / (1 + beta) : double.NaN;
        }
        return light;
    }

    /// <summary>Whether the first order of the slant is enough.</summary>
    public readonly bool IsWithin(double slant) =>
        Doppler > 0
        && Math.Max(Math.Abs(SlantX), Math.Abs(SlantY)) <= slant
        && Vec3.Dot(Turn, Turn) <= slant * slant;

    /// <summary>The answer for a pose that was turned back.</summary>
    public readonly UnitWrench Turned(in UnitWrench unit) =>
        unit with
        {
            Force = unit.Force + Vec3.Cross(Turn, unit.Force),
            Torque = unit.Torque + Vec3.Cross(Turn, unit.Torque),
        };

    /// <summary>Largest slant whose second order, a few times its square, stays below a tenth of an accuracy.</summary>
    public static double LargestSlant(double accuracy) => Math.Sqrt(0.02 * accuracy);
}

/// <summary>Eight numbers side by side, to read one by one.</summary>
internal readonly struct AtlasLanes
{
#pragma warning disable CS0649 // Filled as a whole from a vector.
    public readonly double Q0;
    public readonly double Q1;
    public readonly double Q2;
    public readonly double Q3;
    public readonly double Q4;
    public readonly double Q5;
    public readonly double Q6;
    public readonly double Q7;
#pragma warning restore CS0649

    public static AtlasLanes From(System.Runtime.Intrinsics.Vector512<double> v) =>
        System.Runtime.CompilerServices.Unsafe.BitCast<System.Runtime.Intrinsics.Vector512<double>, AtlasLanes>(v);
}
