using System.Globalization;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Ride;

/// <summary>What the rides of an ensemble depend on, and how a ride is written down in an archive.</summary>
internal static class RideCampaign
{
    /// <summary>Raise it with every change that moves a bit of a ride.</summary>
    private const int ResultVersion = 3;

    private static readonly RideEnding[] Endings = Enum.GetValues<RideEnding>();
    private static readonly RideEndReason[] Reasons = Enum.GetValues<RideEndReason>();

    // Columns of a ride, in their order.
    private const int Ending = 0;
    private const int Reason = 1;
    private const int Time = 2;
    private const int Largest = 3;
    private const int Speed = 4;
    private const int Direction = 5;

    /// <summary>Column of the offsets on the grid of times.</summary>
    public const int Offsets = 6;

    /// <summary>How a ride is written down.</summary>
    /// <param name="points">Instants of the grid of times.</param>
    public static RowLayout LayoutOf(int points) =>
        new(
            RowColumn.Word("outcome", [.. Endings.Select(RideWords.Of)]),
            RowColumn.Word("ended_by", [.. Reasons.Select(RideWords.Of)]),
            RowColumn.Number("time_s"),
            RowColumn.Number("max_offset_m"),
            RowColumn.Number("speed_m_s"),
            RowColumn.Number("direction_error_rad"),
            RowColumn.Series("offset_m", points)
        );

    /// <summary>What is asked: rides 0 to N − 1.</summary>
    public static CampaignPlan PlanOf(RideInput input, StudyContext context, long rides, int points) =>
        new(QuestionOf(input, context, "ride", LayoutOf(points)), rides, CampaignPlan.UsualBlock(rides))
        {
            Stage = "rides",
            IsLast = true,
            Title = input.Design.Title ?? "",
            DesignText = input.Design.Document.Text,
            DesignFile = File.Exists(input.Design.Document.Source) ? input.Design.Document.Source : null,
        };

    /// <summary>What is asked besides: what the integration of the first rides is worth, as JSON.</summary>
    /// <param name="rides">The plan of the rides.</param>
    /// <param name="input">The input.</param>
    /// <param name="twins">Of how many rides.</param>
    public static CampaignPlan WorthOf(CampaignPlan rides, RideInput input, long twins) =>
        rides with
        {
            Question = rides.Question with
            {
                Study = "ride-worth",
                Layout = new(RowColumn.Text("worth", 8192)),
                Settings =
                [
                    .. rides.Question.Settings,
                    (nameof(RideInput.WithConvergence), input.WithConvergence.ToString()),
                    ("rides", rides.Question.Layout.ToText()),
                    ("report", "3"),
                ],
            },
            Items = twins,
            Block = 1,
            Stage = "twins of rides",
        };

    /// <summary>Writes a ride.</summary>
    public static void Write(RowLayout layout, Span<byte> row, in FlownRide ride, ReadOnlySpan<float> offsets)
    {
        layout.PutWord(row, Ending, Array.IndexOf(Endings, ride.Ending));
        layout.PutWord(row, Reason, Array.IndexOf(Reasons, ride.Reason));
        layout.Put(row, Time, ride.TimeSeconds);
        layout.Put(row, Largest, ride.MaximumOffsetMetres);
        layout.Put(row, Speed, ride.SpeedMetresPerSecond);
        layout.Put(row, Direction, ride.DirectionErrorRadians);
        layout.Put(row, Offsets, offsets);
    }

    /// <summary>Reads a ride.</summary>
    public static FlownRide Read(RowLayout layout, long number, ReadOnlySpan<byte> row) =>
        new(
            (ulong)number,
            Endings[layout.Word(row, Ending)],
            Reasons[layout.Word(row, Reason)],
            layout.Number(row, Time),
            layout.Number(row, Largest),
            layout.Number(row, Speed),
            layout.Number(row, Direction)
        );

    /// <summary>Why a ride could not be computed to its end; null when it could.</summary>
    public static string? FailureOf(RowLayout layout, ReadOnlySpan<byte> row)
    {
        FlownRide ride = Read(layout, 0, row);
        return ride.Ending is RideEnding.Held or RideEnding.Lost ? null : RideWords.Of(ride.Reason);
    }

    /// <summary>Settings that the rides depend on: every property of the input but the design and the choice of rides.</summary>
    internal static IReadOnlyList<(string Name, string Value)> SettingsOf(RideInput input) =>
        [
            (nameof(RideInput.Engine), input.Engine),
            (nameof(RideInput.Stepping), input.Stepping.ToString()),
            (nameof(RideInput.StepSeconds), Text(input.StepSeconds)),
            (nameof(RideInput.Order), Text(input.Order)),
            (nameof(RideInput.Tolerance), Text(input.Tolerance)),
            (nameof(RideInput.StepLimit), Text(input.StepLimit)),
            (nameof(RideInput.IsCalm), input.IsCalm.ToString()),
            (nameof(RideInput.Scatters), string.Join('\n', input.Scatters.Select(TextOf))),
        ];

    private static CampaignQuestion QuestionOf(RideInput input, StudyContext context, string study, RowLayout layout) =>
        new()
        {
            Study = study,
            ResultVersion = ResultVersion,
            DesignSha256 = input.Design.Sha256,
            SideFiles = [.. input.Design.Document.SideFiles.Select(f => (f.Name, f.Sha256))],
            Settings = SettingsOf(input),
            Seed = context.Seed,
            Accuracy = context.Accuracy,
            Layout = layout,
        };

    private static string TextOf(ScatterDesign scatter) => $"{scatter.Path}~{scatter.Shape}({scatter.Spread})";

    private static string Text<T>(T? value) => string.Format(CultureInfo.InvariantCulture, "{0}", value);
}
