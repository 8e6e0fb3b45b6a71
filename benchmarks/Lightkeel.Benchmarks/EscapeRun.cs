using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Numerics.Sampling.Splitting;
using Lightkeel.Numerics.Sampling.Statistics;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Benchmarks;

/// <summary>Averaging, rides and splitting on six wells of a ball and three spectra, and the cost of an averaged exit time.</summary>
internal static class EscapeRun
{
    private const int Rides = 200;

    // For the rare loss the noise is weaker.
    private const double Weaker = 5;

    public static void Run()
    {
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        Console.WriteLine(
            "ring_m width_m spectrum  mean_swings  limit averaged rides [95 %]  ok   rare: limit averaged splitting [95 %]  ok"
        );
        int outside = 0;
        foreach (double ring in (ReadOnlySpan<double>)[0.95, 1.05, 1.15])
        {
            foreach (double width in (ReadOnlySpan<double>)[0.38, 0.5])
            {
                PlanarWell well = WellOf(ring, width);
                foreach ((string name, Func<double, PowerSpectralDensity> spectrum) in Spectra(well.FrequencyHertz))
                {
                    outside += Compare(ring, width, well, name, spectrum);
                }
            }
        }
        Console.WriteLine($"{outside} of 36 comparisons outside their interval of 95 %");
        Speed();
    }

    private static PlanarWell WellOf(double ring, double width)
    {
        Sphere ball = new(1.2);
        SailCraft craft = new(
            [new("ball", ball, OpticalCoefficients.Mirror, Vec3.Zero, Mat3.Identity)],
            MassAssembly.Measured(2.4e-3, Vec3.Zero, Mat3.Diagonal(1.4e-3, 1.4e-3, 1.4e-3))
        );
        Beam beam = new(300e6, 1.064e-6, new RingProfile(ring, width));
        return BeamWell.Measure(craft, beam, new SurfaceQuadrature(craft, beam, 1e-8)).Well
            ?? throw new InvalidOperationException("This ball has no well.");
    }

    private static IEnumerable<(string, Func<double, PowerSpectralDensity>)> Spectra(double f) =>
        [
            ("white", s => new BandLimitedWhiteSpectrum(s, 20 * f)),
            ("power law", s => new PowerLawSpectrum(s, f, -2, 0.05 * f, 20 * f)),
            ("wide line", s => new LineSpectrum(0.85 * f, 0.5 * f, Math.Sqrt(s * f))),
        ];

    private static int Compare(
        double ring,
        double width,
        PlanarWell well,
        string name,
        Func<double, PowerSpectralDensity> spectrum
    )
    {
        WellStart start = new(0.05, 0, 0);
        // So strong that the mean is 200 swings: the mean goes as one over the strength.
        double unit = AveragedEscape.Of(well, [new("n", WellAction.Shake, spectrum(1e-6))], start)!.MeanSeconds!.Value;
        double strength = 1e-6 * unit * well.FrequencyHertz / 200;
        WellNoise[] noises = [new("n", WellAction.Shake, spectrum(strength))];
        EscapeEstimate averaged = EscapeEstimate.Of(well, noises, start, threads: 1)!;
        double horizon = averaged.MeanSeconds!.Value;
        double absorbed = AveragedEscape.Of(well, noises, start, edge: EdgeCondition.Absorbing)!.LossBy(horizon)!.Value;
        // Of one seed all would meet the same noise, scaled.
        ulong seed = (ulong)Math.Round(1000 * (ring + 10 * width)) + name[^1];
        PlanarRides rides = new(well, noises, start, horizon, seed);
        int lost = 0;
        Parallel.For(
            0,
            Rides,
            new ParallelOptions { MaxDegreeOfParallelism = 1 },
            i =>
            {
                if (rides.Fly((ulong)i) is not null)
                {
                    Interlocked.Increment(ref lost);
                }
            }
        );
        ConfidenceInterval seen = Proportion.ClopperPearson(lost, Rides);
        double expected = averaged.LossBy(horizon)!.Value.Probability;
        WellNoise[] weak = [noises[0] with { Spectrum = spectrum(strength / Weaker) }];
        EscapeEstimate slow = EscapeEstimate.Of(well, weak, start, threads: 1)!;
        double brief = AllowedNoise.TimeOf(slow.Fine, 1e-3)!.Value;
        double absorbedRare = AveragedEscape.Of(well, weak, start, edge: EdgeCondition.Absorbing)!.LossBy(brief)!.Value;
        PlanarRides few = new(well, weak, start, brief, seed, branches: true)
        {
            Outlook = LossOutlook.Of(slow.Fine, brief, 1),
        };
        AdaptiveSplitting rare = AdaptiveSplitting.Estimate(few, seed, new(40, 6, 1));
        double expectedRare = slow.LossBy(brief)!.Value.Probability;
        bool held = expected >= seen.Lower && expected <= seen.Upper;
        bool rareHeld = expectedRare >= rare.Interval.Lower && expectedRare <= rare.Interval.Upper;
        Console.WriteLine(
            $"{ring:F2} {width:F2} {name, -10} {horizon * well.FrequencyHertz, 6:F1}  {absorbed:F3} {expected:F3} {(double)lost / Rides:F3} [{seen.Lower:F3} {seen.Upper:F3}] {(held ? "yes" : "NO")}   {brief * well.FrequencyHertz:F1} swings: {absorbedRare:E2} {expectedRare:E2} {rare.Probability:E2} [{rare.Interval.Lower:E2} {rare.Interval.Upper:E2}] {(rareHeld ? "yes" : "NO")}"
        );
        return (held ? 0 : 1) + (rareHeld ? 0 : 1);
    }

    /// <summary>Processor time of one averaged mean exit time.</summary>
    public static void Speed()
    {
        PlanarWell well = WellOf(1.05, 0.45);
        WellNoise[] noises = [new("n", WellAction.Shake, new BandLimitedWhiteSpectrum(1e-8, 200))];
        foreach (int cells in (ReadOnlySpan<int>)[32, 64, 128])
        {
            double? mean = null;
            double best = Least(40, () => mean = AveragedEscape.Of(well, noises, new(0.05, 0, 0), cells)!.MeanSeconds);
            Console.WriteLine($"averaged exit time, {cells} cells, one thread: {best:F1} ms (mean {mean:G8} s)");
        }
        Console.WriteLine($"well from the light: {Least(10, () => _ = WellOf(1.05, 0.45)):F1} ms");
        double whole = Least(10, () => _ = AveragedEscape.Of(WellOf(1.05, 0.45), noises, new(0.05, 0, 0))!.MeanSeconds);
        Console.WriteLine($"both, 128 cells: {whole:F1} ms");
    }

    // Least processor time of a few goes, ms.
    private static double Least(int goes, Action work)
    {
        double best = double.PositiveInfinity;
        for (int i = 0; i < goes; i++)
        {
            double start = ProcessorTime.Seconds;
            work();
            best = Math.Min(best, 1e3 * (ProcessorTime.Seconds - start));
        }
        return best;
    }
}
