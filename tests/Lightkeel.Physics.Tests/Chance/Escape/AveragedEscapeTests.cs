using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;
using Xunit;

namespace Lightkeel.Physics.Tests.Chance.Escape;

public sealed class AveragedEscapeTests
{
    private const double Mass = 2.0;
    private const double Rate = 3.0;
    private const double Density = 1e-3;

    private static PlanarWell Harmonic(double edge = 1) => PlanarWell.Of(Mass, edge, r => Mass * Rate * Rate * r);

    private static WellNoise White(WellAction action, double density = Density) =>
        new("white", action, new BandLimitedWhiteSpectrum(density, 1e4));

    [Theory]
    [InlineData(0.0, 1)]
    [InlineData(0.25, 2)]
    public void ShakenHarmonicWell_TakesTheMeanTimeOfTwoRotatingAmplitudes(double distance, int which)
    {
        Console.WriteLine("T " + AveragedEscape.Of(Harmonic(), [White(WellAction.Shake)], new(distance, 0, distance == 0 ? 0 : 3*distance), 128)!.MeanSeconds * Rate * Rate * Density / 16);
        Console.WriteLine("T " + AveragedEscape.Of(Harmonic(), [White(WellAction.Shake)], new(distance, 0, distance == 0 ? 0 : 3*distance), 64)!.MeanSeconds * Rate * Rate * Density / 16 + " " + which);
    }
}
