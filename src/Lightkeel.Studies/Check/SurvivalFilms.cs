using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Check;

/// <summary>Heat of the films, and the limits it meets.</summary>
internal static class SurvivalFilms
{
    private const string NoEmissivity = "give emissivity_lit and emissivity_back of its surface";

    public static IReadOnlyList<CheckedFilmHeat> Of(SurvivalScene scene, SurvivalBoost boost) =>
        [.. scene.Films.Select(f => One(scene, f, boost))];

    private static CheckedFilmHeat One(SurvivalScene scene, SurvivalFilm film, SurvivalBoost boost)
    {
        FilmHeat heat = film.Heat;
        string? reason =
            film.HasEmissivity || heat.Balance.Absorbed == 0
                ? heat.Reason
                : "No emissivity is stated: " + NoEmissivity + ".";
        RunawayPoint runaway = RunawayPoint.Of(heat);
        Vec3 place = heat.Lighting.PointAt(heat.Hottest.Place);
        double? anyPose = heat.HottestKelvin is null ? null : AnyPose(scene, film);
        (double? peak, string? peakReason) = boost.PeakOf(film);
        AddTemperature(scene, film, reason, peak);
        AddRunaway(scene, film, runaway);
        (double? constant, double? cooling, string? slow) = Transient(film);
        double? lag = constant * 2 * Math.PI * scene.FastestHertz;
        return new()
        {
            Sail = film.Sail.Name,
            HottestKelvin = heat.HottestKelvin,
            HottestReason = heat.HottestKelvin is null ? reason : null,
            HottestPlaceMetres = [place.X, place.Y, place.Z],
            HottestLightWattsPerSquareMetre = heat.Hottest.LightWattsPerSquareMetre,
            MeanKelvin = heat.MeanKelvin,
            MeanReason = heat.MeanKelvin is null ? reason : null,
            AbsorbedWatts = heat.AbsorbedWatts,
            EmittedWatts = heat.EmittedWatts,
            SelfViewFraction = heat.SelfViewFraction,
            AnyPoseKelvin = anyPose,
            AnyPoseReason = anyPose is null ? reason ?? "At the brightest point of the beam the film runs away." : null,
            BoostPeakKelvin = peak,
            BoostPeakReason = peak is null ? reason ?? peakReason : null,
            TimeConstantSeconds = constant,
            TimeConstantReason = constant is null ? reason ?? slow : null,
            CoolingSeconds = cooling,
            CoolingReason = cooling is null ? reason ?? slow : null,
            LagRatio = lag,
            LagReason = lag is null ? reason ?? slow : null,
            RunawayPowerFactor = runaway.PowerFactor,
            RunawayReason = runaway.PowerFactor is null ? runaway.Reason : null,
        };
    }

    private static void AddTemperature(SurvivalScene scene, SurvivalFilm film, string? reason, double? peak)
    {
        const string Name = "film-temperature";
        string sail = film.Sail.Name;
        if (film.Heat.Balance.Absorbed == 0)
        {
            scene.Limits.Add(LimitReading.NotAssessed(Name, sail, reason ?? "The film takes no heat from the light."));
        }
        else if (!film.HasEmissivity)
        {
            scene.Limits.Add(LimitReading.NotAssessed(Name, sail, NoEmissivity));
        }
        else if (film.Heat.HottestKelvin is not { } start)
        {
            scene.Limits.Add(LimitReading.Broken(Name, sail, reason ?? "The film has no balance.", "energy balance"));
        }
        else if (film.Material?.Find(MaterialProperty.TemperatureLimit) is not { } limit)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed(
                    Name,
                    sail,
                    $"give a material with a temperature_limit (hottest element: {start:F0} K)"
                )
            );
        }
        else
        {
            scene.Limits.Add(
                LimitReading.Upper(
                    Name,
                    sail,
                    peak > start
                        ? "Hottest element along the boost."
                        : "Hottest element at the start, the hottest of the boost.",
                    Math.Max(start, peak ?? start),
                    limit.Value,
                    scene.Settings.FilmTemperatureFactor,
                    Dimension.OfTemperature,
                    limit.Text
                )
            );
        }
    }

    private static void AddRunaway(SurvivalScene scene, SurvivalFilm film, RunawayPoint runaway)
    {
        if (runaway.PowerFactor is { } factor)
        {
            double power = scene.Model.Beam.PowerWatts;
            scene.Limits.Add(
                LimitReading.Upper(
                    "runaway",
                    film.Sail.Name,
                    FormattableString.Invariant(
                        $"Beam power against that at the turning point ({runaway.Kelvin:F0} K), beyond which absorption outruns emission."
                    ),
                    power,
                    factor * power,
                    scene.Settings.RunawayFactor,
                    Dimension.OfPower,
                    "turning point of the heat balance"
                )
            );
        }
        else if (film.Heat.Balance.Absorbed > 0 && film.Law.AbsorptionGrowthPerKelvin > 0)
        {
            scene.Limits.Add(LimitReading.NotAssessed("runaway", film.Sail.Name, runaway.Reason ?? "no turning point"));
        }
        else if (film.Heat.Balance.Absorbed > 0 && scene.Model.Design.SurfaceOf(film.Sail).Heat is null)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed(
                    "runaway",
                    film.Sail.Name,
                    $"give surface.{film.Sail.SurfaceName}.heat with an absorption_growth; as stated, absorption does not grow with temperature"
                )
            );
        }
    }

    private static double? AnyPose(SurvivalScene scene, SurvivalFilm film)
    {
        double doppler = Physics.Pressure.Illumination.SeenFrom(scene.Pose.VelocityMetresPerSecond).IrradianceFactor;
        double light = doppler * SurvivalBeam.PeakIrradiance(scene.Model.Beam);
        return film.Heat.Balance.Equilibrium(
            Math.Max(light, film.Heat.Hottest.LightWattsPerSquareMetre),
            film.Heat.InnerIrradiationWattsPerSquareMetre
        );
    }

    private static (double? Constant, double? Cooling, string? Reason) Transient(SurvivalFilm film)
    {
        if (film.Heat.HottestKelvin is not { } kelvin)
        {
            return (null, null, null);
        }
        if (film.Material?.Value(MaterialProperty.HeatCapacity) is not { } capacity)
        {
            return (null, null, "Give the sail a material with a heat_capacity.");
        }
        double perArea = capacity * film.Sail.ArealDensityKilogramsPerSquareMetre;
        if (perArea == 0)
        {
            return (null, null, "The film has no mass to hold heat.");
        }
        FilmBalance balance = film.Heat.Balance;
        double? constant = HeatTransient.TimeConstantSeconds(
            balance,
            perArea,
            film.Heat.Hottest.LightWattsPerSquareMetre,
            kelvin
        );
        double? cooling = HeatTransient.Seconds(balance, perArea, 0, 0, kelvin, 0.5 * kelvin);
        return (constant, cooling, "The film does not settle.");
    }
}
