using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>Light that a sail reflects across its own axis, where booms and payloads tend to be.</summary>
/// <remarks>
/// For an axisymmetric surface under light along its axis every mirror ray stays in its meridian plane and crosses the
/// axis: at z_c = z − r d_z/d_r with d = b + 2 μ n. Whatever body stands around the axis there takes all of it: the light
/// of a ring of the sail is thrown onto a point of the axis, and no small radius of the body makes it less. Only the
/// specular share is followed, and only its first meeting with the axis; a craft off the axis or tilted smears the crossing over a
/// caustic of about the size of the tilt times the distance.
/// </remarks>
public static class ReflectedLight
{
    private const int Panels = 64;
    private const int Order = 8;

    /// <summary>Reflected power that crosses the axis of a surface between two stations, W.</summary>
    /// <param name="lighting">The light on the surface; the same all around its axis.</param>
    /// <param name="lowestMetres">Lower station along the surface's own axis, m.</param>
    /// <param name="highestMetres">Upper station, m.</param>
    public static double WattsOntoAxis(SurfaceLighting lighting, double lowestMetres, double highestMetres)
    {
        ArgumentNullException.ThrowIfNull(lighting);
        SurfaceOfRevolution shape = lighting.Surface.Shape;
        if (!lighting.IsAxisymmetric || shape.IsFlat)
        {
            return 0;
        }
        double sum = 0;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            for (int i = 0; i < Panels; i++)
            {
                double from = start + (end - start) * i / Panels;
                sum += Panel(lighting, p, from, from + (end - start) / Panels, lowestMetres, highestMetres);
            }
        }
        return lighting.Surface.Optics.Specular * sum;
    }

    // A panel whose crossings straddle an end of the body is cut there.
    private static double Panel(SurfaceLighting lighting, int piece, double from, double to, double low, double high)
    {
        List<double> cuts = [from];
        foreach (double end in (double[])[low, high])
        {
            double? before = Crossing(lighting, piece, from);
            double? after = Crossing(lighting, piece, to);
            if (before is { } a && after is { } b && a > end != b > end)
            {
                cuts.Add(Cut(lighting, piece, from, to, end));
            }
        }
        cuts.Add(to);
        cuts.Sort();
        double sum = 0;
        for (int i = 0; i + 1 < cuts.Count; i++)
        {
            double middle = 0.5 * (cuts[i] + cuts[i + 1]);
            if (cuts[i + 1] > cuts[i] && Crossing(lighting, piece, middle) is { } at && at >= low && at <= high)
            {
                sum += GaussLegendre
                    .Order(Order)
                    .Integrate(
                        u =>
                        {
                            MeridianPoint m = lighting.Surface.Shape.At(piece, u);
                            return 2 * Math.PI * m.RadiusMetres * m.ArcRate * lighting.LightAt(m, 0);
                        },
                        cuts[i],
                        cuts[i + 1]
                    );
            }
        }
        return sum;
    }

    private static double Cut(SurfaceLighting lighting, int piece, double from, double to, double station)
    {
        bool above = Crossing(lighting, piece, from) > station;
        (double low, double high) = (from, to);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Crossing(lighting, piece, middle) > station == above ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }

    /// <summary>Station at which the mirror ray of a meridian point crosses the axis, m; null when it does not.</summary>
    public static double? Crossing(SurfaceLighting lighting, int piece, double parameter)
    {
        ArgumentNullException.ThrowIfNull(lighting);
        MeridianPoint m = lighting.Surface.Shape.At(piece, parameter);
        double side = lighting.IsFrontLit ? 1 : -1;
        // Light runs along the surface's own +z or, on a surface turned over, along -z; μ is the same for both.
        double mu = -m.NormalAxial;
        double radial = 2 * mu * side * m.NormalRadial;
        double axial = side * (1 - 2 * mu * mu);
        return mu <= 0 || radial >= 0 ? null : m.HeightMetres - m.RadiusMetres * axial / radial;
    }
}
