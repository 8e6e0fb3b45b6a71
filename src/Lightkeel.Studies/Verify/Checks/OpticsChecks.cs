using System.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Optics.Films;
using Lightkeel.Physics.Optics.Gratings;
using Lightkeel.Physics.Optics.Indices;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Refractive indices, films and gratings against published values and closed forms.</summary>
internal static class OpticsChecks
{
    private const string Fresnel = "Principles of Optics (Cambridge, 7th ed. 1999), section 1.5.2 (Fresnel's formulae)";

    private const string QuarterWaves =
        "Thin-Film Optical Filters (CRC, 4th ed. 2010), quarter-wave rules; Principles of Optics (7th ed. 1999), section 1.6";

    private const string AluminiumData = "Applied Optics 34, 4755 (1995), doi:10.1364/AO.34.004755, row at 1.0332 um";

    private static readonly ExpectedOrigin Recursion = ExpectedOrigin.Computed(
        "mpmath 1.2.1, recursion of amplitude reflectances, 30 digits (film_recursion.py)"
    );

    private static readonly RefractiveIndex Aluminium = new ConstantIndex(1.3998, 9.8914);

    public static CheckModule Module() =>
        new(
            "optics",
            "Films, gratings and refractive indices",
            [.. Indices(), .. Surfaces(), .. Films(), .. Gratings()]
        );

    private static OutsideCheck[] Indices() =>
        [
            Index("OPT-01", "silicon-nitride", 1.55, 1.9962797317139, "Optics Letters 40, 4823 (2015)"),
            Index(
                "OPT-02",
                "fused-silica",
                0.58756,
                1.4584637505239,
                "Journal of the Optical Society of America 55, 1205 (1965)"
            ),
            Index(
                "OPT-03",
                "fused-silica",
                1.064,
                1.4496309898591,
                "Journal of the Optical Society of America 55, 1205 (1965)"
            ),
            Index(
                "OPT-04",
                "titanium-dioxide",
                1.064,
                2.4789270308923,
                "Journal of the Optical Society of America 41, 416 (1951)"
            ),
            new("OPT-05", "Index of silicon", "1.55 um, 293 K")
            {
                Source = "Journal of Physical and Chemical Reference Data 9, 561 (1980), doi:10.1063/1.555624",
                Origin = ExpectedOrigin.Read(
                    "row of the table, as transcribed in an open collection of optical constants"
                ),
                Expected = [3.4757],
                Tolerance = 1e-12,
                Compute = () => [IndexTable.Find("silicon")!.Index.At(1.55e-6).Real],
            },
            new("OPT-06", "Aluminium between two rows", "n, k and reflectance at 1.064 um")
            {
                Source = AluminiumData,
                Origin = Origins.ClosedForm,
                Parts = ["n", "k", "R"],
                Expected = [1.3762817891374, 10.244861980831, 0.95022665067037],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    RefractiveIndex metal = IndexTable.Find("aluminium")!.Index;
                    Complex n = metal.At(1.064e-6);
                    return [n.Real, n.Imaginary, Bare(1, metal, 1.064e-6).Across.Reflected];
                },
            },
        ];

    private static OutsideCheck[] Surfaces() =>
        [
            new("OPT-10", "Glass at normal incidence", "n = 1.5")
            {
                Source = Fresnel,
                Origin = Origins.ClosedForm,
                Expected = [0.04],
                Tolerance = 1e-14,
                Compute = () => [Bare(1, new ConstantIndex(1.5)).Along.Reflected],
            },
            new("OPT-11", "Glass at 45 deg", "n = 1.5: R_s, R_p = R_s^2")
            {
                Source = Fresnel,
                Origin = Origins.ClosedForm,
                Parts = ["R_s", "R_p"],
                Expected = [0.092013363045524, 0.0084664589789475],
                Tolerance = 1e-12,
                Compute = () => Both(Bare(Math.Sqrt(0.5), new ConstantIndex(1.5))),
            },
            new("OPT-12", "Nothing reflected at Brewster's angle", "n = 1.5, 56.30993247402 deg")
            {
                Source = Fresnel,
                Origin = Origins.ClosedForm,
                Expected = [0],
                Size = 1,
                Tolerance = 1e-20,
                Compute = () => [Bare(1 / Math.Sqrt(3.25), new ConstantIndex(1.5)).Along.Reflected],
            },
            new("OPT-13", "Bulk aluminium", "1.0332 um: R at 0 deg; R_s and R_p at 45 deg")
            {
                Source = Fresnel + "; " + AluminiumData,
                Origin = Origins.ClosedForm,
                Parts = ["R", "R_s", "R_p"],
                Expected = [0.94595305966474, 0.96156513448234, 0.92460750785203],
                Tolerance = 1e-12,
                Compute = () => [Bare(1, Aluminium).Across.Reflected, .. Both(Bare(Math.Sqrt(0.5), Aluminium))],
            },
        ];

    private static OutsideCheck[] Films() =>
        [
            new(
                "OPT-20",
                "Absorbing film of two layers",
                "n = 2+4i, 3+0.3i on 1+0.1i, 2 and 3 thick, wavelength 100, 0.1 rad"
            )
            {
                Source = "arXiv:1603.02720, with the worked case of its open reference program",
                Origin = Recursion,
                Parts = ["R_s", "T_s", "R_p", "T_p"],
                Expected = [0.372732088391394932, 0.226044912470792816, 0.37016110373044937, 0.228243743141320058],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    LayeredFilm film = new(
                        [new(new ConstantIndex(2, 4), 2e-8), new(new ConstantIndex(3, 0.3), 3e-8)],
                        behind: new ConstantIndex(1, 0.1)
                    );
                    FilmAnswer a = film.Answer(Math.Cos(0.1), 1e-6);
                    return [a.Across.Reflected, a.Across.Passed, a.Along.Reflected, a.Along.Passed];
                },
            },
            Slab("OPT-21", "Free quarter-wave film", "n = 2", 2, 0.25, 0.36, 1e-13),
            new("OPT-22", "Quarter-wave film of silicon nitride", "1.55 um: thickness and R")
            {
                Source = QuarterWaves + "; index Optics Letters 40, 4823 (2015)",
                Origin = Origins.ClosedForm,
                Parts = ["d", "R"],
                Expected = [0.19411107263375e-6, 0.35856991220689],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    RefractiveIndex nitride = IndexTable.Find("silicon-nitride")!.Index;
                    double quarter = 1.55e-6 / 4 / nitride.At(1.55e-6).Real;
                    return [quarter, new LayeredFilm([new(nitride, quarter)]).Answer(1, 1.55e-6).Across.Reflected];
                },
            },
            Slab("OPT-23", "Half-wave film is absent", "n = 2", 2, 0.5, 0, 1e-15),
            Slab(
                "OPT-24",
                "Free film by Airy's formula",
                "n = 2, 0.1 um at 1.064 um",
                2,
                0.2 / 1.064,
                0.32491489019507,
                1e-12
            ),
            Mirror("OPT-25", "Anti-reflection layer on glass", "n = 1.38 on 1.52", 0, 0.01260079021463),
            Mirror("OPT-26", "Quarter-wave mirror (HL)^2 H on glass", "2.3, 1.38, 1.52", 2, 0.86154915877785),
            Mirror("OPT-27", "Quarter-wave mirror (HL)^8 H on glass", "2.3, 1.38, 1.52", 8, 0.99967581157225),
            new("OPT-28", "Free aluminium film of 30 nm", "1.0332 um: R, T, A")
            {
                Source = AluminiumData,
                Origin = ExpectedOrigin.Computed("characteristic matrix and recursion in Python, equal to 1e-14"),
                Parts = ["R", "T", "A"],
                Expected = [0.93076197075825, 0.0041567721289778, 0.065081257112768],
                Tolerance = 1e-11,
                Compute = () => Three(new LayeredFilm([new(Aluminium, 3e-8)]).Answer(1, 1.0332e-6).Across),
            },
            new(
                "OPT-29",
                "Thin metal sheet of half the impedance of space",
                "R, T, A = 1/4, 1/4, 1/2, the most that a sheet absorbs"
            )
            {
                Source = "Zeitschrift fuer Physik 91, 230 (1934), doi:10.1007/BF01341647",
                Origin = Origins.ClosedForm,
                Parts = ["R", "T", "A"],
                Expected = [0.25, 0.25, 0.5],
                Tolerance = 1e-5,
                Compute = () =>
                {
                    // Sheet admittance 2 in units of that of space: 2π n k 2 d/λ = 2 with n = k, n large and d small.
                    const double Thickness = 1e-6;
                    double n = Math.Sqrt(2 / (4 * Math.PI * Thickness));
                    return Three(new LayeredFilm([new(new ConstantIndex(n, n), Thickness)]).Answer(1, 1).Across);
                },
            },
        ];

    private static OutsideCheck[] Gratings() =>
        [
            new("OPT-40", "First order of a grating", "period 1.5 um at 1.064 um, normal incidence")
            {
                Source = "Principles of Optics (Cambridge, 7th ed. 1999), section 8.6.1",
                Origin = Origins.ClosedForm,
                Expected = [45.180699354397 * Math.PI / 180],
                Unit = "rad",
                Tolerance = 1e-12,
                Compute = () =>
                {
                    Vec3 d = FirstOrder();
                    return [Math.Atan2(d.X, d.Z)];
                },
            },
            new("OPT-41", "Push of a grating that passes all light in its first order", "F_n, F_t over I A/c")
            {
                Source = "balance of momentum: b - d",
                Origin = Origins.ClosedForm,
                Parts = ["F_n", "F_t"],
                Expected = [0.29512680415395, -0.70933333333333],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    Vec3 push = Vec3.UnitZ - FirstOrder();
                    return [push.Z, push.X];
                },
            },
            new("OPT-42", "Push of a free lossless film", "n = 2, quarter wave: 2 R = 0.72 I A/c")
            {
                Source = "balance of momentum: 1 + R - T",
                Origin = Origins.ClosedForm,
                Expected = [0.72],
                Tolerance = 1e-12,
                Compute = () =>
                {
                    FilmShares s = new FilmTable(new([new(new ConstantIndex(2), 1e-6 / 8)]), 1e-6).At(1).Unpolarised(1);
                    return [1 + s.Reflected - s.Passed];
                },
            },
        ];

    private static Vec3 FirstOrder() =>
        GratingOrder.Direction(Vec3.UnitZ, -Vec3.UnitZ, Vec3.UnitX, 1, 1.064 / 1.5, passes: true)!.Value;

    private static OutsideCheck Index(string id, string name, double micrometres, double expected, string source) =>
        new(id, $"Index of {name}", FormattableString.Invariant($"{micrometres} um"))
        {
            Source = source,
            Origin = ExpectedOrigin.Computed(
                "the formula with coefficients read in an open collection of optical constants, NumPy 1.24.2"
            ),
            Expected = [expected],
            Tolerance = 1e-12,
            Compute = () => [IndexTable.Find(name)!.Index.At(1e-6 * micrometres).Real],
        };

    private static OutsideCheck Slab(
        string id,
        string quantity,
        string inputs,
        double n,
        double opticalWaves,
        double expected,
        double tolerance
    ) =>
        new(id, quantity, inputs)
        {
            Source = QuarterWaves,
            Origin = Origins.ClosedForm,
            Expected = [expected],
            Size = expected == 0 ? 1 : null,
            Tolerance = tolerance,
            Compute = () =>
                [new LayeredFilm([new(new ConstantIndex(n), opticalWaves / n)]).Answer(1, 1).Across.Reflected],
        };

    // (HL)^n H on glass, or a single L where n is zero.
    private static OutsideCheck Mirror(string id, string quantity, string inputs, int pairs, double expected) =>
        new(id, quantity, inputs)
        {
            Source = QuarterWaves,
            Origin = Origins.ClosedForm,
            Expected = [expected],
            Tolerance = 1e-11,
            Compute = () =>
            {
                FilmLayer high = new(new ConstantIndex(2.3), 0.25 / 2.3);
                FilmLayer low = new(new ConstantIndex(1.38), 0.25 / 1.38);
                IEnumerable<FilmLayer> layers =
                    pairs == 0 ? [low] : Enumerable.Range(0, pairs).SelectMany(_ => new[] { high, low }).Append(high);
                return [new LayeredFilm(layers, behind: new ConstantIndex(1.52)).Answer(1, 1).Across.Reflected];
            },
        };

    private static FilmAnswer Bare(double cosine, RefractiveIndex behind, double wavelengthMetres = 1e-6) =>
        new LayeredFilm([], behind: behind).Answer(cosine, wavelengthMetres);

    private static double[] Both(in FilmAnswer answer) => [answer.Across.Reflected, answer.Along.Reflected];

    private static double[] Three(in FilmShares s) => [s.Reflected, s.Passed, s.Absorbed];
}
