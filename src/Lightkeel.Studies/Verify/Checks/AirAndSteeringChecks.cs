using Lightkeel.Physics.Chance.Air;
using Lightkeel.Physics.Chance.Steering;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Turbulent air between director and craft, and feedback through the delay of light.</summary>
internal static class AirAndSteeringChecks
{
    private const string Model57 =
        "Hufnagel-Valley model 5/7; Electromagnetic Wave Propagation in Turbulence (Springer, 1994)";

    private const string Noll =
        "Journal of the Optical Society of America 66, 207 (1976), table IV, doi:10.1364/JOSA.66.000207";

    private static readonly int[] Corrected = [1, 2, 3, 10];
    private static readonly string[] CorrectedParts = ["1", "2", "3", "10"];

    public static CheckModule Module() =>
        new("air-and-steering", "Turbulent air and delayed steering", [.. Air(), .. Residuals(), .. Loops()]);

    private static IEnumerable<OutsideCheck> Air() =>
        [
            new("AIR-01", "Strength of turbulence against height", "0, 1 and 10 km")
            {
                Source = Model57,
                Origin = Origins.ClosedForm,
                Parts = ["0 km", "1 km", "10 km"],
                Expected = [1.727e-14, 1.393944341639e-16, 1.6657319221015e-17],
                Unit = "m^(-2/3)",
                Tolerance = 1e-12,
                Compute = () => [.. ((double[])[0, 1000, 10000]).Select(h => Turbulence.HufnagelValley(h))],
            },
            new("AIR-02", "Fried's length at the zenith", "0.5 um; 4.96 cm is printed")
            {
                Source = Model57,
                Origin = Origins.Mpmath,
                Expected = [0.0496056782016802178],
                Unit = "m",
                Tolerance = 1e-8,
                Compute = () => [Turbulence.FriedMetres(h => Turbulence.HufnagelValley(h), 0.5e-6)],
            },
            new("AIR-03", "Greenwood's frequency at the zenith", "0.5 um, wind 5 + 30 exp(-((h - 9400)/4800)^2) m/s")
            {
                Source =
                    "Journal of the Optical Society of America 67, 390 (1977), doi:10.1364/JOSA.67.000390; wind of Laser Beam Propagation through Random Media (SPIE, 2005)",
                Origin = Origins.Mpmath,
                Expected = [71.9877386331138983],
                Unit = "Hz",
                Tolerance = 1e-7,
                Compute = () =>
                    [
                        Turbulence.GreenwoodHertz(
                            h => Turbulence.HufnagelValley(h),
                            h => 5 + 30 * Math.Exp(-Math.Pow((h - 9400) / 4800, 2)),
                            0.5e-6
                        ),
                    ],
            },
            new("AIR-04", "Greenwood's frequency of one layer, 0.427 v/r0", "10 m/s, 10 cm")
            {
                Source = "Journal of the Optical Society of America 67, 390 (1977), doi:10.1364/JOSA.67.000390",
                Origin = Origins.ClosedForm,
                Expected = [42.7],
                Unit = "Hz",
                Tolerance = 1e-12,
                Compute = () => [Turbulence.GreenwoodOfLayerHertz(10, 0.1)],
            },
            new("AIR-05", "One-axis tilt variance of the wavefront, in (lambda/D)^2 (D/r0)^(5/3)")
            {
                Source = Sources.Tilt,
                Origin = Origins.ClosedForm,
                Expected = [0.18192379570192],
                Tolerance = 1e-6,
                Compute = () => [Turbulence.TiltVariance(1, 1, 1)],
            },
        ];

    private static IEnumerable<OutsideCheck> Residuals() =>
        [
            new("AIR-10", "Phase variance left over when the first modes are corrected, as printed, in (D/r0)^(5/3)")
            {
                Source = Noll,
                Origin = ExpectedOrigin.Read("table IV"),
                Parts = CorrectedParts,
                Expected = [1.0299, 0.582, 0.134, 0.0401],
                Tolerance = 6e-3,
                Compute = () => [.. Corrected.Select(Turbulence.NollResidual)],
            },
            new("AIR-11", "The same, exact for Kolmogorov's spectrum")
            {
                Source = Noll,
                Origin = Origins.Scipy,
                Parts = CorrectedParts,
                Expected = [1.0324216, 0.5835427, 0.1346637, 0.0402443],
                Size = 1,
                Tolerance = 3e-6,
                Compute = () => [.. Corrected.Select(Turbulence.NollResidual)],
            },
        ];

    private static IEnumerable<OutsideCheck> Loops() =>
        [
            new(
                "STE-01",
                "Longest delay that x'' = -p x(t - tau) - d x'(t - tau) stands",
                "p = 1, d = 1 and p = 2, d = 0.5"
            )
            {
                Source =
                    "characteristic equation on the imaginary axis; SIAM Journal on Mathematical Analysis 33, 1144 (2002), doi:10.1137/S0036141000376086",
                Origin = Origins.Mpmath,
                Parts = ["1, 1", "2, 0.5"],
                Expected = [0.711118648715793019, 0.239720891382586626],
                Unit = "s",
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        new DelayedFeedback(0, 1, 1).CriticalDelaySeconds ?? double.NaN,
                        new DelayedFeedback(0, 2, 0.5).CriticalDelaySeconds ?? double.NaN,
                    ],
            },
        ];
}
