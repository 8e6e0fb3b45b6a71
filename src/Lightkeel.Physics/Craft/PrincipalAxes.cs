using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Craft;

/// <summary>Principal moments of inertia, smallest first, with the axes they belong to.</summary>
/// <remarks>
/// By cyclic Jacobi rotations of the symmetric 3×3 tensor, which keep small moments exact relative to the largest.
/// Axes are unit, right-handed, and turned so that the largest component of each of the first two is positive; for equal
/// moments the axes within their plane are one choice of many, always the same for the same tensor.
/// Source of the method: Handbook Series Linear Algebra, Numerische Mathematik 9, 1–10 (1966), doi:10.1007/BF02165223.
/// </remarks>
public sealed record PrincipalAxes
{
    private const int SweepLimit = 32;

    private PrincipalAxes(Vec3 moments, Mat3 bodyFromPrincipal)
    {
        MomentsKilogramSquareMetres = moments;
        BodyFromPrincipal = bodyFromPrincipal;
    }

    /// <summary>The three principal moments, smallest first, kg m².</summary>
    public Vec3 MomentsKilogramSquareMetres { get; }

    /// <summary>Rotation from principal to body axes; its columns are the principal axes.</summary>
    public Mat3 BodyFromPrincipal { get; }

    /// <summary>Finds moments and axes.</summary>
    /// <param name="inertiaKilogramSquareMetres">A symmetric tensor, kg m²; only its upper triangle is read.</param>
    /// <exception cref="ArgumentException">An entry is not finite.</exception>
    public static PrincipalAxes Of(Mat3 inertiaKilogramSquareMetres)
    {
        Mat3 m = inertiaKilogramSquareMetres;
        if (!m.Row0.IsFinite || !m.Row1.IsFinite || !m.Row2.IsFinite)
        {
            throw new ArgumentException("An inertia tensor has finite entries.", nameof(inertiaKilogramSquareMetres));
        }
        double[,] a =
        {
            { m.Row0.X, m.Row0.Y, m.Row0.Z },
            { m.Row0.Y, m.Row1.Y, m.Row1.Z },
            { m.Row0.Z, m.Row1.Z, m.Row2.Z },
        };
        double[,] v =
        {
            { 1, 0, 0 },
            { 0, 1, 0 },
            { 0, 0, 1 },
        };
        for (int sweep = 0; sweep < SweepLimit && (a[0, 1] != 0 || a[0, 2] != 0 || a[1, 2] != 0); sweep++)
        {
            Annihilate(a, v, 0, 1);
            Annihilate(a, v, 0, 2);
            Annihilate(a, v, 1, 2);
        }
        return Sorted(a, v);
    }

    private static void Annihilate(double[,] a, double[,] v, int p, int q)
    {
        double off = a[p, q];
        // Below half a unit in the last place of both diagonal entries the off-diagonal entry changes nothing.
        if (Math.Abs(off) < 1e-17 * Math.Min(Math.Abs(a[p, p]), Math.Abs(a[q, q])) || off == 0)
        {
            a[p, q] = a[q, p] = 0;
            return;
        }
        double theta = 0.5 * (a[q, q] - a[p, p]) / off;
        double t = Math.CopySign(1, theta) / (Math.Abs(theta) + double.Hypot(theta, 1));
        double c = 1 / Math.Sqrt(1 + t * t);
        double s = t * c;
        a[p, p] -= t * off;
        a[q, q] += t * off;
        a[p, q] = a[q, p] = 0;
        int r = 3 - p - q;
        (double rp, double rq) = (a[r, p], a[r, q]);
        a[r, p] = a[p, r] = c * rp - s * rq;
        a[r, q] = a[q, r] = s * rp + c * rq;
        for (int i = 0; i < 3; i++)
        {
            (double ip, double iq) = (v[i, p], v[i, q]);
            v[i, p] = c * ip - s * iq;
            v[i, q] = s * ip + c * iq;
        }
    }

    private static PrincipalAxes Sorted(double[,] a, double[,] v)
    {
        int[] order = [0, 1, 2];
        Array.Sort(order, (i, j) => a[i, i] != a[j, j] ? a[i, i].CompareTo(a[j, j]) : i.CompareTo(j));
        Vec3 first = Facing(Column(v, order[0]));
        Vec3 second = Facing(Column(v, order[1]));
        Mat3 principalFromBody = new(first, second, Vec3.Cross(first, second));
        return new(
            new(a[order[0], order[0]], a[order[1], order[1]], a[order[2], order[2]]),
            principalFromBody.Transposed
        );
    }

    private static Vec3 Column(double[,] v, int k) => new(v[0, k], v[1, k], v[2, k]);

    private static Vec3 Facing(Vec3 axis)
    {
        double largest = Math.Max(Math.Abs(axis.X), Math.Max(Math.Abs(axis.Y), Math.Abs(axis.Z)));
        double leading =
            Math.Abs(axis.X) == largest ? axis.X
            : Math.Abs(axis.Y) == largest ? axis.Y
            : axis.Z;
        return leading < 0 ? -axis : axis;
    }
}
