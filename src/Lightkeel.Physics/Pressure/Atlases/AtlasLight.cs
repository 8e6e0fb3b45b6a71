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

    // β, and γ²/(γ + 1): what the shear of the profile is made of. See Illumination, whose equations these are.
    private Vec3 _beta;
    private double _stretch;

    /// <summary>The light on a craft with a velocity; a Doppler factor that is no number where it is faster than light.</summary>
    public static void On(in Vec3 velocity, out AtlasLight light)
    {
        light = default;
        light.Doppler = 1;
        if (velocity.X == 0 && velocity.Y == 0)
        {
            if (velocity.Z != 0)
            {
                double alone = velocity.Z / Illumination.LightSpeed;
                light.Doppler = Math.Abs(alone) < 1 ? (1 - alone) / (1 + alone) : double.NaN;
            }
            return;
        }
        Vec3 beta = 1 / Illumination.LightSpeed * velocity;
        double gamma = 1 / Math.Sqrt(1 - Vec3.Dot(beta, beta));
        double doppler = gamma * (1 - beta.Z);
        double stretch = gamma * gamma / (gamma + 1);
        double shear = stretch * beta.Z;
        // Direction of the light across the beam plus the shear of the profile, both along the lateral velocity.
        double slant = (shear - gamma) / doppler + shear;
        light.Doppler = doppler * doppler;
        light.IsSlanted = true;
        light.Turn = new(shear * beta.Y, -shear * beta.X, 0);
        (light.SlantX, light.SlantY) = (slant * beta.X, slant * beta.Y);
        (light._beta, light._stretch) = (beta, stretch);
    }

    /// <summary>Where a point at an arm from the centre of mass meets the profile.</summary>
    public readonly (double X, double Y) Across(Vec3 arm)
    {
        double along = _stretch * Vec3.Dot(_beta, arm);
        return (arm.X + along * _beta.X, arm.Y + along * _beta.Y);
    }

    /// <summary>Whether the first order of the slant is enough.</summary>
    public readonly bool IsWithin(double slant) =>
        Doppler > 0 && Math.Max(Math.Abs(SlantX), Math.Abs(SlantY)) <= slant && Vec3.Dot(Turn, Turn) <= slant * slant;

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
