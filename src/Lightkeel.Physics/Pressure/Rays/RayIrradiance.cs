using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>Irradiance per watt with its slopes, of a beam profile under its own type.</summary>
internal abstract class RayIrradiance
{
    /// <summary>The probe of a beam.</summary>
    public static RayIrradiance Of(IBeamProfile profile) => profile.Accept(new Maker());

    /// <summary>Irradiance per watt, 1/m².</summary>
    public abstract double Value(double x, double y);

    /// <summary>Irradiance per watt and its slopes along x and y, 1/m² and 1/m³.</summary>
    public abstract (double Value, double ByX, double ByY) Slopes(double x, double y);

    private sealed class Maker : IBeamVisitor<RayIrradiance>
    {
        public RayIrradiance Visit<TProfile>(TProfile profile)
            where TProfile : struct, IBeamProfile => new Typed<TProfile>(profile);
    }

    private sealed class Typed<TProfile>(TProfile profile) : RayIrradiance
        where TProfile : struct, IBeamProfile
    {
        public override double Value(double x, double y) => profile.UnitIrradiance(new F64(x), new F64(y)).Value;

        public override (double Value, double ByX, double ByY) Slopes(double x, double y)
        {
            Dual1 alongX = profile.UnitIrradiance(Dual1.Variable(x, 1), Dual1.Constant(y));
            Dual1 alongY = profile.UnitIrradiance(Dual1.Constant(x), Dual1.Variable(y, 1));
            return (alongX.Value, alongX.Slope, alongY.Slope);
        }
    }
}
