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
        double? spread =
            heat.HottestKelvin is { } hot
            && film.ThicknessMetres is { } thickness
            && film.Material?.Value(MaterialProperty.Conductivity) is { } conductivity
                ? FilmConduction.SpreadMetres(heat.Balance, conductivity, thickness, hot)
                : null;
        double? lag = constant * 2 * Math.PI * scene.FastestHertz;
        return new()
        {
            Sail = film.Sail.Name,
            HottestKelvin = heat.HottestKelvin,
            HottestReason = heat.HottestKelvin is null ? reason : null,
            HottestPlaceMetres = [place.X, place.Y, place.Z],
            HottestLightWattsPerSquareMetre = heat.Lighting.LightAt(heat.Hottest.Place),
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
            RunawayKelvin = runaway.Kelvin,
            RunawayKelvinReason = runaway.Kelvin is null ? runaway.Reason : null,
            EmissionBandMetres = heat.HottestKelvin is { } t
                ? [BlackBody.WavelengthBelow(0.05, t), BlackBody.WavelengthBelow(0.95, t)]
                : null,
            EmissionBandReason = heat.HottestKelvin is null ? reason : null,
            ConductionMetres = spread,
            ConductionReason = spread is null
                ? reason ?? "Give the sail a thickness and a material with a conductivity."
                : null,
            TableText = TableNote(scene, film, boost, Greatest(heat.HottestKelvin, peak)),
        };
    }

    private static double? Greatest(double? a, double? b) => a is { } x && b is { } y ? Math.Max(x, y) : a ?? b;

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
                        $"Beam power against that at the turning point ({runaway.Kelvin:F0} K), beyond which absorption outruns emission.{BeyondTheFilm(film, runaway)}"
                    ),
                    power,
                    factor * power,
                    scene.Settings.RunawayFactor,
                    Dimension.OfPower,
                    "turning point of the heat balance"
                )
            );
        }
        else if (film.Heat.Balance.Absorbed > 0 && film.Law.Grows)
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

    private static string BeyondTheFilm(SurvivalFilm film, RunawayPoint runaway) =>
        film.Material?.Value(MaterialProperty.TemperatureLimit) is { } limit && runaway.Kelvin > limit
            ? FormattableString.Invariant(
                $" No film lives at that temperature (limit {limit:F0} K): the stated law of absorption is carried on far beyond any data, so this margin says only that runaway does not come first."
            )
            : "";

    /// <summary>What to know of a table of shares at the temperatures and wavelengths reached; null when nothing.</summary>
    public static string? TableNote(SurvivalScene scene, SurvivalFilm film, SurvivalBoost boost, double? hottest)
    {
        (double low, double high) = film.Law.RangeKelvin;
        if (hottest > high)
        {
            return FormattableString.Invariant(
                $"The film reaches {hottest:F0} K, its table of shares ends at {high:F0} K: the last shares are carried on."
            );
        }
        if (hottest < low)
        {
            return FormattableString.Invariant(
                $"The film reaches {hottest:F0} K, its table of shares begins at {low:F0} K: the first shares are carried on."
            );
        }
        if (film.Colour is { } colour)
        {
            double first = scene.Model.Beam.WavelengthMetres;
            double last = first * Math.Exp(boost.Instants.Count > 0 ? boost.Instants[^1].Rapidity : 0);
            if (!colour.Covers(first) || !colour.Covers(last))
            {
                return FormattableString.Invariant(
                    $"The film meets wavelengths of {1e9 * first:F0} to {1e9 * last:F0} nm, its table reaches from {1e9 * colour.First:F0} to {1e9 * colour.Last:F0} nm: the end values are carried on."
                );
            }
        }
        return Disagreement(film);
    }

    // Ratios count, so a table that was measured on another film than the stated shares is still used, and told.
    private static string? Disagreement(SurvivalFilm film)
    {
        HeatLaw law = film.Law;
        Physics.Optics.SurfaceOptics optics = film.Surface.Optics;
        (string Name, ShareTable? Table, double Stated)[] pairs =
        [
            ("absorbed", law.Absorption, optics.Absorbed),
            ("emissivity_lit", law.EmissivityFront, optics.EmissivityLit),
            ("emissivity_back", law.EmissivityBack, optics.EmissivityBack),
        ];
        foreach ((string name, ShareTable? table, double stated) in pairs)
        {
            double? there = table?.At(law.ReferenceKelvin);
            if (there is { } share && Math.Abs(share - stated) > 0.01 * stated)
            {
                return FormattableString.Invariant(
                    $"{name} of the table is {share:G4} at {law.ReferenceKelvin:F0} K, the surface states {stated:G4}: the stated one holds there, and the table gives how it changes."
                );
            }
        }
        return null;
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
