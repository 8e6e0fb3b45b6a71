using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>Membrane forces at one station of a shell of revolution.</summary>
/// <param name="ArcMetres">Length of meridian from the inner end, m.</param>
/// <param name="RadiusMetres">Distance from the axis, m.</param>
/// <param name="HeightMetres">Station along the axis, m.</param>
/// <param name="MeridionalNewtonsPerMetre">Force per length along the meridian; positive is tension.</param>
/// <param name="HoopNewtonsPerMetre">Force per length around; positive is tension.</param>
/// <param name="CurvatureRadiusMetres">The second radius of curvature, distance along the normal to the axis, m.</param>
public readonly record struct ShellStation(
    double ArcMetres,
    double RadiusMetres,
    double HeightMetres,
    double MeridionalNewtonsPerMetre,
    double HoopNewtonsPerMetre,
    double CurvatureRadiusMetres
)
{
    /// <summary>Larger of the two forces, N/m.</summary>
    public double Greatest => Math.Max(MeridionalNewtonsPerMetre, HoopNewtonsPerMetre);

    /// <summary>Smaller of the two forces, N/m: negative in compression.</summary>
    public double Least => Math.Min(MeridionalNewtonsPerMetre, HoopNewtonsPerMetre);
}

/// <summary>Membrane forces of a thin film of revolution by equilibrium alone (statically determinate).</summary>
/// <remarks>
/// With meridian tangent t, front normal n and load f per area: axial balance of the part that hangs beyond a station gives
/// N_s = Z/(2π r t_z), and balance along the normal N_θ = r (f_n + N_s dt/ds·n)/n_r. Exact for thin shells without bending
/// stiffness as long as the shape does not change; the load of the payload enters where the film is held. Source: Theory of Plates and
/// Shells, 2nd ed. (1959), chapter 14. A flat film carries no load across itself this way and has no solution here.
/// </remarks>
public static class MembraneShell
{
    private const int Intervals = 96;
    private const int Order = 4;

    /// <summary>Forces from the inner to the outer end; empty for a flat film or a light that is not the same all around.</summary>
    public static IReadOnlyList<ShellStation> Stations(ShellLoads loads)
    {
        ArgumentNullException.ThrowIfNull(loads);
        SurfaceOfRevolution shape = loads.Lighting.Surface.Shape;
        if (shape.IsFlat || !loads.Lighting.IsAxisymmetric)
        {
            return [];
        }
        List<(int Piece, double From, double To)> intervals = [];
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            for (int i = 0; i < Intervals; i++)
            {
                intervals.Add((p, start + (end - start) * i / Intervals, start + (end - start) * (i + 1) / Intervals));
            }
        }
        // Axial load of the halves of each interval, so that a station stands in its middle.
        double[] first = [.. intervals.Select(i => Axial(loads, i.Piece, i.From, 0.5 * (i.From + i.To)))];
        double[] second = [.. intervals.Select(i => Axial(loads, i.Piece, 0.5 * (i.From + i.To), i.To))];
        double total = first.Sum() + second.Sum();
        List<ShellStation> stations = new(intervals.Count);
        double before = 0;
        double arc = 0;
        for (int i = 0; i < intervals.Count; i++)
        {
            (int piece, double from, double to) = intervals[i];
            MeridianPoint m = shape.At(piece, 0.5 * (from + to));
            double length = m.ArcRate * (to - from);
            double inner = before + first[i];
            double carried = loads.Hold == ShellHold.Inner ? total - inner : -inner;
            stations.Add(At(loads, piece, 0.5 * (from + to), m, carried, arc + 0.5 * length));
            before = inner + second[i];
            arc += length;
        }
        return stations;
    }

    /// <summary>Axial load of the whole film, N: what it hands over where it is held.</summary>
    public static double HandedOverNewtons(ShellLoads loads)
    {
        ArgumentNullException.ThrowIfNull(loads);
        SurfaceOfRevolution shape = loads.Lighting.Surface.Shape;
        double sum = 0;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            for (int i = 0; i < Intervals; i++)
            {
                double from = start + (end - start) * i / Intervals;
                sum += Axial(loads, p, from, from + (end - start) / Intervals);
            }
        }
        return sum;
    }

    private static ShellStation At(
        ShellLoads loads,
        int piece,
        double parameter,
        in MeridianPoint m,
        double carried,
        double arc
    )
    {
        // n = (z', -r') per arc length, so the tangent is (-n_z, n_r).
        double meridional = carried / (2 * Math.PI * m.RadiusMetres * m.NormalRadial);
        (double radial, double axial) = loads.At(m);
        double normal = radial * m.NormalRadial + axial * m.NormalAxial;
        double second = m.RadiusMetres / m.NormalRadial;
        double hoop = second * (normal + meridional * Curvature(loads.Lighting.Surface.Shape, piece, parameter, m));
        return new(arc, m.RadiusMetres, m.HeightMetres, meridional, hoop, Math.Abs(second));
    }

    // dt/ds·n = −t·dn/ds, by a central difference of the normal.
    private static double Curvature(SurfaceOfRevolution shape, int piece, double parameter, in MeridianPoint m)
    {
        (double start, double end) = shape.Pieces[piece];
        double h = 1e-5 * (end - start);
        MeridianPoint a = shape.At(piece, parameter - h);
        MeridianPoint b = shape.At(piece, parameter + h);
        double change =
            -m.NormalAxial * (b.NormalRadial - a.NormalRadial) + m.NormalRadial * (b.NormalAxial - a.NormalAxial);
        return -change / (2 * h * m.ArcRate);
    }

    private static double Axial(ShellLoads loads, int piece, double from, double to) =>
        GaussLegendre
            .Order(Order)
            .Integrate(
                u =>
                {
                    MeridianPoint m = loads.Lighting.Surface.Shape.At(piece, u);
                    return 2 * Math.PI * m.RadiusMetres * m.ArcRate * loads.At(m).Axial;
                },
                from,
                to
            );
}
