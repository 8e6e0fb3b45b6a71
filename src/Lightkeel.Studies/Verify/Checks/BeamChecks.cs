using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Beam profiles: normalisation, encircled power, widths, holding range.</summary>
internal static class BeamChecks
{
    private const string SuperGaussian =
        "closed forms with gamma functions; cf. Optical and Quantum Electronics 24, S1071 (1992)";
    private const string Ring = "ring I0 exp(-2 (rho - r0)^2/s^2), integrated over the plane";

    public static CheckModule Module() => new("beams", "Beams", [.. Gaussians(), .. Others(), .. Composed()]);

    private static double At(IBeamProfile p, double x, double y = 0) => p.UnitIrradiance(new F64(x), new F64(y)).Value;

    private static IEnumerable<OutsideCheck> Gaussians() =>
        [
            new("BEA-01", "Share of a Gaussian's power within its waist")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.864664716763387308],
                Tolerance = 1e-14,
                Compute = () => [new GaussianProfile(1).EncircledFraction(1)],
            },
            new("BEA-02", "Share of a Gaussian's power within multiples of its waist")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Parts = ["w/2", "3 w/2"],
                Expected = [0.393469340287366576, 0.988891003461757694],
                Tolerance = 1e-14,
                Compute = () => [.. Shares(new GaussianProfile(1), 0.5, 1.5)],
            },
            new(
                "BEA-03",
                "Irradiance at half the full width at half maximum over the peak",
                "FWHM = 1.1774100225154747 w"
            )
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.5],
                Tolerance = 1e-14,
                Compute = () => [At(new GaussianProfile(1), 0.5 * 1.1774100225154747) / At(new GaussianProfile(1), 0)],
            },
            new("BEA-04", "Share of a Gaussian's power within the 99 % radius", "1.5174271293851464 w")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.99],
                Tolerance = 1e-14,
                Compute = () => [new GaussianProfile(1).EncircledFraction(1.5174271293851464)],
            },
            new("BEA-05", "Peak irradiance of a Gaussian", "1 kW, w = 0.1 m")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [63661.9772367581343],
                Unit = "W/m^2",
                Tolerance = 1e-14,
                Compute = () => [new Beam(1000, 1e-6, new GaussianProfile(0.1)).Irradiance(0, 0)],
            },
            new("BEA-18", "Irradiance of a Gaussian off its axis", "per watt, w = 1 m, at (0.3, 0.4) m")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.38612941052021563],
                Unit = "1/m^2",
                Tolerance = 1e-14,
                Compute = () => [At(new GaussianProfile(1), 0.3, 0.4)],
            },
        ];

    private static IEnumerable<OutsideCheck> Others() =>
        [
            new("BEA-06", "Power of a super-Gaussian over its peak irradiance and squared waist")
            {
                Source = SuperGaussian,
                Origin = Origins.ClosedForm,
                Parts = ["n = 4", "n = 10"],
                Expected = [1.96870124321530247, 2.51111369954587658],
                Tolerance = 1e-12,
                Compute = () => [1 / At(new SuperGaussianProfile(1, 4), 0), 1 / At(new SuperGaussianProfile(1, 10), 0)],
            },
            new("BEA-07", "Share of a super-Gaussian's power within its waist")
            {
                Source = SuperGaussian,
                Origin = Origins.ClosedForm,
                Parts = ["n = 4", "n = 10"],
                Expected = [0.954499736103641586, 0.987013414876407283],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        new SuperGaussianProfile(1, 4).EncircledFraction(1),
                        new SuperGaussianProfile(1, 10).EncircledFraction(1),
                    ],
            },
            new("BEA-08", "Second-moment radius of a super-Gaussian over its waist")
            {
                Source = SuperGaussian,
                Origin = Origins.ClosedForm,
                Parts = ["n = 4", "n = 6", "n = 10"],
                Expected = [0.893243841738002331, 0.895756984273821171, 0.917195962364121294],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        SecondMomentRadius.Of(new SuperGaussianProfile(1, 4)),
                        SecondMomentRadius.Of(new SuperGaussianProfile(1, 6)),
                        SecondMomentRadius.Of(new SuperGaussianProfile(1, 10)),
                    ],
            },
            new("BEA-09", "Second-moment radius of a Laguerre-Gauss beam over its waist", "sqrt(2 p + |l| + 1)")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Parts = ["(0, 1)", "(1, 0)", "(2, 1)", "(2, 3)"],
                Expected = [1.41421356237309505, 1.73205080756887729, 2.4494897427831781, 2.8284271247461901],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        SecondMomentRadius.Of(new LaguerreGaussProfile(1, 0, 1)),
                        SecondMomentRadius.Of(new LaguerreGaussProfile(1, 1, 0)),
                        SecondMomentRadius.Of(new LaguerreGaussProfile(1, 2, 1)),
                        SecondMomentRadius.Of(new LaguerreGaussProfile(1, 2, 3)),
                    ],
            },
            new("BEA-10", "Share of a Laguerre-Gauss beam's power within a circle", "w = 1")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Parts = ["(0, 1), r = 0.8", "(1, 1), r = 0.8", "(2, 3), r = 1.2"],
                Expected = [0.366074954966717379, 0.302299871137965521, 0.251552498322580622],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        new LaguerreGaussProfile(1, 0, 1).EncircledFraction(0.8),
                        new LaguerreGaussProfile(1, 1, 1).EncircledFraction(0.8),
                        new LaguerreGaussProfile(1, 2, 3).EncircledFraction(1.2),
                    ],
            },
            new("BEA-11", "Irradiance of a ring's crest, per watt", "r0 = 1.05 m, s = 0.45 m")
            {
                Source = Ring,
                Origin = Origins.ClosedForm,
                Expected = [0.268756113481661375],
                Unit = "1/m^2",
                Tolerance = 1e-13,
                Compute = () => [At(new RingProfile(1.05, 0.45), 1.05)],
            },
            new("BEA-12", "Share of a ring's power within a circle", "r0 = 1.05 m, s = 0.45 m")
            {
                Source = Ring,
                Origin = Origins.ClosedForm,
                Parts = ["0.5 m", "1 m", "1.3 m"],
                Expected = [0.00294478622570051321, 0.328667819511628899, 0.820627078533641632],
                Tolerance = 1e-12,
                Compute = () => [.. Shares(new RingProfile(1.05, 0.45), 0.5, 1, 1.3)],
            },
            new("BEA-13", "Irradiance of a Laguerre-Gauss beam, per watt", "(2, 1), w = 1 m, at 1 m")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.0574380781382630128],
                Unit = "1/m^2",
                Tolerance = 1e-13,
                Compute = () => [At(new LaguerreGaussProfile(1, 2, 1), 1)],
            },
        ];

    private static IEnumerable<OutsideCheck> Composed() =>
        [
            new("BEA-14", "Share of a displaced Gaussian's power within a circle about the axis", "w = 1 m")
            {
                Source = "Gaussian over a displaced circle: integral with the modified Bessel function I0",
                Origin = Origins.ClosedForm,
                Parts = ["by 0.7 m, r = 1 m", "by 0.7 m, r = 0.3 m", "by 2 m, r = 1 m"],
                Expected = [0.610483077519372607, 0.0672697755174754174, 0.0147234641087152001],
                Tolerance = 1e-12,
                Compute = () => [.. Shares(Displaced(0.7), 1, 0.3), .. Shares(Displaced(2), 1)],
            },
            new("BEA-15", "Second-moment radius of two Gaussians apart", "w = 0.4 m, 1 m apart: sqrt(w^2 + 2 d^2)")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.812403840463596036],
                Unit = "m",
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        SecondMomentRadius.Of(
                            new SumProfile([
                                new(new GaussianProfile(0.4), 0.5, 1.2, 0.3),
                                new(new GaussianProfile(0.4), 0.5, 0.2, 0.3),
                            ])
                        ),
                    ],
            },
            new(
                "BEA-16",
                "Irradiance at the centre of a hollowed Gaussian, per watt",
                "1.2 of w = 1 m less 0.2 of w = 0.5 m"
            )
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [0.254647908947032537],
                Unit = "1/m^2",
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        At(
                            new SumProfile([
                                new(new GaussianProfile(1), 1.2, 0, 0),
                                new(new GaussianProfile(0.5), -0.2, 0, 0),
                            ]),
                            0
                        ),
                    ],
            },
            new("BEA-17", "Range to which an aperture holds a Gaussian", "pi D w/(2 lambda): 4 m, 0.8 m, 1.064 um")
            {
                Source = Sources.Lasers,
                Origin = Origins.ClosedForm,
                Expected = [4724199.47908239585],
                Unit = "m",
                Tolerance = 1e-12,
                Compute = () =>
                    [new BeamDirector(4, 400e3, new(1, 1.064e-6, new GaussianProfile(0.8))).HoldRangeMetres],
            },
        ];

    private static SumProfile Displaced(double offset) => new([new(new GaussianProfile(1), 1, offset, 0)]);

    private static IEnumerable<double> Shares(IBeamProfile profile, params IEnumerable<double> radii) =>
        radii.Select(profile.EncircledFraction);
}
