using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Noise;

/// <summary>Writes down what rides say of the loss.</summary>
internal static class NoiseRidesReading
{
    public static List<NoiseRides> Of(NoiseScene scene, NoiseEscape escape, (double Probability, double Error)? loss)
    {
        List<NoiseRides> found = [];
        if (escape.LossTimes.Count > 0)
        {
            int lost = escape.LossTimes.Count(t => t is not null);
            double exposure = escape.LossTimes.Sum(t => t ?? scene.DurationSeconds);
            found.Add(Counted("reduced", escape.LossTimes.Count, lost, exposure, loss));
        }
        if (escape.FullRides.Count > 0)
        {
            int lost = escape.FullRides.Count(r => r.Outcome.Ending == RideEnding.Lost);
            found.Add(Counted("full", escape.FullRides.Count, lost, escape.FullRides.Sum(r => r.Seconds), loss));
        }
        if (escape.Splitting is { } s)
        {
            const string Reason = "A splitting is made for the probability of the boost.";
            found.Add(
                new(
                    "splitting",
                    s.Paths,
                    null,
                    "A splitting weighs its losses.",
                    s.Probability,
                    [s.Interval.Lower, s.Interval.Upper],
                    null,
                    Reason,
                    null,
                    Reason,
                    null,
                    Reason,
                    Within(loss, s.Interval),
                    Unsaid(loss)
                )
            );
        }
        return found;
    }

    private static NoiseRides Counted(
        string kind,
        int rides,
        int lost,
        double exposure,
        (double Probability, double Error)? loss
    )
    {
        ConfidenceInterval interval = Proportion.ClopperPearson(lost, rides);
        // A rate from losses and time flown; its ends turn round in the mean time.
        ExponentialRate? rate = exposure > 0 ? ExponentialRate.Estimate(lost, exposure) : null;
        const string Grounded = "The rides were lost at their start.";
        string none = rate is null ? Grounded : "No ride was lost.";
        return new(
            kind,
            rides,
            lost,
            null,
            (double)lost / rides,
            [interval.Lower, interval.Upper],
            rate is { Rate: > 0 } r ? 1 / r.Rate : null,
            rate is { Rate: > 0 } ? null : none,
            rate is { Interval.Upper: > 0 } low ? 1 / low.Interval.Upper : null,
            rate is { Interval.Upper: > 0 } ? null : Grounded,
            rate is { Interval.Lower: > 0 } high ? 1 / high.Interval.Lower : null,
            rate is { Interval.Lower: > 0 } ? null : none,
            Within(loss, interval),
            Unsaid(loss)
        );
    }

    private static string? Unsaid((double Probability, double Error)? loss) =>
        loss is null ? "There is no averaged loss probability to compare with." : null;

    private static bool? Within((double Probability, double Error)? loss, ConfidenceInterval interval) =>
        loss is { } l ? l.Probability + l.Error >= interval.Lower && l.Probability - l.Error <= interval.Upper : null;
}
