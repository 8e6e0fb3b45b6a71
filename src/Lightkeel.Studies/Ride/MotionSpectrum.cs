using Lightkeel.Numerics.Sampling.Estimation;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>Spectrum of the offset of a ride, by Welch's method over its records at equal times.</summary>
/// <param name="X">Along x, m²/Hz.</param>
/// <param name="Y">Along y, m²/Hz.</param>
internal sealed record MotionSpectrum(SpectrumEstimate X, SpectrumEstimate Y)
{
    private const int ShortestSegment = 64;

    // Segments are half the ride: fewer periods than this would put the slowest mode among the lowest bins, where a window hides it.
    private const double FewestPeriods = 8;

    /// <summary>What a density may be off by: factors on it between which the true one lies at 95 %.</summary>
    public ConfidenceInterval Factors => X.Factors(0.95);

    /// <summary>Why a ride has no spectrum that means anything; null when it has one.</summary>
    public static string? WhyNot(RideResult flight, IReadOnlyList<ResonancePoint> resonances)
    {
        int count = EvenRecords(flight);
        if (count < ShortestSegment)
        {
            return FormattableString.Invariant(
                $"No spectrum: {count} records at equal times, and {ShortestSegment} are needed; a shorter --record-every gives more."
            );
        }
        double seconds = flight.Final.TimeSeconds;
        double periods = Periods(resonances, seconds);
        double step = flight.Records[1].TimeSeconds - flight.Records[0].TimeSeconds;
        double fastest = resonances.Count > 0 ? resonances.Max(r => r.FrequenciesHertz[^1]) : 0;
        return resonances.Count > 0 && periods < FewestPeriods
                ? FormattableString.Invariant(
                    $"No spectrum: the ride lasted {seconds:G4} s, {periods:G3} periods of its slowest mode, and {FewestPeriods} are needed."
                )
            : 2 * fastest * step > 1
                ? FormattableString.Invariant(
                    $"No spectrum: records every {step:G4} s are too far apart for the fastest mode ({fastest:G4} Hz); take --record-every {0.5 / fastest:G3} s or less."
                )
            : null;
    }

    /// <summary>The spectrum; null where <see cref="WhyNot"/> has a reason.</summary>
    public static MotionSpectrum? Of(RideResult flight, IReadOnlyList<ResonancePoint> resonances)
    {
        if (WhyNot(flight, resonances) is not null)
        {
            return null;
        }
        int count = EvenRecords(flight);
        double step = flight.Records[1].TimeSeconds - flight.Records[0].TimeSeconds;
        int length = ShortestSegment;
        while (2 * length <= count / 2)
        {
            length *= 2;
        }
        WelchEstimator welch = new(length);
        SpectrumEstimate Along(Func<RideRecord, double> value) =>
            welch.Estimate([.. flight.Records.Take(count).Select(value)], step);
        return new(Along(r => r.State.PositionMetres.X), Along(r => r.State.PositionMetres.Y));
    }

    // How often the slowest mode swings while its frequency moves.
    private static double Periods(IReadOnlyList<ResonancePoint> resonances, double seconds)
    {
        double periods = 0;
        for (int i = 1; i < resonances.Count; i++)
        {
            double mean = 0.5 * (resonances[i].FrequenciesHertz[0] + resonances[i - 1].FrequenciesHertz[0]);
            periods += mean * (resonances[i].TimeSeconds - resonances[i - 1].TimeSeconds);
        }
        return resonances.Count == 1 ? resonances[0].FrequenciesHertz[0] * seconds : periods;
    }

    // The last record is the end, which need not stand on the grid of times.
    private static int EvenRecords(RideResult flight) => flight.Records.Count - 1;
}
