using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Stability;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>Writes down what was found.</summary>
internal static class NoiseReading
{
    private const int DistributionPoints = 61;

    // Where the curve of losses begins.
    private const double FirstLoss = 1e-9;

    public static NoiseResult Of(
        NoiseScene scene,
        NoiseModes modes,
        NoiseEscape escape,
        NoiseAllowance allowance,
        NoiseInput input
    )
    {
        double? linear = NoiseLinear.ExitSeconds(scene, modes);
        bool averaged = scene.Well.Well is not null;
        (double Probability, double Error)? loss = escape.Averaged?.LossBy(scene.DurationSeconds);
        List<NoiseRides> rides = NoiseRidesReading.Of(scene, escape, loss);
        // Without a well the linear modes; where nothing shakes them, what the full rides say.
        double? flown = averaged ? null : rides.Find(r => r.Kind == "full")?.MeanExitTimeSeconds;
        double? mean = averaged ? escape.Averaged?.MeanSeconds : linear ?? flown;
        (double[] times, double[] lost) = Distribution(escape, scene);
        string? dominant = Dominant(scene, escape, modes);
        (IReadOnlyList<NoiseFilmMode> films, IReadOnlyList<string> filmTexts) = NoiseFilms.Of(scene);
        return new()
        {
            DurationSeconds = scene.DurationSeconds,
            LostAtMetres = scene.LostAtMetres,
            Modes =
            [
                .. modes.Modes.Select(
                    (m, i) =>
                        new NoiseMode(
                            m.FrequencyHertz,
                            m.GrowthPerSecond,
                            m.Participation,
                            modes.WidthFactors[i],
                            modes.WidthFactors[i] is null ? "The modes of a wider beam do not match one to one." : null
                        )
                ),
            ],
            ModesReason = modes.Reason,
            Heating = [.. modes.Heating.Select(h => Heat(h, modes, scene))],
            Parametric = [.. modes.Parametric.Select(p => NoiseParametrics.Read(p, scene))],
            FilmModes = films,
            FilmModesText = filmTexts,
            DominantNoise = dominant,
            DominantReason =
                dominant is not null ? null
                : scene.Sources.Count == 0 ? "The design has no noise."
                : "No noise of the design moves the craft from its start.",
            MeanExitTimeSeconds = mean,
            MeanExitTimeReason = mean is not null ? null : NoEscape(scene, escape),
            MeanExitErrorSeconds = averaged ? escape.Averaged?.MeanErrorSeconds : null,
            MeanExitErrorReason =
                averaged && escape.Averaged?.MeanErrorSeconds is not null ? null
                : averaged ? escape.Reason
                : linear is null ? "See the interval of the rides."
                : "The closed form of the linear modes has no error of a mesh; what it neglects is the well's own form.",
            Method =
                mean is null ? "none"
                : averaged ? "averaging"
                : linear is not null ? "linear-modes"
                : "rides",
            LossProbability = loss?.Probability,
            LossErrorProbability = loss?.Error,
            LossErrorReason = loss is not null ? null : escape.Reason ?? "The craft has no well.",
            LossProbabilityReason = loss is not null ? null : escape.Reason ?? "The craft has no well.",
            ExitTimesSeconds = times,
            LostByProbability = lost,
            ClosedForms = ClosedForms(scene, modes, linear),
            Rides = rides,
            Well = scene.Well is { Well: { } well, RimMetres: { } rim }
                ? new(well.EdgeMetres, rim, well.DepthJoules, well.FrequencyHertz)
                : null,
            AllowedLossProbability = input.LossProbability,
            Allowed = AllowedOf(scene, allowance),
            AllowedReason =
                allowance.Masks.Count > 0 ? null : escape.Reason ?? "No kind of noise moves the craft from its start.",
            AllowedWhite =
            [
                .. allowance
                    .Masks.OrderBy(m => m.Key)
                    .Select(m => new NoiseAllowedWhite(WordOf(m.Key), m.Value.WhiteDensity)),
            ],
            Budget = BudgetOf(scene, escape, allowance),
            AllowedFactor = allowance.WholeFactor,
            AllowedFactorReason = allowance.WholeFactor is not null
                ? null
                : escape.Reason ?? "The loss probability could not be solved for it.",
            Track = NoiseTracks.PointsOf(scene, allowance, input),
            Crossings = NoiseTracks.CrossingsOf(scene),
            Steering = NoiseTracks.SteeringOf(scene, input),
            LinearGrowth = NoiseLinear.Growth(scene, modes),
            Transfer = NoiseLinear.Transfer(scene, modes),
            Engine = scene.Engine.Name,
        };
    }

    public static string WordOf(WellAction action) =>
        action switch
        {
            WellAction.Shake => "pointing",
            WellAction.Depth => "power",
            _ => "width",
        };

    public static string WordOf(NoiseSource source) =>
        source.Quantity switch
        {
            NoiseQuantity.Power => "power",
            NoiseQuantity.Width => "width",
            NoiseQuantity.Imbalance => "imbalance",
            _ => "pointing",
        };

    private static string NoEscape(NoiseScene scene, NoiseEscape escape) =>
        scene.Sources.Count == 0 ? "The design has no noise."
        : scene.Well.Well is not null ? escape.Reason ?? "No time could be solved for."
        : "No noise of the design shakes a linear mode; power and width only multiply what motion there is, and there is none at the start (see heating). "
            + escape.Reason;

    private static NoiseHeating Heat(ModeHeat h, NoiseModes modes, NoiseScene scene) =>
        new(
            h.Source.Name,
            WordOf(h.Source),
            modes.Modes[h.Mode].FrequencyHertz,
            h.ListensHertz,
            h.Density,
            h.Watts,
            h.PerSecond,
            h.PerSecond * scene.DurationSeconds,
            Math.Sqrt(h.SquareMetresPerSecond * scene.DurationSeconds)
        );

    // By its share in the averaged escape; without a well by the growth of the squared amplitude at the offset of loss.
    private static string? Dominant(NoiseScene scene, NoiseEscape escape, NoiseModes modes)
    {
        if (escape.Averaged?.Fine.Shares is { Count: > 0 } shares)
        {
            return scene.Sources[shares.Select((s, i) => (s, i)).MaxBy(p => p.s).i].Name;
        }
        double square = scene.LostAtMetres * scene.LostAtMetres;
        return modes
            .Heating.GroupBy(h => h.Source)
            .Select(g =>
                (
                    g.Key.Name,
                    Growth: g.Sum(h => h.SquareMetresPerSecond)
                        + square
                            * (
                                modes
                                    .Parametric.Where(p => p.Source == g.Key)
                                    .Select(NoiseParametrics.GrowthOf)
                                    .FirstOrDefault()
                                ?? g.Max(h => h.PerSecond)
                            )
                )
            )
            .Where(g => g.Growth > 0)
            .OrderByDescending(g => g.Growth)
            .FirstOrDefault()
            .Name;
    }

    private static (double[] Times, double[] Lost) Distribution(NoiseEscape escape, NoiseScene scene)
    {
        if (escape.Averaged is not { MeanSeconds: { } mean } averaged)
        {
            return ([], []);
        }
        List<double> times = [];
        List<double> lost = [];
        double last = 5 * mean;
        double first = AllowedNoise.TimeOf(averaged.Fine, FirstLoss) ?? 0.02 * mean;
        for (int i = 0; i < DistributionPoints; i++)
        {
            double t = first * Math.Pow(last / first, (double)i / (DistributionPoints - 1));
            if (averaged.Fine.LossBy(t) is { } p)
            {
                times.Add(t);
                lost.Add(p);
            }
        }
        return ([.. times], [.. lost]);
    }

    private static List<NoiseClosedForm> ClosedForms(NoiseScene scene, NoiseModes modes, double? linear)
    {
        List<NoiseClosedForm> forms = [];
        if (scene.Well.Well is { } well)
        {
            double density = scene
                .WellNoises.Where(n => n.Action == WellAction.Shake)
                .Sum(n => n.Mean(well.FrequencyHertz, 1e-4 * well.FrequencyHertz));
            if (density > 0)
            {
                double depth =
                    Math.Sqrt(2 * well.DepthJoules / well.MassKilograms) / (2 * Math.PI * well.FrequencyHertz);
                forms.Add(
                    new(
                        "harmonic-two-axes",
                        HarmonicHeating.ExitSeconds(depth, well.FrequencyHertz, density, 2),
                        "Harmonic well of the same frequency and depth, pointing noise alone, from rest in the middle: a²/(ω² S) with a the amplitude whose energy is the depth."
                    )
                );
                forms.Add(
                    new(
                        "harmonic-one-axis",
                        HarmonicHeating.ExitSeconds(depth, well.FrequencyHertz, density, 1),
                        "The same for motion along one axis: 2 a²/(ω² S)."
                    )
                );
            }
        }
        if (linear is { } seconds)
        {
            forms.Add(
                new(
                    "linear-modes",
                    seconds,
                    NoiseLinear.ParametricPerSecond(modes) > 0
                        ? "Undamped linear modes, until the root of the summed squared amplitudes is the offset of loss: knows no rim. Under power and width noise an estimate, exact for one mode along one axis."
                        : "Undamped linear modes under pointing noise, until the root of the summed squared amplitudes is the offset of loss: knows no rim."
                )
            );
        }
        return forms;
    }

    private static NoiseAllowed[] AllowedOf(NoiseScene scene, NoiseAllowance allowance)
    {
        if (allowance.Masks.Count == 0)
        {
            return [];
        }
        const string Unmoved = "This kind of noise does not move the craft from its start, or was not solved.";
        IReadOnlyList<double> at = allowance.Masks.Values.First().FrequenciesHertz;
        double? range = scene.MeanSquareRange;
        double? Of(WellAction action, int i) =>
            allowance.Masks.TryGetValue(action, out AllowedNoise? mask) ? mask.Densities[i] : null;
        return
        [
            .. Enumerable
                .Range(0, at.Count)
                .Select(i =>
                {
                    double? pointing = Of(WellAction.Shake, i);
                    double? angle = pointing / range;
                    double? power = Of(WellAction.Depth, i);
                    double? width = Of(WellAction.Width, i);
                    return new NoiseAllowed(
                        at[i],
                        pointing,
                        pointing is null ? Unmoved : null,
                        angle,
                        angle is not null ? null
                            : range is null ? "The design has no director."
                            : Unmoved,
                        power,
                        power is null ? Unmoved : null,
                        width,
                        width is null ? Unmoved : null
                    );
                }),
        ];
    }

    private static NoiseBudget[] BudgetOf(NoiseScene scene, NoiseEscape escape, NoiseAllowance allowance)
    {
        IReadOnlyList<double> shares = escape.Averaged?.Fine.Shares ?? [];
        return
        [
            .. scene.Sources.Select(
                (s, i) =>
                    new NoiseBudget(
                        s.Name,
                        WordOf(s),
                        i < shares.Count ? shares[i] : null,
                        i < shares.Count ? null : escape.Reason ?? "The craft has no well.",
                        allowance.Factors[i],
                        allowance.Factors[i] is not null
                            ? null
                            : escape.Reason ?? "No strength of it alone brings the loss probability to the one allowed."
                    )
            ),
        ];
    }
}
