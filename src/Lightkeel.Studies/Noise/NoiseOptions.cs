using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Noise;

/// <summary>The options of the noise study.</summary>
internal static class NoiseOptions
{
    private static readonly StudyOption<IOpenDesign> Design = Option.Design();

    private static readonly StudyOption<double> Loss = Option.Number(
        "loss",
        "Loss probability of a boost that may be spent: sets the allowed spectrum and the budget."
    ) with
    {
        Default = "1e-3",
        Minimum = 1e-8,
        Maximum = 0.9,
    };

    private static readonly StudyOption<long> Rides = Option.Integer(
        "rides",
        "Reduced rides of a ball in its well, to hold against the averaged answer; 0 for none."
    ) with
    {
        Default = "200",
        Minimum = 0,
        Maximum = 1_000_000,
    };

    private static readonly StudyOption<long> FullRides = Option.Integer(
        "full-rides",
        "Rides of the full equations in six degrees of freedom; slow, 0 for none."
    ) with
    {
        Default = "0",
        Minimum = 0,
        Maximum = 100_000,
    };

    private static readonly StudyOption<long> Rare = Option.Integer(
        "rare",
        "Estimates a rare loss by splitting with so many paths alive (200 is usual); 0 for not."
    ) with
    {
        Default = "0",
        Minimum = 0,
        Maximum = 100_000,
    };

    private static readonly StudyOption<long> Repetitions = Option.Integer(
        "repetitions",
        "Independent repetitions of the splitting; they make its interval."
    ) with
    {
        Default = "12",
        Minimum = 4,
        Maximum = 1000,
    };

    private static readonly StudyOption<double> Sensing = Option.Quantity(
        "sensing",
        "Time that a steering loop takes to sense and act beside the light's way there and back.",
        "s"
    ) with
    {
        Default = "0 s",
        Minimum = 0,
    };

    private static readonly StudyOption<long> Tolerance = Option.Integer(
        "tolerance",
        "Base points of a tolerance study over the [[scatter]] sections, a power of two; it computes N (d + 2) designs of d numbers. 0 for none."
    ) with
    {
        Default = "0",
        Minimum = 0,
        Maximum = 65_536,
    };

    /// <summary>All of them.</summary>
    public static IReadOnlyList<StudyOption> All { get; } =
    [
        Design,
        Loss,
        Rides,
        FullRides,
        Rare,
        Repetitions,
        Sensing,
        Tolerance,
        EngineChoice.Option,
        .. CampaignOptions.All,
    ];

    /// <summary>The input that the values make.</summary>
    /// <exception cref="InputRefusedException">They do not go together.</exception>
    public static NoiseInput Read(StudyRequest request)
    {
        long rare = request.ValueOr(Rare, 0);
        if (rare is > 0 and < 20)
        {
            throw new InputRefusedException(Rare.Written, $"{rare} paths are too few", "give 0, or 20 and more");
        }
        long tolerance = request.ValueOr(Tolerance, 0);
        if (tolerance == 1 || (tolerance & (tolerance - 1)) != 0)
        {
            throw new InputRefusedException(
                Tolerance.Written,
                $"{tolerance} is no power of two above one",
                "give 0, or 16, 32, 64 …"
            );
        }
        if (request.Has(CampaignOptions.Archive) && tolerance == 0)
        {
            throw new InputRefusedException(
                CampaignOptions.Archive.Written,
                "keeps tolerance studies, but none is asked for",
                "add --tolerance, or leave it out"
            );
        }
        return new((OpenedDesign)request.Value(Design), request.ValueOr(EngineChoice.Option, "auto"))
        {
            LossProbability = request.ValueOr(Loss, 1e-3),
            Rides = (int)request.ValueOr(Rides, 200),
            FullRides = (int)request.ValueOr(FullRides, 0),
            Particles = (int)rare,
            Repetitions = (int)request.ValueOr(Repetitions, 12),
            SensingSeconds = request.ValueOr(Sensing, 0),
            ToleranceSamples = (int)tolerance,
        };
    }
}
