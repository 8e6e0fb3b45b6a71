using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>Mass properties of a whole craft: summed from its parts, or taken from a measurement and checked.</summary>
/// <remarks>
/// The result can always be integrated as a rigid body: positive mass and three positive principal moments that obey
/// the triangle inequality. A craft whose smallest principal moment is zero (a lone point, or masses on one line) has
/// no equation for the turn about that line and is refused here, with what to add.
/// </remarks>
public static class MassAssembly
{
    // A moment this far below the largest one is zero within the rounding of the sums that made it.
    private const double ZeroMoment = 1e-12;
    private const double Slack = 1e-9;

    /// <summary>Sums mass, centre of mass and inertia about it (parallel axes) over the parts, in their order.</summary>
    /// <param name="parts">One part or more.</param>
    /// <exception cref="ArgumentException">No parts, no mass, numbers out of range, or inertia that no rigid body can turn with.</exception>
    public static MassProperties Sum(IReadOnlyList<MassPart> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        PartMoments[] moments = [.. parts.Select(p => p.BodyMoments)];
        double mass = 0;
        Vec3 first = Vec3.Zero;
        foreach (PartMoments m in moments)
        {
            mass += m.MassKilograms;
            first += m.MassKilograms * m.CentroidMetres;
        }
        if (!(mass > 0) || !double.IsFinite(mass))
        {
            throw new ArgumentException(
                "The craft has no mass (or more than a number can hold): give a sail an areal density or add a mass.",
                nameof(parts)
            );
        }
        Vec3 center = 1 / mass * first;
        Mat3 inertia = default;
        foreach (PartMoments m in moments)
        {
            inertia += m.InertiaKilogramSquareMetres + Offset(m.MassKilograms, m.CentroidMetres - center);
        }
        return Checked(new(mass, center, Symmetric(inertia)), nameof(parts));
    }

    /// <summary>Takes measured (or separately computed) properties in place of a sum.</summary>
    /// <param name="massKilograms">Mass, kg, positive.</param>
    /// <param name="centerOfMassMetres">Centre of mass from the body origin, body axes, m.</param>
    /// <param name="inertiaKilogramSquareMetres">
    /// Inertia tensor about the centre of mass, body axes, kg m²; off-diagonal entries are minus the products of
    /// inertia (I_xy = −∫ x y dm).
    /// </param>
    /// <exception cref="ArgumentException">
    /// The mass is not positive, a number is not finite, or the tensor is not symmetric, not positive definite, or
    /// breaks the triangle inequality of principal moments (I₁ + I₂ ≥ I₃).
    /// </exception>
    public static MassProperties Measured(
        double massKilograms,
        Vec3 centerOfMassMetres,
        Mat3 inertiaKilogramSquareMetres
    )
    {
        if (!(massKilograms > 0) || !double.IsFinite(massKilograms))
        {
            throw new ArgumentOutOfRangeException(
                nameof(massKilograms),
                massKilograms,
                "A craft's mass is finite and greater than zero."
            );
        }
        Mat3 m = inertiaKilogramSquareMetres;
        double scale = Math.Abs(m.Row0.X) + Math.Abs(m.Row1.Y) + Math.Abs(m.Row2.Z);
        double skew = Math.Max(
            Math.Abs(m.Row0.Y - m.Row1.X),
            Math.Max(Math.Abs(m.Row0.Z - m.Row2.X), Math.Abs(m.Row1.Z - m.Row2.Y))
        );
        if (skew > Slack * scale)
        {
            throw new ArgumentException(
                "An inertia tensor is symmetric: mirrored off-diagonal entries must agree.",
                nameof(inertiaKilogramSquareMetres)
            );
        }
        return Checked(new(massKilograms, centerOfMassMetres, Symmetric(m)), nameof(inertiaKilogramSquareMetres));
    }

    private static MassProperties Checked(MassProperties craft, string argument)
    {
        Mat3 m = craft.InertiaKilogramSquareMetres;
        if (!craft.CenterOfMassMetres.IsFinite || !m.Row0.IsFinite || !m.Row1.IsFinite || !m.Row2.IsFinite)
        {
            throw new ArgumentException("Centre of mass and inertia must be finite numbers.", argument);
        }
        (double small, double middle, double large) = PrincipalAxes.Of(m).Values;
        string moments = FormattableString.Invariant($"principal moments {small:G6}, {middle:G6}, {large:G6} kg m²");
        if (!(large > 0) || small <= ZeroMoment * large)
        {
            throw new ArgumentException(
                small < -Slack * Math.Abs(large)
                    ? $"An inertia tensor is positive definite; this one has {moments}."
                    : $"The craft has no inertia about some line ({moments}), so its rotation cannot be followed: "
                        + "all its mass lies in one point or on one line. Give a part a size (a sphere, ring or box, or a sail with areal density).",
                argument
            );
        }
        if (small + middle < large * (1 - Slack))
        {
            throw new ArgumentException(
                $"No body has these moments: the two smaller principal moments must sum to the largest or more ({moments}).",
                argument
            );
        }
        return craft;
    }

    // m (d² 1 − d dᵀ): what a mass at distance d adds about a parallel axis.
    private static Mat3 Offset(double mass, Vec3 d)
    {
        double square = Vec3.Dot(d, d);
        return new(
            mass * new Vec3(square - d.X * d.X, -d.X * d.Y, -d.X * d.Z),
            mass * new Vec3(-d.Y * d.X, square - d.Y * d.Y, -d.Y * d.Z),
            mass * new Vec3(-d.Z * d.X, -d.Z * d.Y, square - d.Z * d.Z)
        );
    }

    private static Mat3 Symmetric(Mat3 m) => 0.5 * (m + m.Transposed);
}
