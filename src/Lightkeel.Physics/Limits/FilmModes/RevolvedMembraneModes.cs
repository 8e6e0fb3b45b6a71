using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>Small vibrations of a film of revolution under tension, one Fourier harmonic at a time, by high-order finite elements.</summary>
/// <remarks>
/// <para>
/// Displacement (a cos nθ, b sin nθ, c cos nθ) in cylindrical parts (radial, around, axial), with meridian tangent t and length s:
/// strains ε_s = t_r a′ + t_z c′, ε_θ = (n b + a)/r, γ = b′ − [t_r (n a + b) + t_z n c]/r;
/// energy ½∫ E h/(1 − ν²) [ε_s² + ε_θ² + 2ν ε_s ε_θ + ½(1 − ν) γ²] + ½∫ N_s |∂U/∂s|² + N_θ |∂U/∂θ|²/r²: the
/// second variation of a membrane under tension, with the whole gradient of the displacement. A spin Ω adds −½σΩ²(a² + b²) and the
/// Coriolis force; the pressure in a closed film stays normal to it and adds −p times the second variation of the volume.
/// </para>
/// <para>
/// With waves cos(nθ − ωt): K q + ω 2Ω C q − ω² M q = 0, solved as [−2ΩC M; M 0] y = ω⁻¹ [K 0; 0 M] y, y = (q, ω q), so that the lowest
/// frequencies are the largest eigenvalues and stay sharp beside the stiff modes of stretching. K must be positive definite: else
/// the film wrinkles or buckles before it swings. Left out: stiffness in bending (E h³/12), the change of the light's load as
/// the film bends, the mass of a gas inside. Source of the energy: Theory of Plates and Shells, 2nd ed. (1959), chapter 14 for the strains; the
/// term of the tension is that of a stretched membrane in space, derived here.
/// </para>
/// </remarks>
public static class RevolvedMembraneModes
{
    private const int Degree = 8;
    private const int MostElements = 9;
    private const int MostSpunElements = 6;

    /// <summary>Largest number of smooth pieces that is taken.</summary>
    public const int MostPieces = 5;

    /// <summary>The lowest frequencies of a harmonic, lowest first; null when the film is not stable under its tension.</summary>
    /// <param name="film">The film.</param>
    /// <param name="waves">Waves around, n ≥ 0.</param>
    /// <param name="count">How many, of each way with spin.</param>
    /// <exception cref="ArgumentException">Too many pieces, or numbers out of range.</exception>
    public static IReadOnlyList<FilmFrequency>? Lowest(RevolvedMembrane film, int waves, int count)
    {
        ArgumentNullException.ThrowIfNull(film);
        film.Validate();
        Require.AtLeast(0, waves);
        Require.AtLeast(1, count);
        if (film.Pieces.Count is 0 or > MostPieces)
        {
            throw new ArgumentException($"A film of 1 to {MostPieces} smooth pieces is needed.", nameof(film));
        }
        // Travelling waves double the matrices.
        int most = film.SpinRadiansPerSecond == 0 ? MostElements : MostSpunElements;
        int fine = Math.Max(2, most / film.Pieces.Count);
        int coarse = Math.Max(1, 2 * fine / 3);
        if (Solve(film, waves, coarse, count) is not { } first || Solve(film, waves, fine, count) is not { } second)
        {
            return null;
        }
        return
        [
            .. second.Zip(
                first,
                (b, a) => new FilmFrequency(waves, b, Math.Abs(b - a) / Math.Max(Math.Abs(b), 1e-300))
            ),
        ];
    }

    private static double[]? Solve(RevolvedMembrane film, int waves, int elements, int count)
    {
        FilmMatrices m = FilmMatrices.Of(film, waves, elements, Degree);
        if (!SymmetricPencil.IsPositiveDefinite(m.Stiffness))
        {
            return null;
        }
        if (film.SpinRadiansPerSecond == 0)
        {
            double[] inverse = SymmetricPencil.Values(m.Mass, m.Stiffness);
            return [.. inverse.Reverse().Take(count).Select(v => 1 / Math.Sqrt(v))];
        }
        double[] both = SymmetricPencil.Values(Doubled(m, film.SpinRadiansPerSecond), Diagonal(m));
        IEnumerable<double> with = both.Reverse().Take(count).Where(v => v > 0);
        IEnumerable<double> against = both.Take(count).Where(v => v < 0);
        return [.. with.Concat(against).Select(v => 1 / v).OrderBy(Math.Abs)];
    }

    private static double[,] Doubled(FilmMatrices m, double spin)
    {
        int n = m.Mass.GetLength(0);
        double[,] full = new double[2 * n, 2 * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                full[i, j] = -2 * spin * m.Coriolis[i, j];
                full[i, n + j] = m.Mass[i, j];
                full[n + i, j] = m.Mass[i, j];
            }
        }
        return full;
    }

    private static double[,] Diagonal(FilmMatrices m)
    {
        int n = m.Mass.GetLength(0);
        double[,] full = new double[2 * n, 2 * n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j < n; j++)
            {
                full[i, j] = m.Stiffness[i, j];
                full[n + i, n + j] = m.Mass[i, j];
            }
        }
        return full;
    }
}

/// <summary>Stiffness, mass and Coriolis matrices of a film in one harmonic.</summary>
internal sealed class FilmMatrices
{
    // Parts of the displacement at a node: radial a, around b, axial c.
    private const int Parts = 3;

    private FilmMatrices(double[,] stiffness, double[,] mass, double[,] coriolis) =>
        (Stiffness, Mass, Coriolis) = (stiffness, mass, coriolis);

    public double[,] Stiffness { get; }

    public double[,] Mass { get; }

    /// <summary>Of the form 2ab.</summary>
    public double[,] Coriolis { get; }

    public static FilmMatrices Of(RevolvedMembrane film, int waves, int elements, int degree)
    {
        int nodes = film.Pieces.Count * elements * degree + 1;
        FilmMatrices full = new(Square(nodes * Parts), Square(nodes * Parts), Square(nodes * Parts));
        for (int p = 0; p < film.Pieces.Count; p++)
        {
            (double start, double end) = film.Pieces[p];
            for (int e = 0; e < elements; e++)
            {
                // Narrower towards the ends, where held edges and the axis bend the film within a short way.
                double from = start + (end - start) * Graded(e, elements);
                double to = start + (end - start) * Graded(e + 1, elements);
                full.Add(film, waves, p, LagrangeElement.Nodes(from, to, 1, degree), (p * elements + e) * degree);
            }
        }
        double[][] kept = Kept(film, waves, nodes);
        return new(Onto(full.Stiffness, kept), Onto(full.Mass, kept), Onto(full.Coriolis, kept));
    }

    private static double Graded(int edge, int elements) => 0.5 * (1 - Math.Cos(Math.PI * edge / elements));

    private static double[,] Square(int count) => new double[count, count];

    private void Add(RevolvedMembrane film, int waves, int piece, ReadOnlySpan<double> nodes, int offset)
    {
        int count = nodes.Length;
        GaussLegendre rule = GaussLegendre.Order(count + 4);
        double half = 0.5 * (nodes[^1] - nodes[0]);
        double[] value = new double[count];
        double[] slope = new double[count];
        for (int k = 0; k < rule.Count; k++)
        {
            double u = nodes[0] + half * (1 + rule.Nodes[k]);
            LagrangeElement.At(nodes, u, value, slope);
            FilmPoint m = film.At(piece, u);
            for (int i = 0; i < count; i++)
            {
                slope[i] /= m.ArcRate;
            }
            AddPoint(film, waves, m, rule.Weights[k] * half * m.ArcRate, value, slope, offset);
        }
    }

    private void AddPoint(
        RevolvedMembrane film,
        int n,
        in FilmPoint m,
        double length,
        double[] value,
        double[] slope,
        int offset
    )
    {
        int size = Parts * value.Length;
        double[] Row(Func<double, double, (double A, double B, double C)> part)
        {
            double[] row = new double[size];
            for (int i = 0; i < value.Length; i++)
            {
                (row[Parts * i], row[Parts * i + 1], row[Parts * i + 2]) = part(value[i], slope[i]);
            }
            return row;
        }
        (double r, double tr, double tz) = (m.RadiusMetres, m.TangentRadial, m.TangentAxial);
        double area = length * r;
        double nu = film.PoissonRatio;
        double stretch = area * film.StretchingNewtonsPerMetre / (1 - nu * nu);
        double[] along = Row((_, s) => (tr * s, 0, tz * s));
        double[] around = Row((v, _) => (v / r, n * v / r, 0));
        double[] shear = Row((v, s) => (-tr * n * v / r, s - tr * v / r, -tz * n * v / r));
        double[][] parts = [Row((v, _) => (v, 0, 0)), Row((v, _) => (0, v, 0)), Row((v, _) => (0, 0, v))];
        Quadratic(Stiffness, offset, stretch, along, along);
        Quadratic(Stiffness, offset, stretch, around, around);
        Quadratic(Stiffness, offset, 2 * stretch * nu, along, around);
        Quadratic(Stiffness, offset, 0.5 * (1 - nu) * stretch, shear, shear);
        double[] da = Row((_, s) => (s, 0, 0));
        double[] db = Row((_, s) => (0, s, 0));
        double[] dc = Row((_, s) => (0, 0, s));
        double[] first = Row((v, _) => (n * v / r, v / r, 0));
        double[] third = Row((v, _) => (0, 0, n * v / r));
        foreach (double[] d in (double[][])[da, db, dc])
        {
            Quadratic(Stiffness, offset, area * m.MeridionalNewtonsPerMetre, d, d);
        }
        foreach (double[] d in (double[][])[first, around, third])
        {
            Quadratic(Stiffness, offset, area * m.HoopNewtonsPerMetre, d, d);
        }
        double mass = area * film.ArealDensityKilogramsPerSquareMetre;
        double spin = film.SpinRadiansPerSecond;
        foreach (double[] part in parts)
        {
            Quadratic(Mass, offset, mass, part, part);
        }
        Quadratic(Stiffness, offset, -mass * spin * spin, parts[0], parts[0]);
        Quadratic(Stiffness, offset, -mass * spin * spin, parts[1], parts[1]);
        Quadratic(Coriolis, offset, 2 * mass, parts[0], parts[1]);
        if (film.PressurePascals != 0)
        {
            AddPressure(film.PressurePascals * length, n, m, parts, da, dc, offset);
        }
    }

    // p U·(U_s × x_θ + x_s × U_θ): −p times the second variation of the volume on the side away from the front normal.
    private void AddPressure(double load, int n, in FilmPoint m, double[][] parts, double[] da, double[] dc, int offset)
    {
        (double r, double tr, double tz) = (m.RadiusMetres, m.TangentRadial, m.TangentAxial);
        (double[] a, double[] b, double[] c) = (parts[0], parts[1], parts[2]);
        Quadratic(Stiffness, offset, -load * r, a, dc);
        Quadratic(Stiffness, offset, load * r, c, da);
        Quadratic(Stiffness, offset, -load * tz, a, a);
        Quadratic(Stiffness, offset, -load * tz, b, b);
        Quadratic(Stiffness, offset, -2 * load * tz * n, a, b);
        Quadratic(Stiffness, offset, 2 * load * tr * n, b, c);
        Quadratic(Stiffness, offset, load * tr, c, a);
    }

    // Adds the symmetric matrix of weight (x·q)(y·q).
    private static void Quadratic(double[,] matrix, int offset, double weight, double[] x, double[] y)
    {
        int start = Parts * offset;
        for (int i = 0; i < x.Length; i++)
        {
            if (x[i] == 0 && y[i] == 0)
            {
                continue;
            }
            for (int j = 0; j < x.Length; j++)
            {
                matrix[start + i, start + j] += 0.5 * weight * (x[i] * y[j] + y[i] * x[j]);
            }
        }
    }

    // Free combinations: held ends do not move; on the axis a field must be smooth: a = 0 (n = 0), b = −a and c = 0 (n = 1), else rest.
    private static double[][] Kept(RevolvedMembrane film, int waves, int nodes)
    {
        List<double[]> kept = [];
        void Keep(int node, double a, double b, double c)
        {
            double[] direction = new double[nodes * Parts];
            (direction[Parts * node], direction[Parts * node + 1], direction[Parts * node + 2]) = (a, b, c);
            kept.Add(direction);
        }
        for (int i = 0; i < nodes; i++)
        {
            bool first = i == 0;
            bool last = i == nodes - 1;
            if ((first && film.IsInnerHeld) || (last && film.IsRimHeld))
            {
                continue;
            }
            if (
                (first && IsAxis(film, 0, film.Pieces[0].Start))
                || (last && IsAxis(film, film.Pieces.Count - 1, film.Pieces[^1].End))
            )
            {
                if (waves == 0)
                {
                    Keep(i, 0, 0, 1);
                }
                else if (waves == 1)
                {
                    Keep(i, 1, -1, 0);
                }
                continue;
            }
            Keep(i, 1, 0, 0);
            if (waves > 0)
            {
                Keep(i, 0, 1, 0);
            }
            Keep(i, 0, 0, 1);
        }
        return [.. kept];
    }

    private static bool IsAxis(RevolvedMembrane film, int piece, double at)
    {
        (double start, double end) = film.Pieces[piece];
        double across = film.At(piece, 0.5 * (start + end)).RadiusMetres;
        return Math.Abs(film.At(piece, at).RadiusMetres) < 1e-9 * across;
    }

    private static double[,] Onto(double[,] matrix, double[][] kept)
    {
        // Each direction has one entry, or two on the axis.
        (int, double)[][] sparse =
        [
            .. kept.Select(d =>
                ((int, double)[])[.. d.Select((v, i) => (Index: i, Value: v)).Where(e => e.Value != 0)]
            ),
        ];
        double[,] part = Square(kept.Length);
        for (int i = 0; i < kept.Length; i++)
        {
            for (int j = 0; j < kept.Length; j++)
            {
                foreach ((int k, double x) in sparse[i])
                {
                    foreach ((int l, double y) in sparse[j])
                    {
                        part[i, j] += x * y * matrix[k, l];
                    }
                }
            }
        }
        return part;
    }
}
