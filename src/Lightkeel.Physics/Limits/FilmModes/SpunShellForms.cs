using Lightkeel.Numerics;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>The slow modes of a curved film that spins about its axis, both ends free, and does not stretch.</summary>
/// <remarks>
/// <para>
/// A curved film bends without stretching in one way for each n ≥ 2 (Proceedings of the London Mathematical Society 13, 4 (1881)): radial
/// part a = −n b, with b along the meridian from r b″ = (k′/k)(r b′ + (n² − 1) b), k = dz/dr, and axial part n k c = r b′ + (n² − 1) b.
/// Cone: b = r, c = n r/k. Paraboloid: b = r^(n+1), c = (n + 1) r^(n+1)/k. Spherical cap, θ from the pole: b = sin θ tanⁿ(θ/2),
/// c from the same law.
/// </para>
/// <para>
/// With the hoop tension σΩ²r² of the spin alone, Rayleigh's quotient with the Coriolis force has for every such shape the roots
/// ω = −nΩ and ω = (n + 4κ)Ω in the turning frame, κ = ∫ab dA / ∫(a² + b² + c²) dA &lt; 0. The first stands still in space: a
/// spun film has no stiffness against a lobed shape that does not turn. On a cone κ = −n/(n²/cos²α + 1), α the half-angle. Derived
/// here; the finite elements meet it where the film's stretching is stiff.
/// </para>
/// </remarks>
public static class SpunShellForms
{
    private const int Panels = 32;
    private const int Order = 16;

    /// <summary>ω/Ω of the wave that runs with the spin, in the turning frame; null for shapes without a closed form.</summary>
    /// <param name="shape">A cone, paraboloid or cap short of a sphere.</param>
    /// <param name="waves">Waves around, ≥ 2.</param>
    public static double? WithSpinRatio(SurfaceOfRevolution shape, int waves)
    {
        ArgumentNullException.ThrowIfNull(shape);
        int n = Require.AtLeast(2, waves);
        return shape switch
        {
            Cone cone => n + 4 * ConeShare(cone.HalfAngleRadians, n),
            Paraboloid or SphericalCap => n + 4 * Share(shape, n),
            _ => null,
        };
    }

    /// <summary>ω/Ω of the wave that stands still in space, in the turning frame: −n.</summary>
    public static double AgainstSpinRatio(int waves) => -Require.AtLeast(2, waves);

    private static double ConeShare(double halfAngle, int n)
    {
        double cosine = Math.Cos(halfAngle);
        return -n / (n * n / (cosine * cosine) + 1);
    }

    private static double Share(SurfaceOfRevolution shape, int n)
    {
        (double start, double end) = shape.Pieces[0];
        double product = 0;
        double square = 0;
        GaussLegendre rule = GaussLegendre.Order(Order);
        for (int i = 0; i < Panels; i++)
        {
            double half = 0.5 * (end - start) / Panels;
            double middle = start + (2 * i + 1) * half;
            for (int k = 0; k < Order; k++)
            {
                double u = middle + half * rule.Nodes[k];
                MeridianPoint m = shape.At(0, u);
                (double b, double c) = Bent(shape, m, u, n);
                double weight = rule.Weights[k] * m.RadiusMetres * m.ArcRate;
                product -= weight * n * b * b;
                square += weight * ((n * n + 1) * b * b + c * c);
            }
        }
        return product / square;
    }

    // Scaled to the rim, so that high powers stay within the numbers.
    private static (double B, double C) Bent(SurfaceOfRevolution shape, in MeridianPoint m, double u, int n)
    {
        double slope = -m.NormalRadial / m.NormalAxial;
        if (shape is Paraboloid paraboloid)
        {
            double b = Math.Pow(m.RadiusMetres / paraboloid.RadiusMetres, n + 1);
            return (b, (n + 1) * b / slope);
        }
        SphericalCap cap = (SphericalCap)shape;
        double tangent = Math.Pow(Math.Tan(0.5 * u) / Math.Tan(0.5 * cap.HalfAngleRadians), n);
        double around = m.RadiusMetres / cap.CurvatureRadiusMetres * tangent;
        // r db/dr = sin θ (db/dθ)/cos θ with db/dθ = (cos θ + n) tanⁿ(θ/2): over k = tan θ the cosines drop out.
        (double s, double c) = Math.SinCos(u);
        double sign = Math.Sign(slope) * Math.Sign(c);
        return (around, sign * tangent * (c + n + (n * n - 1) * c) / n);
    }
}
