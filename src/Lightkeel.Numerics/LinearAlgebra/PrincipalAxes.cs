namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>Eigenvalues and orthonormal eigenvectors of a symmetric 3×3 matrix, in rising order.</summary>
/// <param name="Values">The three eigenvalues, rising.</param>
/// <param name="First">Unit vector to the smallest.</param>
/// <param name="Middle">Unit vector to the middle one.</param>
/// <param name="Last">Unit vector to the largest; First, Middle, Last are right-handed.</param>
public readonly record struct PrincipalAxes(Vec3 Values, Vec3 First, Vec3 Middle, Vec3 Last)
{
    private const double AsymmetryAllowed = 1e-12;
    private const int MostSweeps = 40;

    /// <summary>Diagonalises by cyclic Jacobi rotations: every eigenvalue to rounding of the largest, vectors orthogonal to rounding.</summary>
    /// <param name="matrix">Symmetric to 1e-12 of its largest element, finite.</param>
    /// <exception cref="ArgumentException">The matrix is not finite or not symmetric.</exception>
    /// <remarks>
    /// Source: Matrix Computations, 4th ed., Johns Hopkins University Press (2013), section 8.5. A diagonal matrix is
    /// returned exactly.
    /// </remarks>
    public static PrincipalAxes Of(Mat3 matrix)
    {
        double[,] a = ToArray(matrix);
        double[,] v = ToArray(Mat3.Identity);
        RequireSymmetric(a);
        for (int sweep = 0; sweep < MostSweeps && (a[0, 1] != 0 || a[0, 2] != 0 || a[1, 2] != 0); sweep++)
        {
            Rotate(a, v, 0, 1);
            Rotate(a, v, 0, 2);
            Rotate(a, v, 1, 2);
        }
        int[] order = [0, 1, 2];
        Array.Sort([a[0, 0], a[1, 1], a[2, 2]], order);
        Vec3 first = Column(v, order[0]);
        Vec3 middle = Column(v, order[1]);
        Vec3 last = Column(v, order[2]);
        if (Vec3.Dot(Vec3.Cross(first, middle), last) < 0)
        {
            last = -last;
        }
        return new(new(a[order[0], order[0]], a[order[1], order[1]], a[order[2], order[2]]), first, middle, last);
    }

    // Turns the plane (p, q) so that a_pq vanishes; sets it to zero where it is below rounding of the diagonal.
    private static void Rotate(double[,] a, double[,] v, int p, int q)
    {
        double off = a[p, q];
        if (off == 0 || Math.Abs(off) < 1e-18 * (Math.Abs(a[p, p]) + Math.Abs(a[q, q])))
        {
            a[p, q] = a[q, p] = 0;
            return;
        }
        double theta = (a[q, q] - a[p, p]) / (2 * off);
        double t = 1 / (Math.Abs(theta) + Math.Sqrt(theta * theta + 1));
        t = theta < 0 ? -t : t;
        double c = 1 / Math.Sqrt(t * t + 1);
        double s = t * c;
        int r = 3 - p - q;
        (double ap, double aq) = (a[r, p], a[r, q]);
        a[r, p] = a[p, r] = c * ap - s * aq;
        a[r, q] = a[q, r] = s * ap + c * aq;
        a[p, p] -= t * off;
        a[q, q] += t * off;
        a[p, q] = a[q, p] = 0;
        for (int k = 0; k < 3; k++)
        {
            (double vp, double vq) = (v[k, p], v[k, q]);
            v[k, p] = c * vp - s * vq;
            v[k, q] = s * vp + c * vq;
        }
    }

    private static void RequireSymmetric(double[,] a)
    {
        double largest = 0;
        foreach (double x in a)
        {
            if (!double.IsFinite(x))
            {
                throw new ArgumentException("The matrix has an element that is not finite.", nameof(a));
            }
            largest = Math.Max(largest, Math.Abs(x));
        }
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < i; j++)
            {
                if (Math.Abs(a[i, j] - a[j, i]) > AsymmetryAllowed * largest)
                {
                    throw new ArgumentException(
                        $"The matrix is not symmetric: elements ({i + 1},{j + 1}) and ({j + 1},{i + 1}) differ.",
                        nameof(a)
                    );
                }
                a[i, j] = a[j, i] = 0.5 * (a[i, j] + a[j, i]);
            }
        }
    }

    private static Vec3 Column(double[,] v, int k) => new(v[0, k], v[1, k], v[2, k]);

    private static double[,] ToArray(Mat3 m) =>
        new[,]
        {
            { m.Row0.X, m.Row0.Y, m.Row0.Z },
            { m.Row1.X, m.Row1.Y, m.Row1.Z },
            { m.Row2.X, m.Row2.Y, m.Row2.Z },
        };
}
