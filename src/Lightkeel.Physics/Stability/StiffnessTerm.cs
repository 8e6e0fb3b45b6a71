namespace Lightkeel.Physics.Stability;

/// <summary>One term of the Jacobian, possibly standing at several places for reasons of symmetry.</summary>
/// <param name="Name">Such as dFx/dx.</param>
/// <param name="Value">Its value.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Places">Rows and columns it stands at.</param>
internal sealed record StiffnessTerm(
    string Name,
    double Value,
    string Unit,
    IReadOnlyList<(int Row, int Column)> Places
)
{
    private static readonly string[] Rows = ["Fx", "Fy", "Tx", "Ty"];
    private static readonly string[] Columns = ["x", "y", "tilt_x", "tilt_y"];

    /// <summary>Whether the Jacobian has the form of an axisymmetric craft with a mirror plane, within its error.</summary>
    public static bool IsAxisymmetric(LinearModel model)
    {
        LateralStiffness stiffness = new(model);
        return SpinSpectrum.ComplexStiffness(stiffness) is { } k
            && k.Cast<System.Numerics.Complex>().All(z => z.Imaginary == 0)
            && model.CraftIsAxisymmetric
            && model.BeamIsAxisymmetric;
    }

    /// <summary>The four terms of one plane of an axisymmetric Jacobian.</summary>
    public static IReadOnlyList<StiffnessTerm> AxisymmetricTerms(LinearModel model)
    {
        double[][] k = model.Jacobian;
        return
        [
            new("dFx/dx", k[0][0], "N/m", [(0, 0), (1, 1)]),
            new("dFx/dtilt_y", k[0][3], "N/rad", [(0, 3), (1, 2)]),
            new("dTy/dx", k[3][0], "N", [(3, 0), (2, 1)]),
            new("dTy/dtilt_y", k[3][3], "N m/rad", [(3, 3), (2, 2)]),
        ];
    }

    /// <summary>All sixteen entries.</summary>
    public static IReadOnlyList<StiffnessTerm> AllTerms(LinearModel model) =>
        [
            .. Enumerable
                .Range(0, 16)
                .Select(i => new StiffnessTerm(
                    $"d{Rows[i / 4]}/d{Columns[i % 4]}",
                    model.Jacobian[i / 4][i % 4],
                    UnitOf(i / 4, i % 4),
                    [(i / 4, i % 4)]
                )),
        ];

    private static string UnitOf(int row, int column) =>
        (row < 2, column < 2) switch
        {
            (true, true) => "N/m",
            (true, false) => "N/rad",
            (false, true) => "N",
            _ => "N m/rad",
        };

    /// <summary>The model with this term multiplied by a factor at every place, at all spin angles alike.</summary>
    public LinearModel Scaled(LinearModel model, double factor)
    {
        Func<double, double[][]>? periodic = model.JacobianAtSpinAngle;
        return model with
        {
            Jacobian = Changed(model.Jacobian, factor),
            JacobianAtSpinAngle = periodic is null ? null : angle => Changed(periodic(angle), factor),
        };
    }

    private double[][] Changed(double[][] jacobian, double factor)
    {
        double[][] changed = [.. jacobian.Select(row => (double[])row.Clone())];
        foreach ((int row, int column) in Places)
        {
            changed[row][column] *= factor;
        }
        return changed;
    }

    /// <summary>Size of the antisymmetric part of M^(−1/2) K M^(−1/2) over the size of the whole.</summary>
    public static double CirculatoryShare(LinearModel model)
    {
        double size = model.GyrationRadiusMetres;
        double whole = 0;
        double skew = 0;
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                double a = Scale(i, j) * model.Jacobian[i][j];
                double b = Scale(j, i) * model.Jacobian[j][i];
                whole = double.Hypot(whole, a);
                skew = double.Hypot(skew, 0.5 * (a - b));
            }
        }
        return whole > 0 ? skew / whole : 0;

        double Scale(int row, int column) => (row < 2 ? 1 : 1 / size) * (column < 2 ? 1 : 1 / size);
    }
}
