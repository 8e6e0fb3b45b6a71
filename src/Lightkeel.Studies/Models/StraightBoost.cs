using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models;

/// <summary>The boost of a design along the axis, to the end that its mission or its ride names.</summary>
/// <param name="Boost">The equations.</param>
/// <param name="Instants">The instants, the start first.</param>
/// <param name="End">What ended it.</param>
public sealed record StraightBoost(AxialBoost Boost, IReadOnlyList<BoostInstant> Instants, BoostEnd End)
{
    /// <summary>Flies it.</summary>
    /// <param name="ride">The ride of the design.</param>
    /// <param name="trim">The trim that the craft keeps.</param>
    /// <param name="accuracy">Relative accuracy of the thrust.</param>
    /// <exception cref="PressureUnavailableException">The thrust cannot be computed for some size of the beam.</exception>
    public static StraightBoost Fly(RideModel ride, in CraftPose trim, double accuracy)
    {
        ArgumentNullException.ThrowIfNull(ride);
        DesignModel model = ride.Design;
        RideDesign design = model.Design.Ride;
        MissionDesign mission = model.Design.Mission;
        double mass = model.Craft.Mass.MassKilograms;
        double power = model.Beam.PowerWatts;
        double? beta = mission.TargetSpeedMetresPerSecond / Illumination.LightSpeed ?? design.TargetBeta;
        // A mission that names its end is not cut by the duration of the ride: a hundred times it is far enough.
        bool named = mission.TargetDistanceMetres is not null || beta is not null;
        BoostTarget target = new(design.DurationSeconds * (named ? 100 : 1), beta, mission.TargetDistanceMetres);
        double speed = model.Design.Start.SpeedMetresPerSecond;
        double fastest = 2 * power / (mass * Illumination.LightSpeed);
        double time = target.LightTimeSeconds;
        double reach = Math.Min(Illumination.LightSpeed * time, Math.Abs(speed) * time + 0.5 * fastest * time * time);
        reach = Math.Min(reach, mission.TargetDistanceMetres ?? reach);
        BeamDirector? director = ride.Setup.Director;
        double largest = director?.ScaleAt(reach) ?? 1;
        CraftPose rest = trim with { VelocityMetresPerSecond = Vec3.Zero };
        AxialBoost boost;
        if (model.Craft.Surfaces.All(s => s.Optics.IsConstant))
        {
            ScaledThrust thrust = ScaledThrust.Of(ride.Setup.Engine, rest, largest, Math.Max(accuracy, 1e-8));
            boost = new(mass, power, thrust.Force, s => thrust.Met(s) / power, ride.Setup.Schedule, director);
        }
        else
        {
            // The shares of a film follow the Doppler shift: each force is computed at its speed.
            PressureReading At(double scale, double rapidity) =>
                ride.Setup.Engine.Evaluate(
                    rest with
                    {
                        BeamScale = scale,
                        VelocityMetresPerSecond = new(0, 0, Math.Tanh(rapidity) * Illumination.LightSpeed),
                    }
                );
            boost = new(
                mass,
                power,
                (scale, rapidity) => Math.Exp(2 * rapidity) * At(scale, rapidity).ForceNewtons.Z,
                (scale, rapidity) => Math.Exp(2 * rapidity) * At(scale, rapidity).InterceptedWatts / power,
                ride.Setup.Schedule,
                director
            );
        }
        (IReadOnlyList<BoostInstant> instants, BoostEnd end) = boost.Fly(speed, target);
        return new(boost, instants, end);
    }
}
