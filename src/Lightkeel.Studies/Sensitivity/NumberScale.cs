using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>By what a number is measured: its own value, or a size of the design where it is zero.</summary>
/// <param name="Size">The measure, SI, more than zero.</param>
/// <param name="Tolerates">Whether a share of it is a tolerance that means something.</param>
internal readonly record struct NumberScale(double Size, bool Tolerates)
{
    // Zero speed and zero spin: steps that light and motion feel, no tolerances.
    private const double SpeedMetresPerSecond = 3e6;
    private const double SpinRadiansPerSecond = 1;

    public static NumberScale Of(DesignNumber number, DesignModel model)
    {
        if (number.SiValue != 0)
        {
            return new(Math.Abs(number.SiValue), true);
        }
        Dimension d = number.Dimension;
        return d == Dimension.OfLength ? new(model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres), true)
            : d == Dimension.OfMass ? new(model.Craft.Mass.MassKilograms, true)
            : d == Dimension.OfAngle || d == Dimension.None ? new(1, true)
            : d == Dimension.OfSpeed ? new(SpeedMetresPerSecond, false)
            : d == Dimension.OfAngularRate ? new(SpinRadiansPerSecond, false)
            : new(1, false);
    }
}
