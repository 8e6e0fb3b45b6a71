using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Output;

namespace Lightkeel.Hosts.TestProgram;

/// <summary>What the made-up study adds up: terms of a halving series of lengths, slowly if asked.</summary>
internal sealed record ArtificialInput(double LengthMetres, long Count, string Behaviour, int Rows);

internal sealed record ArtificialTerm(
    [property: JsonPropertyName("index")] int Index,
    [property: JsonPropertyName("length_m")] double LengthMetres
);

internal sealed record ArtificialResult
{
    [JsonPropertyName("total_m")]
    public required double TotalMetres { get; init; }

    [JsonPropertyName("verdict")]
    public required string Verdict { get; init; }

    [JsonPropertyName("terms")]
    public required IReadOnlyList<ArtificialTerm> Terms { get; init; }

    [JsonPropertyName("depth_J")]
    public double? DepthJoules { get; init; }

    [JsonPropertyName("depth_J_reason")]
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? DepthReason { get; init; }

    [JsonIgnore]
    public bool IsPartial { get; init; }
}

[JsonSerializable(typeof(ArtificialResult))]
internal sealed partial class ArtificialJson : JsonSerializerContext;

internal sealed class ArtificialStudy : Study<ArtificialInput, ArtificialResult>
{
    private static readonly StudyOption<IOpenDesign> Design = Option.Design();

    private static readonly StudyOption<double> Length = Option.Quantity("length", "First length.", "m") with
    {
        Default = "1 m",
        Minimum = 0,
    };

    private static readonly StudyOption<long> Count = Option.Integer("count", "How many terms.") with
    {
        Default = "4",
        Minimum = 1,
        Maximum = 1000,
    };

    private static readonly StudyOption<long> Rows = Option.Integer("rows", "Rows of the table.") with
    {
        Default = "4",
    };

    private static readonly StudyOption<string> Behaviour = Option.Choice(
        "behaviour",
        "How the run goes.",
        "usual",
        "refuse",
        "inaccurate",
        "unavailable",
        "not-finite",
        "crash",
        "slow"
    ) with
    {
        Default = "usual",
    };

    public override StudyInfo Info { get; } =
        new("halve", "Halving lengths", "add up lengths that halve")
        {
            Help = "Adds up lengths of which each is half of the one before.\n\nInvented for tests.",
            Examples = [new("halve design.toml --count 8", "Eight terms.")],
            CitationKeys = ["euclid-elements-ix-35"],
        };

    public override IReadOnlyList<StudyOption> Options => [Design, Length, Count, Rows, Behaviour];

    protected override JsonTypeInfo<ArtificialResult> ResultJson => ArtificialJson.Default.ArtificialResult;

    public override ArtificialResult Run(ArtificialInput input, StudyContext context)
    {
        List<ArtificialTerm> terms = [];
        for (int i = 0; i < input.Count && !context.Cancellation.IsCancellationRequested; i++)
        {
            terms.Add(new(i, input.LengthMetres / Math.Pow(2, i)));
            context.Progress.Report("terms", i + 1, input.Count);
            if (input.Behaviour == "slow")
            {
                context.Cancellation.WaitHandle.WaitOne(20);
            }
        }
        return input.Behaviour switch
        {
            "refuse" => throw new InputRefusedException("sail.radius", "is too small", "at least 1 cm"),
            "unavailable" => throw new PressureUnavailableException("The craft shades itself; use ray tracing."),
            "crash" => throw new InvalidOperationException("A fault of the program."),
            _ => new()
            {
                TotalMetres = input.Behaviour == "not-finite" ? double.NaN : terms.Sum(term => term.LengthMetres),
                Verdict = "damped",
                Terms = terms,
                DepthReason = "not a trap",
                IsPartial = terms.Count < input.Count,
            },
        };
    }

    protected override ArtificialInput ReadInput(StudyRequest request) =>
        new(request.Value(Length), request.Value(Count), request.Value(Behaviour), (int)request.Value(Rows));

    protected override StudyPresentation Present(ArtificialInput input, ArtificialResult result) =>
        new()
        {
            Summary = new(
                new SummarySection("Lengths")
                {
                    Rows =
                    [
                        SummaryRow.Of("total", result.TotalMetres, "m"),
                        SummaryRow.OfPossible("depth", result.DepthJoules, "J", result.DepthReason),
                    ],
                    Paragraphs = ["Made up for tests."],
                }
            ),
            Warnings = [new("made-up", "These numbers mean nothing.", "sail.radius")],
            MakeFigures = () => [FigureOf(result)],
            MakeTables = () => [TableOf(input.Rows)],
            Ending =
                result.IsPartial ? StudyEnding.Interrupted
                : input.Behaviour == "inaccurate" ? StudyEnding.AccuracyNotReached
                : StudyEnding.Done,
            EndingReason =
                result.IsPartial ? "Some terms are missing."
                : input.Behaviour == "inaccurate" ? "1e-6 was reached, 1e-8 asked for."
                : null,
        };

    private static Figure FigureOf(ArtificialResult result) =>
        new()
        {
            Name = "terms",
            Title = "Halving lengths",
            Panels =
            [
                new()
                {
                    X = new("term"),
                    Y = new("length", "m"),
                    Items =
                    [
                        new ScatterSeries(
                            [.. result.Terms.Select(term => (double)term.Index)],
                            [.. result.Terms.Select(term => term.LengthMetres)]
                        ),
                    ],
                },
            ],
        };

    private static ResultTable TableOf(int rows) =>
        new(
            "terms",
            "Terms",
            [
                TableColumn.Integers("index", [.. Enumerable.Range(0, rows).Select(i => (long)i)]),
                TableColumn.Numbers("length_m", [.. Enumerable.Range(0, rows).Select(i => 1.0 / (1 + i))]),
            ]
        );
}

/// <summary>A study without a design.</summary>
internal sealed class PlainStudy : Study<string, ArtificialResult>
{
    private static readonly StudyOption<string> Words = Option.Text("words", "Words.") with
    {
        IsPositional = true,
        IsRepeatable = true,
    };

    public override StudyInfo Info { get; } = new("plain", "Plain", "take words and no design");

    public override IReadOnlyList<StudyOption> Options => [Words];

    protected override JsonTypeInfo<ArtificialResult> ResultJson => ArtificialJson.Default.ArtificialResult;

    public override ArtificialResult Run(string input, StudyContext context)
    {
        context.Cancellation.ThrowIfCancellationRequested();
        return new()
        {
            TotalMetres = input.Length,
            Verdict = input,
            Terms = [],
            DepthReason = "none",
        };
    }

    protected override string ReadInput(StudyRequest request) => string.Join(' ', request.Values(Words));

    protected override StudyPresentation Present(string input, ArtificialResult result) => new();
}
