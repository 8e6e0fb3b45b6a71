using Lightkeel.Numerics.Interpolation;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>
/// Coordinates over all orbits of a round well: s, the greatest distance over the one at which an orbit of that form leaves, and
/// y, the squared ratio of least and greatest distance (0 through the middle, 1 a circle).
/// </summary>
/// <remarks>
/// Averages that are smooth over the motion are smooth in s² and y, at the middle, on circles and through the middle alike. An
/// orbit leaves when its greatest distance meets the edge of the well, or the top of the barrier that its angular momentum
/// lowers: there the outward force of its turn takes over. Immutable.
/// </remarks>
internal sealed class OrbitPlane
{
    private const double Step = 1e-5;
    private readonly PlanarWell _well;

    public OrbitPlane(PlanarWell well) => _well = well;

    /// <summary>Squared greatest distance at which orbits of a form leave, m².</summary>
    /// <param name="form">y, above 0 and below 1.</param>
    public double LimitSquare(double form)
    {
        double edge = _well.EdgeMetres * _well.EdgeMetres;
        if (!(Hold(edge, form) < 0))
        {
            return edge;
        }
        // The middle of the well holds orbits of every form.
        double low = 1e-6 * edge;
        return SignChange.Find(u => Hold(u, form), low, Hold(low, form), edge, Hold(edge, form), 1e-13 * edge) ?? edge;
    }

    /// <summary>The point of the plane.</summary>
    /// <param name="share">s, above 0, at most 1.</param>
    /// <param name="form">y, above 0 and below 1.</param>
    public OrbitPoint At(double share, double form)
    {
        double limit = LimitSquare(form);
        double limitSlope = (LimitSquare(form + Step) - LimitSquare(form - Step)) / (2 * Step);
        return Point(share, form, limit, limitSlope);
    }

    /// <summary>The point, for a limit that is known.</summary>
    public OrbitPoint Point(double share, double form, double limit, double limitSlope)
    {
        double outer = share * share * limit;
        double inner = form * outer;
        double u1 = _well.Potential(inner);
        double u2 = _well.Potential(outer);
        double gap = outer - inner;
        double energy = (u2 * outer - u1 * inner) / gap;
        double half = (u2 - u1) * inner * outer / gap;
        // Derivatives of E and of L²/2m by the two turning points.
        double energyByOuter = (u2 + outer * _well.Slope(outer) - energy) / gap;
        double energyByInner = (energy - u1 - inner * _well.Slope(inner)) / gap;
        double halfByOuter = (energyByOuter - _well.Slope(outer)) * outer + energy - u2;
        double halfByInner = energyByInner * outer;
        double outerByShare = 2 * share * limit;
        double outerByForm = share * share * limitSlope;
        double momentum = Math.Sqrt(2 * _well.MassKilograms * half);
        double toMomentum = _well.MassKilograms / momentum;
        return new(
            outer,
            inner,
            energy,
            momentum,
            outerByShare * (energyByOuter + form * energyByInner),
            outerByForm * (energyByOuter + form * energyByInner) + outer * energyByInner,
            toMomentum * outerByShare * (halfByOuter + form * halfByInner),
            toMomentum * (outerByForm * (halfByOuter + form * halfByInner) + outer * halfByInner)
        );
    }

    /// <summary>The plane's coordinates of a state; null where it is not bound.</summary>
    /// <param name="distance">Distance from the middle, m.</param>
    /// <param name="radialSpeed">Speed outward, m/s.</param>
    /// <param name="turnSpeed">Speed across, m/s.</param>
    public (double Share, double Form)? Locate(double distance, double radialSpeed, double turnSpeed)
    {
        double mass = _well.MassKilograms;
        double here = distance * distance;
        double edge = _well.EdgeMetres * _well.EdgeMetres;
        if (here >= edge)
        {
            return null;
        }
        double energy = _well.Potential(here) + 0.5 * mass * (radialSpeed * radialSpeed + turnSpeed * turnSpeed);
        double momentum = mass * distance * turnSpeed;
        if (energy <= 1e-14 * _well.DepthJoules)
        {
            return (0, 0.5);
        }
        double Radial(double u) => (energy - _well.Potential(u)) * u - momentum * momentum / (2 * mass);
        double at = Radial(here);
        if (Math.Abs(at) <= 1e-12 * energy * here)
        {
            at = 0;
        }
        double outer = here;
        double inner = here;
        if (at > 0)
        {
            if (Radial(edge) > 0)
            {
                return null;
            }
            outer = SignChange.Find(u => Radial(u), here, at, edge, Radial(edge), 1e-14 * edge) ?? here;
            inner = momentum == 0 ? 0 : SignChange.Find(u => Radial(u), here, at, 0, Radial(0), 1e-15 * edge) ?? here;
        }
        else if (Math.Abs(Slope(here)) <= 1e-9 * energy)
        {
            // A circle.
        }
        else if (Slope(here) > 0)
        {
            // A turning point where the outward pull wins: the inner one.
            outer = Other(Radial, here, edge);
        }
        else
        {
            inner = Other(Radial, here, 0);
        }
        double form = Math.Clamp(inner / outer, 1e-9, 1 - 1e-6);
        double share = Math.Sqrt(outer / LimitSquare(form));
        return share < 1 ? (share, form) : null;

        double Slope(double u) => energy - _well.Potential(u) - u * _well.Slope(u);
    }

    private static double Other(Func<double, double> radial, double here, double far)
    {
        // Just beside the turning point the radial motion is allowed; where it is not, the orbit is a circle.
        double near = here + 1e-7 * (far - here);
        double value = radial(near);
        return value > 0 && radial(far) < 0
                ? SignChange.Find(u => radial(u), near, value, far, radial(far), 1e-15 * Math.Abs(far - here)) ?? here
            : value > 0 ? far
            : here;
    }

    // Above zero while the outer turning point turns back.
    private double Hold(double outer, double form)
    {
        double inner = form * outer;
        double u2 = _well.Potential(outer);
        double energy = (u2 * outer - _well.Potential(inner) * inner) / (outer - inner);
        return u2 + outer * _well.Slope(outer) - energy;
    }
}

/// <summary>A point of the plane of orbits with its derivatives.</summary>
/// <param name="Outer">Squared greatest distance, m².</param>
/// <param name="Inner">Squared least distance, m².</param>
/// <param name="Energy">E, J.</param>
/// <param name="Momentum">L, kg m²/s.</param>
/// <param name="EnergyByShare">∂E/∂s, J.</param>
/// <param name="EnergyByForm">∂E/∂y, J.</param>
/// <param name="MomentumByShare">∂L/∂s, kg m²/s.</param>
/// <param name="MomentumByForm">∂L/∂y, kg m²/s.</param>
internal readonly record struct OrbitPoint(
    double Outer,
    double Inner,
    double Energy,
    double Momentum,
    double EnergyByShare,
    double EnergyByForm,
    double MomentumByShare,
    double MomentumByForm
)
{
    /// <summary>∂(E, L)/∂(s, y).</summary>
    public double Determinant => EnergyByShare * MomentumByForm - EnergyByForm * MomentumByShare;
}
