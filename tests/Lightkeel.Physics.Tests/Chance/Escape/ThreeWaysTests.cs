using System.Diagnostics;
using Lightkeel.Numerics.Sampling.Splitting;
using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

public sealed class ThreeWaysTests
{
    [Fact]
    public void Try()
    {
        PlanarWell well = PlanarWell.Of(1, 1.0, r => 40 * r * (1 - r * r));
        Console.WriteLine($"f {well.FrequencyHertz} depth {well.DepthJoules}");
        WellNoise[] noises = [new("j", WellAction.Shake, new BandLimitedWhiteSpectrum(2e-5, 50)), new("p", WellAction.Depth, new BandLimitedWhiteSpectrum(3e-4, 50))];
        AveragedEscape c = AveragedEscape.Of(well, noises, new(0.05, 0, 0), 128)!;
        foreach (int n in new[] {32, 64, 128, 256})
        {
            TimeSpan cpu = Process.GetCurrentProcess().TotalProcessorTime;
            AveragedEscape a = AveragedEscape.Of(well, noises, new(0.05, 0, 0), n)!;
            TimeSpan cpu2 = Process.GetCurrentProcess().TotalProcessorTime;
            Console.WriteLine($"{n} T {a.MeanSeconds} {a.LossBy(60)} {a.LossBy(100)} {a.LossBy(200)} cpu {(cpu2-cpu).TotalMilliseconds}");
        }
        Stopwatch time = new();
        double shorter = 60;
        PlanarRides brief = new(well, noises, new(0.05, 0, 0), shorter, 1) { Outlook = LossOutlook.Of(c, shorter, 2) };
        time.Restart();
        AdaptiveSplitting s = AdaptiveSplitting.Estimate(brief, 3, new(200, 12, 2));
        Console.WriteLine($"splitting {s.Probability} {s.Interval.Lower} {s.Interval.Upper} averaged {c.LossBy(shorter)} {time.Elapsed.TotalMilliseconds} ms paths {s.Paths} {string.Join(' ', s.Estimates)}");
    }
}
