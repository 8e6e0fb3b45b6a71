using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>All steady circular motions of a spinning craft that begin at the axis.</summary>
public static class CircularFamilies
{
    // A root this close to the real line, over the largest, is taken as real.
    private const double RealEnough = 1e-7;

    /// <summary>Finds them and follows each.</summary>
    /// <param name="light">The light of an axisymmetric craft in an axisymmetric beam.</param>
    /// <param name="top">The craft as a top with the same inertia all round.</param>
    /// <param name="search">How far to follow.</param>
    /// <returns>One family per real whirl of the linear picture, slowest first: the slowest one is the precession, whose offsets are the displaced trim.</returns>
    /// <exception cref="PressureUnavailableException">The light pressure cannot be computed on the axis.</exception>
    public static IReadOnlyList<CircularFamily> Find(AveragedLight light, SpinningTop top, CircularSearch search)
    {
        ArgumentNullException.ThrowIfNull(light);
        ArgumentNullException.ThrowIfNull(top);
        ArgumentNullException.ThrowIfNull(search);
        double[][] k = SymmetricStiffness.Nearest(light.Engine.Differentiate(light.Pose(0, 0, 0, 0)).LateralJacobian());
        (double a, double b, double c, double d) = (k[0][0], k[0][3], k[3][0], k[3][3]);
        (double m, double i1) = (top.MassKilograms, top.TransverseInertia);
        LeanEquation equation = new(a / m, d / i1, top.AngularMomentum / i1, b * c / (m * i1));
        List<LeanRoot> roots = equation.Roots(Spectrum.Rounding, coupled: b != 0 && c != 0);
        double largest = roots.Max(r => r.Omega.Magnitude);
        List<CircularFamily> families = [];
        foreach (
            double whirl in roots
                .Where(r => Math.Abs(r.Omega.Imaginary) <= RealEnough * largest)
                .Select(r => r.Omega.Real)
                .OrderBy(Math.Abs)
        )
        {
            if (Math.Abs(whirl) > 1e-12 * largest && OffsetPerTilt(whirl) is { } ratio)
            {
                families.Add(new CircularContinuation(new(light, top), search, whirl).Follow(ratio));
            }
        }
        return families;

        // From the force where that determines it, else from the torque; a whirl without tilt is no spinning matter.
        double? OffsetPerTilt(double whirl)
        {
            double force = m * whirl * whirl + a;
            double torque = d - top.AngularMomentum * whirl + i1 * whirl * whirl;
            double scaleForce = Math.Max(Math.Abs(a), m * whirl * whirl);
            bool byForce = Math.Abs(force) > 1e-6 * scaleForce;
            double? ratio =
                byForce ? -b / force
                : c != 0 ? -torque / c
                : null;
            // A lateral whirl whose tilt is a thousandth of its offset leaves the beam before it tilts at all.
            return ratio is { } z && Math.Abs(z) * 1e-3 < search.LargestOffsetMetres ? z : null;
        }
    }
}
