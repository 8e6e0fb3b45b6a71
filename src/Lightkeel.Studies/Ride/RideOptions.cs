using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>The options of the ride study.</summary>
internal static class RideOptions
{
    private static readonly StudyOption<IOpenDesign> Design = Option.Design();

    private static readonly StudyOption<long> Rides = Option.Integer(
        "rides",
        "Flies an ensemble of rides, numbered from 0."
    ) with
    {
        Minimum = 1,
        Maximum = RideEnsemble.MostRides,
    };

    private static readonly StudyOption<long> Number = Option.Integer(
        "ride",
        "Flies one ride of an ensemble by its number, with its noise and its scatter. Without it, one ride with the noise of ride 0 and the design's own start."
    ) with
    {
        Minimum = 0,
        Maximum = RideEnsemble.MostRides - 1,
    };

    private static readonly StudyOption<string> Scatter = Option.Text(
        "scatter",
        "Lets a number of the design differ from ride to ride: its path, a tilde, and normal, truncated-normal, uniform or triangular with a spread.",
        "PATH~normal(SPREAD)"
    ) with
    {
        IsRepeatable = true,
    };

    private static readonly StudyOption<bool> Calm = Option.Flag("calm", "Leaves noises and drop-outs out.");

    private static readonly StudyOption<string> Stepping = Option.Choice(
        "steps",
        "How steps are chosen: adaptive, or fixed; auto takes fixed steps where there is noise.",
        "auto",
        "adaptive",
        "fixed"
    ) with
    {
        Default = "auto",
    };

    internal static readonly StudyOption<double> Step = Option.Quantity("step", "Length of fixed steps.", "s") with
    {
        Minimum = 1e-12,
    };

    private static readonly StudyOption<string> Order = Option.Choice(
        "order",
        "Order of fixed steps; auto takes 4, but 2 for ensembles whose noise asks for steps much shorter than the motion needs.",
        "auto",
        "2",
        "4"
    ) with
    {
        Default = "auto",
    };

    private static readonly StudyOption<double> Tolerance = Option.Number(
        "tolerance",
        "Local error of adaptive steps, relative to each variable or its natural size."
    ) with
    {
        Default = "1e-9",
        Minimum = 1e-14,
        Maximum = 1e-3,
    };

    private static readonly StudyOption<long> StepLimit = Option.Integer("step-limit", "Most steps of one ride.") with
    {
        Default = "10000000",
        Minimum = 1,
    };

    private static readonly StudyOption<double> RecordEvery = Option.Quantity(
        "record-every",
        "Time between records of a single ride; chosen from the fastest motion without it.",
        "s"
    ) with
    {
        Minimum = 1e-12,
    };

    private static readonly StudyOption<bool> NoConvergence = Option.Flag(
        "no-convergence",
        "Leaves out the twins, with finer steps and with forces of another accuracy, that tell what both do to the ride."
    );

    /// <summary>All of them.</summary>
    public static IReadOnlyList<StudyOption> All { get; } =
    [
        Design,
        Rides,
        Number,
        Scatter,
        Calm,
        Stepping,
        Step,
        Order,
        Tolerance,
        StepLimit,
        RecordEvery,
        NoConvergence,
        EngineChoice.RideOption,
        EngineChoice.AtlasCacheOption,
        .. CampaignOptions.All,
    ];

    /// <summary>Whether an ensemble is asked for, not one ride.</summary>
    public static bool AsksForMany(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.Has(Rides);
    }

    /// <summary>The input that the values make.</summary>
    /// <exception cref="InputRefusedException">They do not go together.</exception>
    public static RideInput Read(StudyRequest request)
    {
        if (request.Has(Rides) && request.Has(Number))
        {
            throw new InputRefusedException(
                Number.Written,
                "flies one ride, but --rides asks for many",
                "give one of the two"
            );
        }
        if (request.Has(CampaignOptions.Archive) && !request.Has(Rides))
        {
            throw new InputRefusedException(
                CampaignOptions.Archive.Written,
                "keeps ensembles, but one ride is asked for",
                "add --rides, or leave it out"
            );
        }
        if (request.Has(Scatter) && !request.Has(Rides) && !request.Has(Number))
        {
            throw new InputRefusedException(
                Scatter.Written,
                "lets a number differ from ride to ride, but one ride from the design's own start is asked for",
                "add --rides N, or --ride K for one ride of the ensemble"
            );
        }
        string stepping = request.ValueOr(Stepping, "auto");
        if (request.Has(Step) && stepping == "adaptive")
        {
            throw new InputRefusedException(
                Step.Written,
                "is the length of fixed steps, but --steps asks for adaptive ones",
                "give one of the two, or --tolerance"
            );
        }
        return new((OpenedDesign)request.Value(Design), request.ValueOr(EngineChoice.RideOption, "auto"))
        {
            Rides = request.Has(Rides) ? request.Value(Rides) : null,
            RideNumber = request.Has(Number) ? (ulong)request.Value(Number) : 0,
            IsScattered = request.Has(Number),
            Stepping = stepping switch
            {
                "adaptive" => RideStepping.Adaptive,
                "fixed" => RideStepping.Fixed,
                _ => RideStepping.Automatic,
            },
            StepSeconds = request.Has(Step) ? request.Value(Step) : null,
            Order = request.ValueOr(Order, "auto") switch
            {
                "2" => 2,
                "4" => 4,
                _ => null,
            },
            Tolerance = request.ValueOr(Tolerance, 1e-9),
            StepLimit = request.ValueOr(StepLimit, 10_000_000),
            RecordEverySeconds = request.Has(RecordEvery) ? request.Value(RecordEvery) : null,
            IsCalm = request.Value(Calm),
            AtlasCacheFolder = request.Has(EngineChoice.AtlasCacheOption)
                ? request.Value(EngineChoice.AtlasCacheOption)
                : null,
            WithConvergence = !request.Value(NoConvergence),
            Scatters = [.. request.Values(Scatter).Select(ScatterPlan.Read)],
        };
    }
}
