using System.Globalization;

namespace Lightkeel.Physics.Stability;

/// <summary>The verdict with its reason.</summary>
internal sealed record Decision(
    StabilityVerdict Verdict,
    string Reason,
    double Growth,
    double GrowthError,
    double? DecidingRelativeError = null
)
{
    public static Decision Make(LinearModel model, LateralStiffness stiffness, Spectrum spectrum)
    {
        SpectralRoot fastest = spectrum.Roots.MaxBy(r => r.Lambda.Real)!;
        double growth = fastest.Lambda.Real;
        if (growth - fastest.GrowthError > 0)
        {
            return Growing(fastest);
        }
        if (stiffness.Drift is { } drift)
        {
            return stiffness.DriftIsExact
                ? new(
                    StabilityVerdict.Divergent,
                    drift + " The growth is in proportion to time: its rate is zero.",
                    0,
                    0
                )
                : new(
                    StabilityVerdict.Undecided,
                    drift + " What force there is lies below the stated error; a smaller error could show it.",
                    0,
                    Largest(spectrum)
                );
        }
        if (spectrum.Ambiguity is { } doubt)
        {
            double possible = Math.Max(doubt.PossibleGrowth, Largest(spectrum));
            return new(StabilityVerdict.Undecided, doubt.Sentence, 0, possible, doubt.DecidingRelativeError);
        }
        return Quiet(model, spectrum, fastest);
    }

    // A growing motion that turns by less than this (rad) while it grows by e leaves without swinging; a spun craft always turns a little.
    private const double SlowTurn = 1e-3;

    private static Decision Growing(SpectralRoot fastest)
    {
        double growth = fastest.Lambda.Real;
        string folding = Text(1 / growth);
        return fastest.Lambda.Imaginary <= SlowTurn * growth
            ? new(
                StabilityVerdict.Divergent,
                $"A disturbance leaves without swinging and grows by e in {folding} s.",
                growth,
                fastest.GrowthError
            )
            : new(
                StabilityVerdict.Flutter,
                $"A disturbance swings at {Text(fastest.Lambda.Imaginary / (2 * Math.PI))} Hz with an amplitude that grows by e in {folding} s.",
                growth,
                fastest.GrowthError
            );
    }

    private static Decision Quiet(LinearModel model, Spectrum spectrum, SpectralRoot fastest)
    {
        double growth = fastest.Lambda.Real;
        if (growth + fastest.GrowthError < 0)
        {
            return new(
                StabilityVerdict.Damped,
                $"Every disturbance dies away, the slowest by e in {Text(-1 / growth)} s.",
                growth,
                fastest.GrowthError
            );
        }
        double possible = Largest(spectrum);
        double rate = spectrum.Roots.Max(r => r.Lambda.Magnitude);
        if (possible > StabilityAnalysis.NegligibleGrowth * rate)
        {
            double needed = model.RelativeError * StabilityAnalysis.NegligibleGrowth * rate / possible;
            return new(
                StabilityVerdict.Undecided,
                $"No motion is seen to grow, but the stated error of the forces leaves a growth of up to {Text(possible)} 1/s possible.",
                0,
                possible,
                needed > 1e-14 ? needed : null
            );
        }
        return new(
            StabilityVerdict.NeutrallyStable,
            "Every small disturbance oscillates with the amplitude it was given: it neither grows nor dies away.",
            0,
            possible
        );
    }

    /// <summary>Largest growth within the error bars.</summary>
    private static double Largest(Spectrum spectrum) =>
        Math.Max(0, spectrum.Roots.Max(r => r.Lambda.Real + r.GrowthError));

    /// <summary>A number with four significant digits.</summary>
    internal static string Text(double value) => (value == 0 ? 0 : value).ToString("G4", CultureInfo.InvariantCulture);
}
