using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[craft]</c>.</summary>
internal static class CraftSpec
{
    /// <summary>Flat bodies meet the triangle inequality with equality, so rounding must be allowed for.</summary>
    private const double TriangleTolerance = 1e-9;

    private static readonly NumberField Mass = new(
        "mass",
        NumberKind.Of(Dimension.OfMass, Interval.Positive),
        "Mass of the whole craft."
    );

    private static readonly VectorField CenterOfMass = new(
        "center_of_mass",
        NumberKind.Of(Dimension.OfLength, Interval.Any),
        ["x", "y", "z"],
        "Centre of mass in body axes, from the reference point of the first sail."
    );

    private static readonly VectorField Inertia = new(
        "inertia",
        NumberKind.Of(Dimension.OfMomentOfInertia, Interval.Any),
        ["xx", "yy", "zz", "xy", "xz", "yz"],
        "Elements of the inertia tensor about the centre of mass in body axes: xx, yy, zz, and optionally xy, xz, yz.",
        shorter: 3
    );

    /// <summary>The section.</summary>
    public static TableField<CraftDesign> Section { get; } =
        new(
            "craft",
            new TableSpec<CraftDesign>(
                "Mass properties from a measurement or a drawing, in place of those summed from the parts.",
                [Mass, CenterOfMass, Inertia],
                t =>
                    new()
                    {
                        MassKilograms = t.Get(Mass),
                        CenterOfMassMetres = PlacementSpec.Vector(t, CenterOfMass),
                        InertiaKilogramSquareMetres = Tensor(t),
                    }
            ),
            TablePresence.Optional
        );

    private static Mat3 Tensor(TableReading table)
    {
        double[] j = table.Get(Inertia);
        (double xy, double xz, double yz) = j.Length == 6 ? (j[3], j[4], j[5]) : (0, 0, 0);
        Mat3 tensor = new(new(j[0], xy, xz), new(xy, j[1], yz), new(xz, yz, j[2]));
        if (!table.IsSound)
        {
            return tensor;
        }
        double trace = j[0] + j[1] + j[2];
        double scale = Math.Abs(trace) > 0 ? 1 / trace : 0;
        string path = table.PathOf(Inertia.Key);
        if (!IsPositiveDefinite(scale * tensor))
        {
            table.Fault(Inertia, $"{path} is not positive definite", "expected positive principal moments of inertia");
        }
        else if (!IsPositiveDefinite((0.5 + TriangleTolerance) * Mat3.Identity + -scale * tensor))
        {
            table.Fault(
                Inertia,
                $"{path} belongs to no body: one principal moment exceeds the sum of the others",
                "expected principal moments of which none exceeds the sum of the other two"
            );
        }
        return tensor;
    }

    /// <summary>Sylvester's criterion: all leading minors are positive.</summary>
    private static bool IsPositiveDefinite(Mat3 m) =>
        m.Row0.X > 0 && m.Row0.X * m.Row1.Y - m.Row0.Y * m.Row1.X > 0 && m.Determinant > 0;
}
