using Lightkeel.Physics.Limits.Hazard;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Hazard;

public sealed class EyeHazardTests
{
    // Limits as IEC 60825-1:2014 prints them, from memory: 10 W/m² green and red, 10 C4 to 1050 nm, 50 C7 to 1150 nm, 1000 beyond 1400 nm.
    [Theory]
    [InlineData(532e-9, 10)]
    [InlineData(800e-9, 15.848931924611133)]
    [InlineData(1064e-9, 50)]
    [InlineData(1550e-9, 1000)]
    public void ExposureLimit_IsThatOfTheStandard(double wavelength, double limit) =>
        Assert.Equal(limit, EyeHazard.ExposureLimit(wavelength)!.Value, 1e-9);

    [Theory]
    [InlineData(355e-9)]
    [InlineData(1300e-9)]
    public void ExposureLimit_OutsideWhatIsHeld_IsNotInvented(double wavelength) =>
        Assert.Null(EyeHazard.ExposureLimit(wavelength));

    // 1 W in a half-angle of 1 mrad: 2P/(πθ²L²) = 50 W/m² at 112.84 m, by hand.
    [Fact]
    public void Distances_BringTheIrradianceToTheLimit()
    {
        double far = EyeHazard.DirectMetres(1, 1e-3, 50);
        Assert.Equal(50, 2 / (Math.PI * 1e-6 * far * far), 1e-9);
        double ball = EyeHazard.ReflectedByBallMetres(1.2, 1e8, 50);
        Assert.Equal(50, 1e8 * 1.2 * 1.2 / (4 * ball * ball), 1e-9);
    }
}
