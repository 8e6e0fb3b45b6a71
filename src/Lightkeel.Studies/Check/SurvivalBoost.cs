using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>The straight boost of a design, and the heat along it.</summary>
internal sealed class SurvivalBoost
{
    private const int Stations = 25;
    private readonly SurvivalScene _scene;
    private readonly PowerSchedule _schedule = PowerSchedule.Constant;
    private readonly AxialBoost? _boost;

    public SurvivalBoost(SurvivalScene scene, double accuracy)
    {
        _scene = scene;
        if (scene.Model.Design.Surroundings.GravityMetresPerSecondSquared > 0)
        {
            Reason = "The craft hangs in gravity: it is a rig, not a boost.";
            return;
        }
        if (!(scene.Reading.ForceNewtons.Z > 0))
        {
            Reason = "The light does not push the craft forward.";
            return;
        }
        try
        {
            RideModel ride = RideModel.Of(scene.Model, scene.Assessment.Engine);
            _schedule = ride.Setup.Schedule;
            Director = ride.Setup.Director;
            (_boost, Instants, End) = StraightBoost.Fly(ride, scene.Pose, accuracy);
        }
        catch (Exception e) when (e is PressureUnavailableException or ArithmeticException)
        {
            Reason = "The boost could not be computed: " + e.Message;
        }
    }

    /// <summary>The instants; empty without a boost.</summary>
    public IReadOnlyList<BoostInstant> Instants { get; } = [];

    public BoostEnd End { get; }

    public BeamDirector? Director { get; }

    /// <summary>Why there is no boost.</summary>
    public string? Reason { get; }

    /// <summary>Power of the schedule over the nominal one when the light of an instant left.</summary>
    public double PowerFactor(in BoostInstant instant) => _schedule.FactorAt(instant.SourceSeconds);

    /// <summary>Instants spread evenly over the steps, the last among them.</summary>
    public IReadOnlyList<BoostInstant> Sampled()
    {
        int count = Math.Min(Stations, Instants.Count);
        return
        [
            .. Enumerable
                .Range(0, count)
                .Select(i => Instants[count == 1 ? 0 : i * (Instants.Count - 1) / (count - 1)]),
        ];
    }

    /// <summary>Quasi-steady temperature of the hottest element of a film at an instant, K; null where it has none.</summary>
    public double? KelvinAt(SurvivalFilm film, in BoostInstant instant)
    {
        double scale = _boost!.ScaleAt(instant.DistanceMetres);
        double dimming =
            PowerFactor(instant)
            * instant.DopplerSquare
            / Illumination.SeenFrom(_scene.Pose.VelocityMetresPerSecond).IrradianceFactor;
        if (scale != 1 || film.Colour is not null || !film.Surface.Optics.IsConstant)
        {
            return Afresh(film, instant, scale);
        }
        double light = film.Heat.Hottest.LightWattsPerSquareMetre;
        double inner = film.Heat.InnerIrradiationWattsPerSquareMetre;
        // With less light the hollow radiates less; at a law that changes, no more than in proportion counts from above.
        return film.Heat.Balance.Equilibrium(dimming * light, Math.Min(1, dimming) * inner);
    }

    // The whole balance in the light of the instant: its power, its Doppler square, its size and its colour at the film.
    private double? Afresh(SurvivalFilm film, in BoostInstant instant, double scale)
    {
        double factor = PowerFactor(instant);
        if (factor == 0)
        {
            return 0;
        }
        Beam whole = _scene.Model.Beam;
        Beam beam = new(factor * whole.PowerWatts, whole.WavelengthMetres, whole.Profile);
        CraftPose pose = _scene.Pose with
        {
            BeamScale = scale,
            VelocityMetresPerSecond = new(0, 0, instant.Beta * Illumination.LightSpeed),
        };
        SurfaceLighting lighting = new(film.Surface, _scene.Model.Craft.Mass.CenterOfMassMetres, beam, pose);
        return FilmHeat.Of(lighting, film.Law, _scene.AbsorptionFactor(film.Colour, instant.Rapidity)).HottestKelvin;
    }

    /// <summary>Highest temperature of a film along the boost.</summary>
    public (double? Kelvin, string? Reason) PeakOf(SurvivalFilm film)
    {
        if (Reason is not null)
        {
            return (null, Reason);
        }
        if (film.Heat.HottestKelvin is null)
        {
            return (null, film.Heat.Reason);
        }
        double peak = 0;
        foreach (BoostInstant instant in Sampled())
        {
            if (KelvinAt(film, instant) is not { } kelvin)
            {
                return (null, "Along the boost the film runs away.");
            }
            peak = Math.Max(peak, kelvin);
        }
        return (peak, null);
    }

    /// <summary>The boost as a result.</summary>
    public CheckedMission? Result()
    {
        if (Reason is not null)
        {
            return null;
        }
        BoostInstant end = Instants[^1];
        MissionDesign mission = _scene.Model.Design.Mission;
        double light = Illumination.LightSpeed;
        // γ − γ₀ without cancellation at small speeds.
        double half = Math.Sinh(0.5 * end.Rapidity);
        double halfStart = Math.Sinh(0.5 * Instants[0].Rapidity);
        double gained =
            2 * (half * half - halfStart * halfStart) * _scene.Model.Craft.Mass.MassKilograms * light * light;
        (double? aperture, string? why) = Aperture(end.DistanceMetres);
        double? cost =
            mission.PricePerJoule is null && mission.PricePerWatt is null
                ? null
                : (mission.PricePerJoule ?? 0) * end.SourceJoules
                    + (mission.PricePerWatt ?? 0) * _scene.Model.Beam.PowerWatts;
        return new()
        {
            EndedBy = End switch
            {
                BoostEnd.Speed => "speed",
                BoostEnd.Distance => "distance",
                BoostEnd.LightOff => "light-off",
                _ => "time",
            },
            TimeSeconds = end.TimeSeconds,
            ProperSeconds = end.ProperSeconds,
            EmissionSeconds = end.SourceSeconds,
            DistanceMetres = end.DistanceMetres,
            SpeedMetresPerSecond = end.Beta * light,
            Beta = end.Beta,
            SourceJoules = end.SourceJoules,
            SpillOverFraction = end.SourceJoules > 0 ? 1 - end.MeetingJoules / end.SourceJoules : 0,
            EfficiencyFraction = end.SourceJoules > 0 ? gained / end.SourceJoules : 0,
            ApertureNeededMetres = aperture,
            ApertureReason = why,
            CostValue = cost,
            CostReason = cost is null ? "Give mission.price_per_joule or mission.price_per_watt." : null,
            Currency = mission.Currency,
        };
    }

    private (double?, string?) Aperture(double distance)
    {
        if (Director is not { } director)
        {
            return (null, "There is no [beam.director]: the beam keeps its size at any distance.");
        }
        double radius =
            2 * _scene.Model.Beam.WavelengthMetres * director.HoldRangeMetres / (Math.PI * director.ApertureMetres);
        double range = director.StandoffMetres + Math.Max(0, distance);
        return (DirectorNeed.ApertureMetres(_scene.Model.Beam.WavelengthMetres, range, radius), null);
    }
}
