using Lightkeel.Physics.Optics.Indices;

namespace Lightkeel.Physics.Materials;

/// <summary>The refractive index of a material with where it is printed.</summary>
/// <param name="Index">The index.</param>
/// <param name="Source">The publication.</param>
/// <param name="Provenance">How far it was followed there.</param>
/// <param name="Remark">What must be known to use it.</param>
public sealed record SourcedIndex(RefractiveIndex Index, string Source, Provenance Provenance, string Remark);

/// <summary>Published refractive indices of film materials, by the names of <see cref="MaterialTable"/> and a few of their own.</summary>
/// <remarks>
/// Coefficients and rows were read in an open collection of optical constants in the public domain, which transcribes the
/// publications named; the publications themselves were not at hand. A film that was deposited otherwise has another index.
/// </remarks>
public static class IndexTable
{
    private const double Micrometre = 1e-6;
    private const string Transparent =
        "absorption is not in the source and is taken as none: state `extinction` where heat matters";

    private static readonly Dictionary<string, SourcedIndex> ByName = new(StringComparer.Ordinal)
    {
        ["silicon-nitride"] = Fit(
            0.31,
            5.504,
            1,
            [new(3.0249, 0.1353406), new(40314, 1239.842)],
            "Optics Letters 40, 4823 (2015), doi:10.1364/OL.40.004823"
        ),
        ["fused-silica"] = Fit(
            0.21,
            6.7,
            1,
            [new(0.6961663, 0.0684043), new(0.4079426, 0.1162414), new(0.8974794, 9.896161)],
            "Journal of the Optical Society of America 55, 1205 (1965), doi:10.1364/JOSA.55.001205"
        ),
        ["sapphire"] = Fit(
            0.2,
            5,
            1,
            [new(1.4313493, 0.0726631), new(0.65054713, 0.1193242), new(5.3414021, 18.028251)],
            "Handbook of Laser Science and Technology IV, Optical Materials part 2 (CRC, 1986), p. 30, ordinary ray"
        ),
        ["magnesium-fluoride"] = Fit(
            0.2,
            7,
            1,
            [new(0.48755108, 0.04338408), new(0.39875031, 0.09461442), new(2.3120353, 23.793604)],
            "Applied Optics 23, 1980 (1984), doi:10.1364/AO.23.001980, ordinary ray"
        ),
        ["titanium-dioxide"] = new(
            new SellmeierIndex(
                0.43 * Micrometre,
                1.53 * Micrometre,
                5.913,
                [new(0.2441, Math.Sqrt(0.0803))],
                overSquare: true
            ),
            "Journal of the Optical Society of America 41, 416 (1951), doi:10.1364/JOSA.41.000416, rutile, ordinary ray",
            Provenance.Read,
            "crystal: evaporated films have a lower index; " + Transparent
        ),
        ["silicon"] = Table(
            SiliconRows,
            "Journal of Physical and Chemical Reference Data 9, 561 (1980), doi:10.1063/1.555624, 293 K",
            "crystal at 293 K, straight lines between the rows; " + Transparent
        ),
        ["aluminium"] = Table(
            AluminiumRows,
            "Applied Optics 34, 4755 (1995), doi:10.1364/AO.34.004755, evaporated film",
            "straight lines between the rows"
        ),
        ["silver"] = Table(
            SilverRows,
            "Physical Review B 6, 4370 (1972), doi:10.1103/PhysRevB.6.4370",
            "room temperature, straight lines between the rows; n is known to 0.02 only, so is the absorption"
        ),
        ["gold"] = Table(
            GoldRows,
            "Physical Review B 6, 4370 (1972), doi:10.1103/PhysRevB.6.4370",
            "room temperature, straight lines between the rows; n is known to 0.02 only, so is the absorption"
        ),
    };

    /// <summary>The names that have an index, in order.</summary>
    public static IReadOnlyList<string> Names { get; } = [.. ByName.Keys.Order(StringComparer.Ordinal)];

    private static (double, double, double)[] AluminiumRows =>
        [
            (0.30996, 0.28003, 3.7081),
            (0.32628, 0.31474, 3.9165),
            (0.36466, 0.39877, 4.3957),
            (0.41328, 0.52135, 5.0008),
            (0.4428, 0.6079, 5.3676),
            (0.47687, 0.7278, 5.7781),
            (0.5166, 0.8734, 6.2418),
            (0.56357, 1.0728, 6.7839),
            (0.61993, 1.366, 7.4052),
            (0.65225, 1.5724, 7.7354),
            (0.68881, 1.8301, 8.0601),
            (0.72932, 2.1606, 8.3565),
            (0.77491, 2.6154, 8.4914),
            (0.79478, 2.7675, 8.3866),
            (0.81569, 2.7668, 8.2573),
            (0.83774, 2.6945, 8.1878),
            (0.88561, 2.2802, 8.1134),
            (0.91166, 1.9739, 8.3058),
            (0.93928, 1.6784, 8.597),
            (0.96863, 1.4867, 9.0655),
            (0.99988, 1.4359, 9.4939),
            (1.0332, 1.3998, 9.8914),
            (1.1271, 1.3281, 10.969),
            (1.2399, 1.3157, 12.245),
            (1.3776, 1.3899, 13.784),
            (1.5498, 1.5782, 15.656),
            (1.7712, 1.9205, 17.991),
            (2.0664, 2.4738, 20.982),
            (2.4797, 3.3372, 25.004),
            (3.0996, 4.7097, 30.737),
            (4.1328, 7.0796, 39.826),
            (5.166, 9.558, 48.593),
        ];

    private static (double, double, double)[] SilverRows =>
        [
            (0.3009, 1.34, 0.964),
            (0.3107, 1.13, 0.616),
            (0.3204, 0.81, 0.392),
            (0.3315, 0.17, 0.829),
            (0.3425, 0.14, 1.142),
            (0.3542, 0.1, 1.419),
            (0.3679, 0.07, 1.657),
            (0.3815, 0.05, 1.864),
            (0.3974, 0.05, 2.07),
            (0.4133, 0.05, 2.275),
            (0.4305, 0.04, 2.462),
            (0.4509, 0.04, 2.657),
            (0.4714, 0.05, 2.869),
            (0.4959, 0.05, 3.093),
            (0.5209, 0.05, 3.324),
            (0.5486, 0.06, 3.586),
            (0.5821, 0.05, 3.858),
            (0.6168, 0.06, 4.152),
            (0.6595, 0.05, 4.483),
            (0.7045, 0.04, 4.838),
            (0.756, 0.03, 5.242),
            (0.8211, 0.04, 5.727),
            (0.892, 0.04, 6.312),
            (0.984, 0.04, 6.992),
            (1.088, 0.04, 7.795),
            (1.216, 0.09, 8.828),
            (1.393, 0.13, 10.1),
            (1.61, 0.15, 11.85),
            (1.937, 0.24, 14.08),
        ];

    private static (double, double, double)[] GoldRows =>
        [
            (0.3009, 1.53, 1.889),
            (0.3107, 1.53, 1.893),
            (0.3204, 1.54, 1.898),
            (0.3315, 1.48, 1.883),
            (0.3425, 1.48, 1.871),
            (0.3542, 1.5, 1.866),
            (0.3679, 1.48, 1.895),
            (0.3815, 1.46, 1.933),
            (0.3974, 1.47, 1.952),
            (0.4133, 1.46, 1.958),
            (0.4305, 1.45, 1.948),
            (0.4509, 1.38, 1.914),
            (0.4714, 1.31, 1.849),
            (0.4959, 1.04, 1.833),
            (0.5209, 0.62, 2.081),
            (0.5486, 0.43, 2.455),
            (0.5821, 0.29, 2.863),
            (0.6168, 0.21, 3.272),
            (0.6595, 0.14, 3.697),
            (0.7045, 0.13, 4.103),
            (0.756, 0.14, 4.542),
            (0.8211, 0.16, 5.083),
            (0.892, 0.17, 5.663),
            (0.984, 0.22, 6.35),
            (1.088, 0.27, 7.15),
            (1.216, 0.35, 8.145),
            (1.393, 0.43, 9.519),
            (1.61, 0.56, 11.21),
            (1.937, 0.92, 13.78),
        ];

    private static (double, double, double)[] SiliconRows =>
        [
            (1.2, 3.5167, 0),
            (1.22, 3.5133, 0),
            (1.24, 3.5102, 0),
            (1.26, 3.5072, 0),
            (1.28, 3.5043, 0),
            (1.3, 3.5016, 0),
            (1.32, 3.499, 0),
            (1.34, 3.4965, 0),
            (1.36, 3.4941, 0),
            (1.38, 3.4918, 0),
            (1.4, 3.4896, 0),
            (1.45, 3.4845, 0),
            (1.5, 3.4799, 0),
            (1.55, 3.4757, 0),
            (1.6, 3.4719, 0),
            (1.65, 3.4684, 0),
            (1.7, 3.4653, 0),
            (1.8, 3.4597, 0),
            (1.9, 3.455, 0),
            (2.0, 3.451, 0),
            (2.25, 3.4431, 0),
            (2.5, 3.4375, 0),
            (2.75, 3.4334, 0),
            (3.0, 3.4302, 0),
            (4.0, 3.4229, 0),
            (5.0, 3.4195, 0),
        ];

    /// <summary>The index of a material, or null when the table has none.</summary>
    public static SourcedIndex? Find(string name) => ByName.GetValueOrDefault(name);

    private static SourcedIndex Fit(
        double from,
        double to,
        double constant,
        IReadOnlyList<DispersionTerm> terms,
        string source
    ) =>
        new(
            new SellmeierIndex(from * Micrometre, to * Micrometre, constant, terms),
            source,
            Provenance.Read,
            Transparent
        );

    private static SourcedIndex Table((double Wavelength, double N, double K)[] rows, string source, string remark) =>
        new(
            new TabulatedIndex([.. rows.Select(r => new IndexRow(r.Wavelength * Micrometre, r.N, r.K))]),
            source,
            Provenance.Read,
            remark
        );
}
