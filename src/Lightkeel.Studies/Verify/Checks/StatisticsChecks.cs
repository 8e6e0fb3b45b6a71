using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Sensitivity;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Proportions, reference distributions and variance-based sensitivity.</summary>
internal static class StatisticsChecks
{
    private const string Newcombe =
        "Statistics in Medicine 17, 857 (1998), table I, doi:10.1002/(SICI)1097-0258(19980430)17:8<857::AID-SIM777>3.0.CO;2-E";

    private const string Ishigami =
        "First International Symposium on Uncertainty Modeling and Analysis, 398 (1990), doi:10.1109/ISUMA.1990.151285";

    private static readonly string[] BothIntervals = ["Wilson lower", "Wilson upper", "exact lower", "exact upper"];

    public static CheckModule Module() =>
        new(
            "statistics",
            "Statistics and sensitivity",
            [.. Proportions(), .. Quantiles(), .. SampleChecks.All(), .. Sensitivity()]
        );

    private static IEnumerable<OutsideCheck> Proportions() =>
        [
            new("STA-01", "90 % intervals of 4 of 20")
            {
                Source = "NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1",
                Origin = Origins.Scipy,
                Parts = ["exact lower", "exact upper", "Wilson lower", "Wilson upper"],
                Expected = [0.071353884308618193, 0.40102811733197452, 0.09311801658121098, 0.37837668583536782],
                Tolerance = 1e-12,
                Compute = () =>
                    [.. Ends(Proportion.ClopperPearson(4, 20, 0.9)), .. Ends(Proportion.Wilson(4, 20, 0.9))],
            },
            new("STA-17", "90 % exact interval of 4 of 20, the digits that the handbook prints")
            {
                Source = "NIST/SEMATECH e-Handbook of Statistical Methods, section 7.2.4.1",
                Origin = ExpectedOrigin.Read(
                    "0.071354 and 0.401029 in a stored copy of the page; its last digit is off by one"
                ),
                Parts = ["lower", "upper"],
                Expected = [0.071354, 0.401029],
                Tolerance = 3e-6,
                Compute = () => Ends(Proportion.ClopperPearson(4, 20, 0.9)),
            },
            new("STA-02", "95 % intervals of 81 of 263")
            {
                Source = Newcombe,
                Origin = Origins.Scipy,
                Parts = BothIntervals,
                Expected = [0.25528851987827422, 0.36620957698280004, 0.25273674558527132, 0.36762192260135146],
                Tolerance = 1e-12,
                Compute = () => Both(81, 263),
            },
            new("STA-03", "95 % intervals of 15 of 148")
            {
                Source = Newcombe,
                Origin = Origins.Scipy,
                Parts = BothIntervals,
                Expected = [0.062386399530736283, 0.16048724172330803, 0.057844010083448576, 0.16165049034947901],
                Tolerance = 1e-12,
                Compute = () => Both(15, 148),
            },
            new("STA-04", "Upper ends of the 95 % intervals of 0 of 10")
            {
                Source = "Statistical Science 16, 101 (2001), doi:10.1214/ss/1009213286",
                Origin = Origins.Scipy,
                Parts = ["Wilson", "exact"],
                Expected = [0.2775327998628892, 0.30849710781876077],
                Tolerance = 1e-12,
                Compute = () => [Proportion.Wilson(0, 10).Upper, Proportion.ClopperPearson(0, 10).Upper],
            },
            new("STA-05", "95 % Wilson interval of 950 of 1000")
            {
                Source = "Journal of the American Statistical Association 22, 209 (1927)",
                Origin = Origins.Scipy,
                Parts = ["lower", "upper"],
                Expected = [0.93468617975574919, 0.96186973760725114],
                Tolerance = 1e-12,
                Compute = () => Ends(Proportion.Wilson(950, 1000)),
            },
            new("STA-06", "Trials without failure that show a reliability at 95 % confidence")
            {
                Source = "Annals of Mathematical Statistics 12, 91 (1941): success-run theorem",
                Origin = Origins.ClosedForm,
                Parts = ["0.95", "0.99"],
                Expected = [59, 299],
                Tolerance = 0,
                Compute = () => [Proportion.ZeroFailureTrials(0.95, 0.95), Proportion.ZeroFailureTrials(0.99, 0.95)],
            },
            new("STA-07", "Upper 95 % bound of the failures with 0 of 100", "1 - 0.05^(1/100)")
            {
                Source = "binomial distribution",
                Origin = Origins.ClosedForm,
                Expected = [0.029513049607039935],
                Tolerance = 1e-12,
                Compute = () => [Proportion.ZeroFailureUpperBound(100)],
            },
            new("STA-08", "95 % exact interval of one in a billion")
            {
                Source = "binomial distribution",
                Origin = Origins.Mpmath,
                Parts = ["lower", "upper"],
                Expected = [2.531780798396938e-11, 5.5716433782031153e-9],
                Tolerance = 1e-11,
                Compute = () => Ends(Proportion.ClopperPearson(1, 1_000_000_000)),
            },
        ];

    private static IEnumerable<OutsideCheck> Quantiles() =>
        [
            new("STA-09", "Quantiles of standard tables")
            {
                Source = "standard tables: 1.95996, 2.2281, 18.307",
                Origin = Origins.Mpmath,
                Parts = ["normal, 0.975", "Student of 10, 0.975", "chi-square of 10, 0.95"],
                Expected = [1.959963984540054, 2.2281388519862742, 18.307038053275146],
                Tolerance = 1e-12,
                Compute = () =>
                    [StandardNormal.Quantile(0.975), StudentT.Quantile(0.975, 10), ChiSquare.Quantile(0.95, 10)],
            },
            new("STA-10", "Regularised incomplete beta function")
            {
                Source = "Digital Library of Mathematical Functions, 8.17",
                Origin = Origins.Mpmath,
                Parts = ["(0.5, 0.5; 0.1)", "(2, 3; 0.4)", "(81, 183; 0.3)", "(0.5, 20; 0.001)"],
                Expected = [0.20483276469913346, 0.5248, 0.41146159809547846, 0.1575838139836385],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        IncompleteBeta.Regularized(0.5, 0.5, 0.1),
                        IncompleteBeta.Regularized(2, 3, 0.4),
                        IncompleteBeta.Regularized(81, 183, 0.3),
                        IncompleteBeta.Regularized(0.5, 20, 0.001),
                    ],
            },
            new("STA-11", "Quantiles of the beta distribution")
            {
                Source = "scipy.stats.beta",
                Origin = Origins.Scipy,
                Parts = ["(4, 17), 0.05", "(1e5, 3), 0.025", "(0.5, 0.5), 1e-6"],
                Expected = [0.071353884308618207, 0.99992775645546805, 2.4674011002703099e-12],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        IncompleteBeta.Inverse(4, 17, 0.05),
                        IncompleteBeta.Inverse(1e5, 3, 0.025),
                        IncompleteBeta.Inverse(0.5, 0.5, 1e-6),
                    ],
            },
            new("STA-12", "Quantiles of chi-square")
            {
                Source = "scipy.stats.chi2",
                Origin = Origins.Scipy,
                Parts = ["2, 0.025", "3.7, 0.975", "200.5, 0.005", "2000, 0.995"],
                Expected = [0.050635615968579753, 10.618055248352459, 152.67664052237322, 2166.6643003915583],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        ChiSquare.Quantile(0.025, 2),
                        ChiSquare.Quantile(0.975, 3.7),
                        ChiSquare.Quantile(0.005, 200.5),
                        ChiSquare.Quantile(0.995, 2000),
                    ],
            },
            new("STA-13", "Quantiles of Student's distribution")
            {
                Source = "Digital Library of Mathematical Functions, 8.17",
                Origin = Origins.Mpmath,
                Parts = ["10, 0.975", "3, 0.6", "34, 0.995", "1.5, 0.01"],
                Expected = [2.2281388519862742, 0.27667066233268985, 2.7283943670707199, -11.197316179568398],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        StudentT.Quantile(0.975, 10),
                        StudentT.Quantile(0.6, 3),
                        StudentT.Quantile(0.995, 34),
                        StudentT.Quantile(0.01, 1.5),
                    ],
            },
            new("STA-14", "Exact distribution of the Kolmogorov-Smirnov distance")
            {
                Source = "scipy.stats.kstwo",
                Origin = Origins.Scipy,
                Parts = ["5, 0.3", "20, 0.1", "100, 0.1", "100, 0.05"],
                Expected = [0.664, 0.97625509459215498, 0.25269275700638738, 0.95321597106357248],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        KolmogorovDistribution.Survival(5, 0.3),
                        KolmogorovDistribution.Survival(20, 0.1),
                        KolmogorovDistribution.Survival(100, 0.1),
                        KolmogorovDistribution.Survival(100, 0.05),
                    ],
            },
            new("STA-15", "Limit distribution of Kolmogorov")
            {
                Source = "scipy.special.kolmogorov",
                Origin = Origins.Scipy,
                Parts = ["0.5", "0.9"],
                Expected = [0.96394524366487511, 0.39273070794065429],
                Tolerance = 1e-13,
                Compute = () => [KolmogorovDistribution.LimitSurvival(0.5), KolmogorovDistribution.LimitSurvival(0.9)],
            },
            new("STA-16", "Critical distances of Kolmogorov at 5 %")
            {
                Source = "standard tables: 1.358, 0.2941",
                Origin = Origins.Scipy,
                Parts = ["limit", "20"],
                Expected = [1.3580986393225507, 0.29407531443432922],
                Tolerance = 1e-12,
                Compute = () =>
                    [
                        KolmogorovDistribution.LimitCriticalValue(0.05),
                        KolmogorovDistribution.CriticalDistance(20, 0.05),
                    ],
            },
        ];

    private static IEnumerable<OutsideCheck> Sensitivity()
    {
        Lazy<SobolIndices> indices = new(Estimated);
        return
        [
            new("STA-40", "Mean and variance of the Ishigami function", "4096 base points, a = 7, b = 0.1")
            {
                Source = Ishigami,
                Origin = Origins.Mpmath,
                Parts = ["mean", "variance"],
                Expected = [3.5, 13.844587940719257],
                Tolerance = 5e-3,
                Compute = () => [indices.Value.Mean, indices.Value.Variance],
            },
            new("STA-41", "First-order indices of the Ishigami function", "4096 base points")
            {
                Source = Ishigami,
                Origin = Origins.Mpmath,
                Parts = ["x1", "x2", "x3"],
                Expected = [0.31390519114781145, 0.44241114479004081, 0],
                Size = 1,
                Tolerance = 0.01,
                Compute = () => Each(indices.Value, i => i.FirstOrder),
            },
            new("STA-42", "Total indices of the Ishigami function", "4096 base points")
            {
                Source = Ishigami,
                Origin = Origins.Mpmath,
                Parts = ["x1", "x2", "x3"],
                Expected = [0.55758885520995919, 0.44241114479004081, 0.24368366406214773],
                Size = 1,
                Tolerance = 0.01,
                Compute = () => Each(indices.Value, i => i.Total),
            },
        ];
    }

    private static SobolIndices Estimated()
    {
        RandomDraws draws = new(6, 0, "verify.sensitivity");
        SensitivityDesign design = new(4096, new SobolSequence(6, draws));
        double[] outputs = new double[design.RowCount];
        double[] x = new double[3];
        for (long row = 0; row < outputs.Length; row++)
        {
            design.Row(row, x);
            double x1 = Math.PI * (2 * x[0] - 1);
            double x2 = Math.PI * (2 * x[1] - 1);
            double x3 = Math.PI * (2 * x[2] - 1);
            outputs[row] = Math.Sin(x1) + 7 * Math.Pow(Math.Sin(x2), 2) + 0.1 * Math.Pow(x3, 4) * Math.Sin(x1);
        }
        return SobolIndices.Estimate(design, outputs, draws, 0.95, 100);
    }

    private static double[] Each(SobolIndices indices, Func<SensitivityIndex, double> value) =>
        [value(indices.Inputs[0]), value(indices.Inputs[1]), value(indices.Inputs[2])];

    private static double[] Ends(ConfidenceInterval interval) => [interval.Lower, interval.Upper];

    private static double[] Both(long successes, long trials) =>
        [.. Ends(Proportion.Wilson(successes, trials)), .. Ends(Proportion.ClopperPearson(successes, trials))];
}
