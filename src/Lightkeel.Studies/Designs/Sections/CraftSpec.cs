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
                Build
            ),
            TablePresence.Optional
        );

    private static CraftDesign Build(TableReading table)
    {
        double[] inertia = table.Get(Inertia);
        bool full = inertia.Length == 6;
        CraftDesign craft = new()
        {
            MassKilograms = table.Get(Mass),
            CenterOfMassMetres = PlacementSpec.Vector(table, CenterOfMass),
            InertiaXXKilogramSquareMetres = inertia[0],
            InertiaYYKilogramSquareMetres = inertia[1],
            InertiaZZKilogramSquareMetres = inertia[2],
            InertiaXYKilogramSquareMetres = full ? inertia[3] : 0,
            InertiaXZKilogramSquareMetres = full ? inertia[4] : 0,
            InertiaYZKilogramSquareMetres = full ? inertia[5] : 0,
        };
        if (table.IsSound)
        {
            CheckInertia(table, craft.InertiaKilogramSquareMetres());
        }
        return craft;
    }

    private static void CheckInertia(TableReading table, Mat3 tensor)
    {
        double trace = tensor.Row0.X + tensor.Row1.Y + tensor.Row2.Z;
        double scale = trace > 0 ? 1 / trace : 0;
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
    }

    /// <summary>Sylvester's criterion: all leading minors are positive.</summary>
    private static bool IsPositiveDefinite(Mat3 m) =>
        m.Row0.X > 0 && m.Row0.X * m.Row1.Y - m.Row0.Y * m.Row1.X > 0 && m.Determinant > 0;
}
