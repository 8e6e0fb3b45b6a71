using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance.Escape;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Heating by noise and escape from a well: closed forms, passage times, rates, averaging over orbits.</summary>
internal static class EscapeChecks
{
    private const string Passages = "Stochastic Methods (Springer, 4th ed. 2009), section 5.5";

    private const string Kramers =
        "Physica 7, 284 (1940), doi:10.1016/S0031-8914(40)90098-2; Reviews of Modern Physics 62, 251 (1990), doi:10.1103/RevModPhys.62.251";

    private const string Parametric = "Physical Review A 56, R1095 (1997), doi:10.1103/PhysRevA.56.R1095";

    public static CheckModule Module() =>
        new("escape", "Heating by noise and escape", [.. Heating(), .. FirstPassages(), .. Rates(), .. Averaged()]);

    private static IEnumerable<OutsideCheck> Heating() =>
        [
            new("ESC-01", "Growth rate of the energy under power noise, pi^2 f^2 S(2f)", "10 kHz, 1e-10 /Hz, one-sided")
            {
                Source = Parametric,
                Origin = ExpectedOrigin.Computed(
                    "largest eigenvalue of the equations of the second moments, NumPy 1.24.2"
                ),
                Expected = [0.098696044010894],
                Unit = "1/s",
                Tolerance = 1e-12,
                Compute = () => [HarmonicHeating.ParametricPerSecond(1e4, 1e-10)],
            },
            new(
                "ESC-02",
                "Growth of the energy of one axis under white shaking, m w^4 S/4",
                "2 kg, 1.5 Hz, 1e-6 m^2/Hz"
            )
            {
                Source = Parametric,
                Origin = Origins.ClosedForm,
                Expected = [0.0039450681868770987],
                Unit = "W",
                Tolerance = 1e-12,
                Compute = () => [HarmonicHeating.GrowthWatts(2, 1.5, 1e-6)],
            },
            new(
                "ESC-03",
                "Mean time to an amplitude in one axis, 2 a^2/(w^2 S), by the averaged line",
                "1 m, 3 rad/s, 1e-3 m^2/Hz"
            )
            {
                Source = "optional stopping of the mean energy, docs/theory/noise.md",
                Origin = Origins.ClosedForm,
                Expected = [2000.0 / 9],
                Unit = "s",
                Tolerance = 1e-10,
                Compute = () => [FirstPassage.Mean(_ => 0, j => 0.25 * 2 * 27 * 1e-3 * j, 0, 0, 3)],
            },
        ];

    private static IEnumerable<OutsideCheck> FirstPassages() =>
        [
            new(
                "ESC-10",
                "Mean first passage of an Ornstein-Uhlenbeck process from 0 to +a",
                "unit rate, a in standard deviations"
            )
            {
                Source = Passages + "; Physical Review 81, 617 (1951), doi:10.1103/PhysRev.81.617",
                Origin = Origins.Quadpack,
                Parts = ["1", "2", "3"],
                Expected = [0.59574931851276, 4.5016024162291, 42.574633533132],
                Tolerance = 1e-9,
                Compute = () =>
                    [.. ((double[])[1, 2, 3]).Select(a => FirstPassage.Mean(x => -0.5 * x * x, _ => 1, 0, 0, a))],
            },
            new("ESC-11", "The same in the plane, from the middle to a circle", "[Ei(a^2/2) - gamma - ln(a^2/2)]/2")
            {
                Source = Passages,
                Origin = Origins.Mpmath,
                Parts = ["2", "3"],
                Expected = [1.84193575527020599, 12.9262018181308868],
                Tolerance = 1e-9,
                Compute = () =>
                    [
                        .. ((double[])[2, 3]).Select(a =>
                            FirstPassage.Mean(r => Math.Log(Math.Max(r, 1e-300)) - 0.5 * r * r, _ => 1, 0, 0, a)
                        ),
                    ],
            },
            new("ESC-12", "Brownian motion leaves a disc, D T/R^2")
            {
                Source = "A Guide to First-Passage Processes (Cambridge University Press, 2001), chapter 6",
                Origin = Origins.ClosedForm,
                Expected = [0.25],
                Tolerance = 1e-10,
                Compute = () => [FirstPassage.Mean(r => Math.Log(Math.Max(r, 1e-300)), _ => 1, 0, 0, 1)],
            },
            new("ESC-13", "Mean passage in a double well, from -1 to 0 and to +1", "V = x^4/4 - x^2/2, D = 0.1")
            {
                Source = Passages,
                Origin = Origins.Mpmath,
                Parts = ["to 0", "to +1"],
                Expected = [30.8213024726657, 66.2686263649179],
                Tolerance = 1e-9,
                Compute = () =>
                    [
                        .. ((double[])[0, 1]).Select(to =>
                            FirstPassage.Mean(x => -10 * (0.25 * x * x * x * x - 0.5 * x * x), _ => 0.1, -4, -1, to)
                        ),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Rates() =>
        [
            new("ESC-20", "Escape over a barrier under moderate friction", "w0 = 3, wb = 2, friction 0.7, barrier 6")
            {
                Source = Kramers,
                Origin = Origins.Mpmath,
                Expected = [0.000994387449958196696],
                Tolerance = 1e-12,
                Compute = () => [KramersRate.Strong(3, 2, 0.7, 6)],
            },
            new(
                "ESC-21",
                "Escape in a double well under strong friction, times the friction",
                "w0 = sqrt 2, wb = 1, barrier 2.5"
            )
            {
                Source = Kramers,
                Origin = Origins.ClosedForm,
                Expected = [0.018475615893207],
                Tolerance = 1e-10,
                Compute = () => [KramersRate.Strong(Math.Sqrt(2), 1, 1e6, 2.5) * 1e6],
            },
            new(
                "ESC-22",
                "Escape under weak friction",
                "U = x^2/2 - x^3/3, action 6/5 at the barrier of 1/6, kT = 1/90, friction 1e-3"
            )
            {
                Source = Kramers,
                Origin = Origins.Mpmath,
                Expected = [5.25807357240385561e-9],
                Tolerance = 1e-10,
                Compute = () => [KramersRate.Weak(1, 1.2 * 90, 1e-3, 15)],
            },
        ];

    private static IEnumerable<OutsideCheck> Averaged() =>
        [
            new(
                "ESC-30",
                "Mean exit of a shaken harmonic well over both axes, times w^2 S/16, in the limit of weak noise"
            )
            {
                Source = "Brownian motion of two turning amplitudes in a triangle, docs/theory/noise.md",
                Origin = ExpectedOrigin.Computed("finite differences in SciPy 1.10.1, 400 x 400 points, extrapolated"),
                Parts = ["from the middle", "from a circle of a quarter"],
                Expected = [0.0689202425, 0.0613106000],
                Tolerance = 3e-4,
                Compute = () => [Harmonic(0), Harmonic(0.25)],
            },
            Rides("ESC-31", "softening", r => 40 * r * (1 - r * r), 1e-4, 210.492, 0.01),
            Rides("ESC-32", "harmonic", r => 40 * r, 1e-3, 29.7443, 0.01),
        ];

    private static double Harmonic(double circle) =>
        EscapeEstimate
            .Of(
                PlanarWell.Of(2, 1, r => 18 * r),
                [new("white", WellAction.Shake, new BandLimitedWhiteSpectrum(1e-3, 1e4))],
                new(circle, 0, 3 * circle),
                edge: EdgeCondition.Absorbing
            )!
            .MeanSeconds!.Value * (9 * 1e-3 / 16);

    // The tolerance is two and a half standard errors of the rides.
    private static OutsideCheck Rides(
        string id,
        string form,
        Func<double, double> pull,
        double density,
        double expected,
        double tolerance
    ) =>
        new(
            id,
            $"Mean exit of rides in a {form} well under white shaking, by averaging",
            FormattableString.Invariant($"1 kg, 40 N/m at the bottom, edge at 1 m, {density} m^2/Hz")
        )
        {
            Source = "direct simulation, docs/theory/noise.md",
            Origin = ExpectedOrigin.Computed("24 000 rides in NumPy 1.24.2, standard error 0.4 %"),
            Expected = [expected],
            Unit = "s",
            Tolerance = tolerance,
            Compute = () =>
                [
                    EscapeEstimate
                        .Of(
                            PlanarWell.Of(1, 1, pull),
                            [new("white", WellAction.Shake, new BandLimitedWhiteSpectrum(density, 1e4))],
                            new(0.05, 0, 0)
                        )!
                        .MeanSeconds!.Value,
                ],
        };
}
