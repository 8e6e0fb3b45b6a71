using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>A flat round film under a tension that may differ along and around, as finite elements see it.</summary>
public sealed record FlatMembrane
{
    /// <summary>Inner radius, m; zero for a full disc.</summary>
    public double InnerRadiusMetres { get; init; }

    /// <summary>Outer radius, m.</summary>
    public required double RadiusMetres { get; init; }

    /// <summary>Mass per area against radius, kg/m².</summary>
    public required Func<double, double> ArealDensity { get; init; }

    /// <summary>Radial and hoop tension against radius, N/m, not negative.</summary>
    public required Func<double, (double Radial, double Hoop)> Tension { get; init; }

    /// <summary>True when the outer rim is held.</summary>
    public bool IsRimHeld { get; init; }

    /// <summary>True when the inner rim is held.</summary>
    public bool IsInnerHeld { get; init; }

    /// <summary>A free disc stretched by its own spin.</summary>
    public static FlatMembrane Spinning(
        double radiusMetres,
        double arealDensity,
        double poissonRatio,
        double spinRadiansPerSecond
    )
    {
        double load = Require.Positive(arealDensity) * spinRadiansPerSecond * spinRadiansPerSecond / 8;
        double nu = Require.Between(poissonRatio, 0, 0.5);
        double a = Require.Positive(radiusMetres);
        return new()
        {
            RadiusMetres = a,
            ArealDensity = _ => arealDensity,
            Tension = r => (load * (3 + nu) * (a * a - r * r), load * ((3 + nu) * a * a - (1 + 3 * nu) * r * r)),
        };
    }

    /// <summary>A disc with a hole, both rims free, stretched by its own spin (<see cref="SpunFilm.Disc"/>).</summary>
    public static FlatMembrane SpinningRing(
        double innerMetres,
        double radiusMetres,
        double arealDensity,
        double poissonRatio,
        double spinRadiansPerSecond
    ) =>
        new()
        {
            InnerRadiusMetres = Require.Positive(innerMetres),
            RadiusMetres = radiusMetres,
            ArealDensity = _ => arealDensity,
            Tension = r =>
            {
                FilmTension t = SpunFilm.Disc(
                    arealDensity,
                    spinRadiansPerSecond,
                    radiusMetres,
                    innerMetres,
                    r,
                    poissonRatio
                );
                return (t.MeridionalNewtonsPerMetre, t.HoopNewtonsPerMetre);
            },
        };

    /// <summary>A drum: even tension, its rim held.</summary>
    public static FlatMembrane Drum(double radiusMetres, double arealDensity, double tensionNewtonsPerMetre) =>
        new()
        {
            RadiusMetres = Require.Positive(radiusMetres),
            ArealDensity = _ => arealDensity,
            Tension = _ => (tensionNewtonsPerMetre, tensionNewtonsPerMetre),
            IsRimHeld = true,
        };
}

/// <summary>Out-of-plane modes of a flat film, one Fourier harmonic at a time, by high-order finite elements.</summary>
/// <remarks>
/// For w = W(r) cos(nθ): ω² ∫ σ W² r dr = ∫ (N_r W'² + N_θ n² W²/r²) r dr. Elements with Lagrange polynomials on Gauss-Lobatto-like
/// (Chebyshev) points, stiffness and mass by Gauss rules, so that frequencies converge exponentially for smooth tension.
/// Out-of-plane motion of a flat film does not feel the Coriolis force; frequencies are in the frame that turns with it.
/// </remarks>
public static class MembraneModes
{
    /// <summary>Squares of the angular frequencies, rising, (rad/s)².</summary>
    /// <param name="film">The film.</param>
    /// <param name="harmonic">Nodal diameters n ≥ 0.</param>
    /// <param name="elements">Elements along the radius.</param>
    /// <param name="degree">Degree of the polynomials in each.</param>
    public static double[] AngularSquares(FlatMembrane film, int harmonic, int elements = 4, int degree = 8)
    {
        ArgumentNullException.ThrowIfNull(film);
        Require.AtLeast(0, harmonic);
        double[] nodes = LagrangeElement.Nodes(
            film.InnerRadiusMetres,
            film.RadiusMetres,
            Require.AtLeast(1, elements),
            Require.AtLeast(1, degree)
        );
        int count = nodes.Length;
        double[,] stiffness = new double[count, count];
        double[,] mass = new double[count, count];
        for (int e = 0; e < elements; e++)
        {
            Add(film, harmonic, nodes.AsSpan(e * degree, degree + 1), e * degree, stiffness, mass);
        }
        bool centerHeld = film.IsInnerHeld || (film.InnerRadiusMetres == 0 && harmonic > 0);
        int first = centerHeld ? 1 : 0;
        int last = film.IsRimHeld ? count - 1 : count;
        return SymmetricPencil.Values(Part(stiffness, first, last), Part(mass, first, last));
    }

    private static void Add(
        FlatMembrane film,
        int harmonic,
        ReadOnlySpan<double> nodes,
        int offset,
        double[,] stiffness,
        double[,] mass
    )
    {
        int count = nodes.Length;
        GaussLegendre rule = GaussLegendre.Order(count + 4);
        double half = 0.5 * (nodes[^1] - nodes[0]);
        double[] value = new double[count];
        double[] slope = new double[count];
        for (int k = 0; k < rule.Count; k++)
        {
            double r = nodes[0] + half * (1 + rule.Nodes[k]);
            LagrangeElement.At(nodes, r, value, slope);
            (double radial, double hoop) = film.Tension(r);
            double weight = rule.Weights[k] * half * r;
            double around = hoop * harmonic * harmonic / (r * r);
            double density = film.ArealDensity(r);
            for (int i = 0; i < count; i++)
            {
                for (int j = 0; j < count; j++)
                {
                    stiffness[offset + i, offset + j] +=
                        weight * (radial * slope[i] * slope[j] + around * value[i] * value[j]);
                    mass[offset + i, offset + j] += weight * density * value[i] * value[j];
                }
            }
        }
    }

    private static double[,] Part(double[,] matrix, int first, int last)
    {
        double[,] part = new double[last - first, last - first];
        for (int i = first; i < last; i++)
        {
            for (int j = first; j < last; j++)
            {
                part[i - first, j - first] = matrix[i, j];
            }
        }
        return part;
    }
}
