using System.Text.Json.Nodes;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Stability;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Does the craft survive: joins heat, strength, film modes, budget and mission to one answer.</summary>
internal static class Survival
{
    /// <summary>Assesses the craft in its trim.</summary>
    /// <param name="model">The design with its models.</param>
    /// <param name="assessment">Its trim and linear motion.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    /// <param name="byElements">True to compute film modes by finite elements where closed forms would serve.</param>
    public static (CheckedSurvival Survival, IReadOnlyList<CheckedLimit> Limits) Of(
        DesignModel model,
        RidingAssessment assessment,
        double accuracy,
        bool byElements
    )
    {
        SurvivalScene scene = new(model, assessment);
        SurvivalBoost boost = new(scene, accuracy);
        IReadOnlyList<CheckedFilmHeat> heat = SurvivalFilms.Of(scene, boost);
        IReadOnlyList<CheckedBodyHeat> bodies = SurvivalBodies.Of(scene);
        IReadOnlyList<CheckedFilmStress> strength = SurvivalStress.Of(scene);
        IReadOnlyList<CheckedBoom> booms = SurvivalBooms.Of(scene);
        (IReadOnlyList<CheckedFilmMode> modes, IReadOnlyList<string> texts) = SurvivalModes.Of(scene, byElements);
        (double? direct, string? whyNot, double? reflected, string? whyNone) = SurvivalHazards.Distances(scene);
        IReadOnlyList<LimitReading> limits = LimitReading.Ordered(scene.Limits);
        (string verdict, string text) = Verdict(limits);
        CheckedSurvival survival = new()
        {
            Verdict = verdict,
            Text = text,
            Margins = Smallest(limits),
            Heat = heat,
            Bodies = bodies,
            Strength = strength,
            Booms = booms,
            FilmModes = modes,
            FilmModesText = texts,
            MassBudget = Budget(scene),
            Mission = boost.Result(),
            MissionReason = boost.Reason,
            Hazards = SurvivalHazards.Of(scene),
            DirectHazardMetres = direct,
            DirectHazardReason = whyNot,
            ReflectedHazardMetres = reflected,
            ReflectedHazardReason = whyNone,
        };
        return (survival, [.. limits.Select((l, i) => Row(l, i == 0 && l.Margin is not null))]);
    }

    private static (string, string) Verdict(IReadOnlyList<LimitReading> limits)
    {
        LimitReading[] failed = [.. limits.Where(l => l.Fails)];
        int open = limits.Count(l => l.Margin is null);
        if (failed.Length > 0)
        {
            string names = string.Join(", ", failed.Select(l => $"{l.Name} of {l.Subject}"));
            return ("fails", $"The craft does not survive as designed: {names}.");
        }
        if (open == limits.Count)
        {
            return (
                "not-assessed",
                "Nothing could be assessed: the design states no materials; each row of the limits says what to give."
            );
        }
        LimitReading first = limits[0];
        string governs = FormattableString.Invariant(
            $"{first.Name} of {first.Subject} governs with a margin of {100 * first.Margin!.Value:G3} %"
        );
        return open > 0
            ? (
                "partly-assessed",
                FormattableString.Invariant(
                    $"Nothing that was assessed fails; {governs}; {open} limits are not assessed."
                )
            )
            : ("holds", $"All limits hold; {governs}.");
    }

    private static JsonObject Smallest(IReadOnlyList<LimitReading> limits)
    {
        JsonObject smallest = [];
        foreach (LimitReading limit in limits)
        {
            string key = limit.Name.Replace('-', '_');
            if (smallest.ContainsKey(key))
            {
                continue;
            }
            smallest[key] = limit.Margin is { } margin ? JsonValue.Create(margin) : null;
            if (limit.Margin is null)
            {
                smallest[key + "_reason"] = "Not assessed: " + limit.Text;
            }
        }
        return smallest;
    }

    private static CheckedLimit Row(LimitReading limit, bool governs)
    {
        bool assessed = limit.Margin is not null;
        string missing = assessed ? "It fails without a number: " + limit.Text : "Not assessed: " + limit.Text;
        return new()
        {
            Name = limit.Name,
            Subject = limit.Subject,
            Status =
                !assessed ? "not-assessed"
                : limit.Fails ? "fails"
                : "holds",
            IsGoverning = governs,
            ValueSi = limit.Value,
            ValueReason = limit.Value is null ? missing : null,
            AllowedSi = limit.Allowed,
            AllowedReason = limit.Allowed is null ? missing : null,
            Unit = limit.Value is null ? "" : CheckMargins.UnitOf(limit.Dimension),
            Dimension = limit.Dimension,
            Bound = limit.IsUpper ? "upper" : "lower",
            SafetyFactor = limit.SafetyFactor,
            MarginFraction = limit.Margin,
            MarginReason = assessed ? null : missing,
            Source = limit.Source,
            Text = limit.Text,
        };
    }

    private static CheckedBudget Budget(SurvivalScene scene)
    {
        double film = 0;
        double boom = 0;
        double payload = 0;
        if (scene.Model.Parts.Count > 0)
        {
            film = scene.Model.Parts.OfType<Physics.Craft.ThinShell>().Sum(p => p.BodyMoments.MassKilograms);
            foreach (MassDesign mass in scene.Model.Design.Masses)
            {
                bool isBoom = mass.Role is { } role ? role == MassRole.Boom : mass.Shape is RodMassDesign;
                (boom, payload) = isBoom ? (boom + mass.MassKilograms, payload) : (boom, payload + mass.MassKilograms);
            }
        }
        else
        {
            // Measured as a whole: films and booms as described, the rest is carried.
            film = scene.Model.Craft.Mass.MassKilograms;
        }
        BudgetDesign extra = scene.Model.Design.Budget;
        MassBudget budget = new(film, boom, payload, extra.JointsKilograms, extra.GrowthFraction);
        double flown = scene.Model.Craft.Mass.MassKilograms;
        return new(
            film,
            boom,
            payload,
            extra.JointsKilograms,
            budget.Growth,
            budget.Predicted,
            budget.PayloadFraction,
            budget.PayloadFraction is null ? "The craft has no mass." : null,
            scene.Model.Beam.PowerWatts / flown,
            scene.Acceleration * flown / budget.Predicted
        );
    }
}
