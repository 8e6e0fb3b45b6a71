using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>The round well of a ball in an axisymmetric beam, or why there is none.</summary>
/// <param name="Well">The well; null where there is none.</param>
/// <param name="RimMetres">Distance where the light begins to push away, m; null where there is no well.</param>
/// <param name="Reason">Why there is none, one sentence; null where there is one.</param>
public sealed record BeamWell(PlanarWell? Well, double? RimMetres, string? Reason)
{
    // Of the width: small against what bends the profile, large against the error of the forces.
    private const double WidthStep = 5e-3;

    // So far beyond the rim nothing fetches a craft back.
    private const double Beyond = 1.3;

    /// <summary>Measures the well.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="engine">Light pressure of that craft in that beam.</param>
    /// <param name="lostAtMetres">Offset that counts as off the beam, m; null when none does before the rim.</param>
    /// <param name="speedMetresPerSecond">Axial speed, m/s.</param>
    /// <param name="beamScale">Size of the beam over its designed size.</param>
    /// <exception cref="PressureUnavailableException">The force cannot be computed somewhere.</exception>
    public static BeamWell Measure(
        SailCraft craft,
        Beam beam,
        IPressureEngine engine,
        double? lostAtMetres = null,
        double speedMetresPerSecond = 0,
        double beamScale = 1
    )
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        CentralLight light = CentralLight.Of(craft);
        if (!light.HasPotential)
        {
            return new(null, null, light.Reason);
        }
        if (!beam.Profile.IsAxisymmetric)
        {
            return new(
                null,
                null,
                "The beam is not axisymmetric, so the well is not round: angular momentum is not kept, and an orbit need not visit all places of its energy, so that averaging over orbits does not hold."
            );
        }
        double radius = craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double reach = beam.Profile.ExtentMetres * beamScale + radius;
        WellRay Follow(double scale) =>
            WellRay.Follow(
                engine,
                CraftPose.OnAxis with
                {
                    VelocityMetresPerSecond = new(0, 0, speedMetresPerSecond),
                    BeamScale = scale,
                },
                0,
                reach
            );
        WellRay ray = Follow(beamScale);
        if (ray.RimMetres is not { } rim)
        {
            return new(null, null, "The light pushes the craft off the axis: there is no well.");
        }
        WellRay wide = Follow(beamScale * (1 + WidthStep));
        WellRay narrow = Follow(beamScale * (1 - WidthStep));
        double edge = Math.Min(rim, lostAtMetres ?? rim);
        return new(
            PlanarWell.Of(
                craft.Mass.MassKilograms,
                edge,
                r => -ray.Force(r),
                r => (narrow.Force(r) - wide.Force(r)) / (2 * WidthStep),
                outerMetres: Math.Min(Math.Min(Beyond * rim, reach), Math.Max(edge, lostAtMetres ?? Beyond * rim))
            ),
            rim,
            null
        );
    }
}
