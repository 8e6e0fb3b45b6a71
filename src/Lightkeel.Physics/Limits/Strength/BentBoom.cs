using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>A slender boom that bends far under a sideways force at its tip, its root clamped: the elastica.</summary>
/// <param name="DeflectionShare">Sideways way of the tip over the length.</param>
/// <param name="ShorteningShare">What the tip draws back along the axis, over the length.</param>
/// <param name="TipRadians">Angle of the tip, rad.</param>
/// <remarks>
/// The force keeps its direction. With α = P L²/(EI) and tip angle φ₀: ∫₀^φ₀ dφ/√(2α (sin φ₀ − sin φ)) = 1, and the deflection is the same
/// integral of sin φ. Source: Quarterly of Applied Mathematics 3, 272 (1945). Small loads: α/3.
/// </remarks>
public readonly record struct BentBoom(double DeflectionShare, double ShorteningShare, double TipRadians)
{
    private const int Order = 64;

    /// <summary>Shape under a load.</summary>
    /// <param name="loadParameter">α = P L²/(EI), 0 … 100.</param>
    public static BentBoom Under(double loadParameter)
    {
        double alpha = Require.Between(loadParameter, 0, 100);
        if (alpha < 1e-6)
        {
            // The next terms are smaller by α².
            return new(alpha / 3, alpha * alpha / 15, alpha / 2);
        }
        double scale = Math.Sqrt(2 * alpha);
        (double low, double high) = (0, 0.5 * Math.PI);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Integral(middle, _ => 1) < scale ? (middle, high) : (low, middle);
        }
        double tip = 0.5 * (low + high);
        double along = Integral(tip, Math.Cos) / scale;
        return new(Integral(tip, Math.Sin) / scale, 1 - along, tip);
    }

    // φ = φ₀ (1 − u²) takes the root out of the tip: sin φ₀ − sin φ = 2 cos(mean) sin(φ₀u²/2).
    private static double Integral(double tip, Func<double, double> weight) =>
        tip == 0
            ? 0
            : GaussLegendre
                .Order(Order)
                .Integrate(
                    u =>
                    {
                        double half = 0.5 * tip * u * u;
                        double drop = 2 * Math.Cos(tip - half) * Math.Sin(half);
                        return weight(tip - 2 * half) * 2 * u * tip / Math.Sqrt(drop);
                    },
                    0,
                    1
                );
}
