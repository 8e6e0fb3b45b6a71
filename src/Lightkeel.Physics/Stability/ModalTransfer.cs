using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>Motion of a craft at one frequency per metre that the beam moves along x: (M s² + (D + G) s − K) q = −K (1, 0, 0, 0), s = 2πi f.</summary>
/// <param name="OffsetRatio">Offset along x over the beam's, complex.</param>
/// <param name="TiltPerMetre">Tilt about y over the beam's offset, rad/m, complex.</param>
public readonly record struct ModalTransfer(Complex OffsetRatio, Complex TiltPerMetre)
{
    /// <summary>Computes the transfer; null at an undamped resonance, where it has no bound.</summary>
    /// <param name="model">The linear model; products of inertia with the axis are left out.</param>
    /// <param name="hertz">Frequency, Hz, above zero.</param>
    public static ModalTransfer? At(LinearModel model, double hertz)
    {
        ArgumentNullException.ThrowIfNull(model);
        Complex s = new(0, 2 * Math.PI * Numerics.Require.Positive(hertz));
        double spin = model.InertiaKilogramSquareMetres.Row2.Z * model.SpinRadiansPerSecond;
        double[,] mass = new double[4, 4];
        mass[0, 0] = mass[1, 1] = model.MassKilograms;
        (mass[2, 2], mass[2, 3]) = (model.InertiaKilogramSquareMetres.Row0.X, model.InertiaKilogramSquareMetres.Row0.Y);
        (mass[3, 2], mass[3, 3]) = (model.InertiaKilogramSquareMetres.Row1.X, model.InertiaKilogramSquareMetres.Row1.Y);
        Complex[,] a = new Complex[4, 5];
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                double turn = (i, j) switch
                {
                    (2, 3) => spin,
                    (3, 2) => -spin,
                    _ => 0,
                };
                a[i, j] = s * s * mass[i, j] + s * ((model.Damping?[i][j] ?? 0) + turn) - model.Jacobian[i][j];
            }
            a[i, 4] = -model.Jacobian[i][0];
        }
        return Solve(a) is { } q && Complex.IsFinite(q[0]) && Complex.IsFinite(q[3]) ? new(q[0], q[3]) : null;
    }

    private static Complex[]? Solve(Complex[,] a)
    {
        for (int c = 0; c < 4; c++)
        {
            int p = c;
            for (int r = c + 1; r < 4; r++)
            {
                p = a[r, c].Magnitude > a[p, c].Magnitude ? r : p;
            }
            if (a[p, c].Magnitude == 0)
            {
                return null;
            }
            for (int k = 0; k < 5; k++)
            {
                (a[p, k], a[c, k]) = (a[c, k], a[p, k]);
            }
            for (int r = 0; r < 4; r++)
            {
                Complex f = r == c ? 0 : a[r, c] / a[c, c];
                for (int k = c; k < 5; k++)
                {
                    a[r, k] -= f * a[c, k];
                }
            }
        }
        return [.. Enumerable.Range(0, 4).Select(i => a[i, 4] / a[i, i])];
    }
}
