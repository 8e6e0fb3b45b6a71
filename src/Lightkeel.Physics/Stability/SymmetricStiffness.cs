namespace Lightkeel.Physics.Stability;

/// <summary>
/// The form that symmetry gives the lateral Jacobian of an axisymmetric craft on the axis of an axisymmetric beam: the same in
/// both planes and nothing between them. Rounding breaks it in the last digits, and two equal frequencies that rounding couples
/// look like a flutter that is not there.
/// </summary>
internal static class SymmetricStiffness
{
    /// <summary>The symmetric form nearest to a Jacobian: F_x = a x + b tilt_y, T_y = c x + d tilt_y, F_y = a y − b tilt_x, T_x = −c y + d tilt_x.</summary>
    public static double[][] Nearest(double[][] k)
    {
        double a = 0.5 * (k[0][0] + k[1][1]);
        double b = 0.5 * (k[0][3] - k[1][2]);
        double c = 0.5 * (k[3][0] - k[2][1]);
        double d = 0.5 * (k[2][2] + k[3][3]);
        return
        [
            [a, 0, 0, b],
            [0, a, -b, 0],
            [0, -c, d, 0],
            [c, 0, 0, d],
        ];
    }
}
