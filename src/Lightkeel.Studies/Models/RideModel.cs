using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models;

/// <summary>The ride of a design as physics: what rides on what, from where, and until when.</summary>
/// <param name="Setup">What rides on what, without disturbances.</param>
/// <param name="Start">State when the first light meets the craft.</param>
/// <param name="Limits">When the ride ends.</param>
public sealed record RideModel(RideSetup Setup, RideStart Start, RideLimits Limits)
{
    /// <summary>The design with its models.</summary>
    public required DesignModel Design { get; init; }

    /// <summary>Builds the ride.</summary>
    /// <param name="model">The design with its models.</param>
    /// <param name="engine">Light pressure of that craft in that beam.</param>
    /// <exception cref="InputRefusedException">The sections do not make a ride; the message says where.</exception>
    /// <exception cref="PressureUnavailableException">The straight pose cannot be computed.</exception>
    public static RideModel Of(DesignModel model, IPressureEngine engine)
    {
        ArgumentNullException.ThrowIfNull(model);
        Design design = model.Design;
        RideSetup setup = RideSetup.For(model.Craft, model.Beam, engine) with
        {
            Schedule = DesignModel.Guarded("ride", () => ScheduleOf(design.Ride)),
            Director = design.Beam.Director is { } d
                ? DesignModel.Guarded(
                    "beam.director",
                    () => new BeamDirector(d.ApertureMetres, d.StandoffMetres, model.Beam)
                )
                : null,
            GravityMetresPerSecondSquared = design.Surroundings.GravityMetresPerSecondSquared,
        };
        return new(setup, StartOf(design.Start), LimitsOf(model)) { Design = model };
    }

    /// <summary>The start of a design.</summary>
    public static RideStart StartOf(StartDesign start)
    {
        ArgumentNullException.ThrowIfNull(start);
        return new()
        {
            OffsetXMetres = start.OffsetXMetres,
            OffsetYMetres = start.OffsetYMetres,
            TiltXRadians = start.TiltXRadians,
            TiltYRadians = start.TiltYRadians,
            RollRadians = start.RollRadians,
            VelocityXMetresPerSecond = start.VelocityXMetresPerSecond,
            VelocityYMetresPerSecond = start.VelocityYMetresPerSecond,
            SpeedMetresPerSecond = start.SpeedMetresPerSecond,
            SpinRadiansPerSecond = start.SpinRadiansPerSecond,
            TiltRateXRadiansPerSecond = start.TiltRateXRadiansPerSecond,
            TiltRateYRadiansPerSecond = start.TiltRateYRadiansPerSecond,
        };
    }

    private static RideLimits LimitsOf(DesignModel model)
    {
        RideDesign ride = model.Design.Ride;
        return new()
        {
            DurationSeconds = ride.DurationSeconds,
            LostAtMetres = ride.LostAtMetres ?? model.Beam.Profile.ExtentMetres,
            TiltLimitRadians = ride.TiltLimitRadians,
            GroundMetres = -ride.HeightAboveGroundMetres,
            TargetBeta = ride.TargetBeta,
        };
    }

    /// <summary>The power schedule of a design.</summary>
    /// <param name="ride">Its ride.</param>
    public static PowerSchedule ScheduleOf(RideDesign ride)
    {
        ArgumentNullException.ThrowIfNull(ride);
        if (ride.PowerTable is { } table)
        {
            return PowerSchedule.FromTable([.. table.TimesSeconds], [.. table.Factors]);
        }
        if (ride.EmissionSeconds is { } end)
        {
            return PowerSchedule.Ramped(ride.RiseSeconds, end - ride.RiseSeconds - ride.FallSeconds, ride.FallSeconds);
        }
        return ride.RiseSeconds > 0 ? PowerSchedule.FromTable([0, ride.RiseSeconds], [0, 1]) : PowerSchedule.Constant;
    }
}
