using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Strength;

/// <summary>Membrane forces of one film at any place of its meridian; the sums of its load are kept.</summary>
/// <remarks>The equilibrium of <see cref="MembraneShell"/>. Immutable; safe to share between threads.</remarks>
public sealed class MembraneForces
{
    internal const int Intervals = 96;
    private const int Order = 4;
    private readonly ShellLoads _loads;
    private readonly double[][] _before;

    /// <summary>Sums the load along the meridian.</summary>
    /// <param name="loads">Light, inertia, spin, pressure, and where the film is held.</param>
    public MembraneForces(ShellLoads loads)
    {
        ArgumentNullException.ThrowIfNull(loads);
        _loads = loads;
        SurfaceOfRevolution shape = loads.Lighting.Surface.Shape;
        _before = new double[shape.Pieces.Count][];
        for (int p = 0; p < _before.Length; p++)
        {
            (double start, double end) = shape.Pieces[p];
            double step = (end - start) / Intervals;
            _before[p] = new double[Intervals];
            for (int i = 0; i < Intervals; i++)
            {
                _before[p][i] = TotalNewtons;
                TotalNewtons += Axial(p, start + i * step, start + (i + 1) * step);
            }
        }
    }

    /// <summary>Axial load of the whole film, N.</summary>
    public double TotalNewtons { get; }

    /// <summary>Forces at a place of a curved film under even light, not on its axis; the arc is left at zero.</summary>
    /// <param name="piece">Piece of the meridian.</param>
    /// <param name="parameter">Parameter within it.</param>
    public ShellStation At(int piece, double parameter)
    {
        SurfaceOfRevolution shape = _loads.Lighting.Surface.Shape;
        (double start, double end) = shape.Pieces[piece];
        double step = (end - start) / Intervals;
        int interval = Math.Clamp((int)((parameter - start) / step), 0, Intervals - 1);
        double inner = _before[piece][interval] + Axial(piece, start + interval * step, parameter);
        double carried = _loads.Hold == ShellHold.Inner ? TotalNewtons - inner : -inner;
        MeridianPoint m = shape.At(piece, parameter);
        // n = (z', -r') per arc length, so the tangent is (-n_z, n_r).
        double meridional = carried / (2 * Math.PI * m.RadiusMetres * m.NormalRadial);
        (double radial, double axial) = _loads.At(m);
        double normal = radial * m.NormalRadial + axial * m.NormalAxial;
        double second = m.RadiusMetres / m.NormalRadial;
        double hoop = second * (normal + meridional * Curvature(shape, piece, parameter, m));
        return new(0, m.RadiusMetres, m.HeightMetres, meridional, hoop, Math.Abs(second));
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

    private double Axial(int piece, double from, double to) =>
        GaussLegendre
            .Order(Order)
            .Integrate(
                u =>
                {
                    MeridianPoint m = _loads.Lighting.Surface.Shape.At(piece, u);
                    return 2 * Math.PI * m.RadiusMetres * m.ArcRate * _loads.At(m).Axial;
                },
                from,
                to
            );
}
