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
    private const int Intervals = MembraneForces.Intervals;

    /// <summary>Forces from the inner to the outer end; empty for a flat film or a light that is not the same all around.</summary>
    public static IReadOnlyList<ShellStation> Stations(ShellLoads loads)
    {
        ArgumentNullException.ThrowIfNull(loads);
        SurfaceOfRevolution shape = loads.Lighting.Surface.Shape;
        if (shape.IsFlat || !loads.Lighting.IsAxisymmetric)
        {
            return [];
        }
        MembraneForces forces = new(loads);
        List<ShellStation> stations = new(Intervals * shape.Pieces.Count);
        double arc = 0;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            double step = (end - start) / Intervals;
            for (int i = 0; i < Intervals; i++)
            {
                ShellStation at = forces.At(p, start + (i + 0.5) * step);
                double length = shape.At(p, start + (i + 0.5) * step).ArcRate * step;
                stations.Add(at with { ArcMetres = arc + 0.5 * length });
                arc += length;
            }
        }
        return stations;
    }

    /// <summary>Axial load of the whole film, N: what it hands over where it is held.</summary>
    public static double HandedOverNewtons(ShellLoads loads) => new MembraneForces(loads).TotalNewtons;
}
