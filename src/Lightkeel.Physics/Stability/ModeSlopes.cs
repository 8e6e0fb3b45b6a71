namespace Lightkeel.Physics.Stability;

/// <summary>Slopes of frequency and growth of each mode with a design number.</summary>
/// <remarks>
/// Central differences at two step widths, extrapolated (error of fourth order); the error estimate is what the extrapolation
/// changed. Modes are followed from step to step by the nearness of their roots and the likeness of their shapes.
/// </remarks>
internal static class ModeSlopes
{
    private const double RelativeStep = 1e-3;

    /// <summary>The wider of the two steps: a thousandth of the value, less near an end of the range; zero at an end.</summary>
    public static double Step(DesignNumber number)
    {
        double size = number.Present != 0 ? Math.Abs(number.Present) : 0.2 * (number.Largest - number.Smallest);
        double room = Math.Min(number.Largest - number.Present, number.Present - number.Smallest);
        return Math.Min(RelativeStep * size, room);
    }

    public static IReadOnlyList<ModeSensitivity> Compute(
        DesignNumber number,
        StabilityReport present,
        MarginProbe probe
    )
    {
        double h = Step(number);
        if (h <= 1e-7 * Math.Abs(number.Present))
        {
            return Without(present, "the number stands at the end of its range, so it cannot be moved both ways.");
        }
        Outcome[] outcomes = [.. new[] { -h, -0.5 * h, 0.5 * h, h }.Select(d => probe.At(number.Present + d))];
        if (outcomes.FirstOrDefault(o => o.Report is null) is { Reason: { } reason })
        {
            return Without(present, $"a neighbouring value could not be computed: {reason}");
        }
        StabilityReport[] reports = [.. outcomes.Select(o => o.Report!)];
        if (reports.Any(r => r.Verdict != present.Verdict))
        {
            return Without(
                present,
                "the verdict changes within a thousandth of the present value, where roots have no slope."
            );
        }
        double size = present.Model.GyrationRadiusMetres;
        return
        [
            .. present.Modes.Select(mode =>
            {
                StabilityMode? innerLow = ModeMatch.Follow(mode, reports[1], size);
                StabilityMode? outerLow = innerLow is null ? null : ModeMatch.Follow(innerLow, reports[0], size);
                StabilityMode? innerHigh = ModeMatch.Follow(mode, reports[2], size);
                StabilityMode? outerHigh = innerHigh is null ? null : ModeMatch.Follow(innerHigh, reports[3], size);
                return outerLow is null || outerHigh is null
                    ? new(
                        mode,
                        null,
                        0,
                        null,
                        0,
                        "roots that coincide here part when the number moves, so there is no single slope."
                    )
                    : Slopes(mode, h, outerLow, innerLow!, innerHigh!, outerHigh);
            }),
        ];
    }

    private static IReadOnlyList<ModeSensitivity> Without(StabilityReport present, string reason) =>
        [.. present.Modes.Select(mode => new ModeSensitivity(mode, null, 0, null, 0, reason))];

    private static ModeSensitivity Slopes(
        StabilityMode mode,
        double h,
        StabilityMode outerLow,
        StabilityMode innerLow,
        StabilityMode innerHigh,
        StabilityMode outerHigh
    )
    {
        (double frequency, double frequencyError) = Slope(m => m.FrequencyHertz);
        (double growth, double growthError) = Slope(m => m.GrowthPerSecond);
        return new(mode, frequency, frequencyError, growth, growthError, null);

        (double Value, double Error) Slope(Func<StabilityMode, double> of)
        {
            double wide = (of(outerHigh) - of(outerLow)) / (2 * h);
            double narrow = (of(innerHigh) - of(innerLow)) / h;
            double value = narrow + (narrow - wide) / 3;
            double rounding = 4e-16 * (Math.Abs(of(innerHigh)) + Math.Abs(of(innerLow))) / h;
            return (value, Math.Abs(value - narrow) + rounding);
        }
    }
}
