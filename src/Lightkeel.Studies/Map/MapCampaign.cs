using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>What the pieces of a map depend on, and how a cell is written down in an archive.</summary>
internal static class MapCampaign
{
    /// <summary>Raise it with every change that moves a bit of a cell or of a boundary.</summary>
    private const int ResultVersion = 1;

    // Columns of a cell, in their order.
    private const int X = 0;
    private const int Y = 1;
    private const int Z = 2;
    private const int Outcome = 3;
    private const int Engine = 4;
    private const int Growth = 5;
    private const int Frequency = 6;
    private const int Clearance = 7;
    private const int Rate = 8;
    private const int Divergence = 9;
    private const int Flutter = 10;

    private static readonly StabilityVerdict[] Verdicts = Enum.GetValues<StabilityVerdict>();

    // Why a cell has no verdict: the words of the archive and those of the map.
    private static readonly (string Word, string Kind)[] Obstacles =
    [
        ("more-than-one-bounce", MapWords.Bounces),
        ("more-than-one-meeting", MapWords.Meetings),
        ("refused", MapWords.Refused),
        ("unavailable", MapWords.Unavailable),
    ];

    private static readonly string[] Engines = ["surface quadrature", "rays", "reference", "atlas"];

    /// <summary>How a cell is written down.</summary>
    public static RowLayout Layout { get; } =
        new(
            RowColumn.Number("x"),
            RowColumn.Number("y"),
            RowColumn.Number("z"),
            RowColumn.Word("outcome", [.. Verdicts.Select(v => v.Word()), .. Obstacles.Select(o => o.Word)]),
            RowColumn.Word("engine", ["none", .. Engines.Select(e => e.Replace(' ', '-'))]),
            RowColumn.Number("growth_rate_1_s"),
            RowColumn.Number("frequency_Hz"),
            RowColumn.Number("clearance"),
            RowColumn.Number("rate_1_s"),
            RowColumn.Number("divergence_indicator"),
            RowColumn.Number("flutter_indicator")
        );

    /// <summary>What is asked: all cells, slice by slice, row by row.</summary>
    public static CampaignPlan Cells(MapInput input, StudyContext context)
    {
        long cells = (long)input.X.Values.Count * input.Y.Values.Count * (input.Z?.Values.Count ?? 1);
        return PlanOf(input, context, "cells", cells, Layout);
    }

    /// <summary>What is asked of a step that follows the cells: items of a few numbers each.</summary>
    /// <param name="input">The input.</param>
    /// <param name="context">The run.</param>
    /// <param name="stage">What its items are called; no other step of the map has that name.</param>
    /// <param name="items">How many items.</param>
    /// <param name="headers">Their numbers.</param>
    public static CampaignPlan Step(
        MapInput input,
        StudyContext context,
        string stage,
        long items,
        params IReadOnlyList<string> headers
    ) => PlanOf(input, context, stage, items, NumberItems.Layout(headers));

    /// <summary>Writes a cell. Of an obstacle the kind is kept: its words follow from the cell again.</summary>
    /// <param name="row">Where.</param>
    /// <param name="at">Values of the axes; not a number for an axis that there is not.</param>
    /// <param name="cell">The cell.</param>
    public static void Write(Span<byte> row, (double X, double Y, double Z) at, in MapCell cell)
    {
        RowLayout layout = Layout;
        layout.Put(row, X, at.X);
        layout.Put(row, Y, at.Y);
        layout.Put(row, Z, at.Z);
        layout.PutWord(row, Outcome, OutcomeOf(cell));
        layout.PutWord(row, Engine, cell.Engine is { } engine ? 1 + Place(Engines, engine) : 0);
        layout.Put(row, Growth, cell.Verdict is null ? double.NaN : cell.GrowthPerSecond);
        layout.Put(row, Frequency, cell.Verdict is null ? double.NaN : cell.FrequencyHertz);
        layout.Put(row, Clearance, cell.Verdict is null ? double.NaN : cell.Clearance);
        layout.Put(row, Rate, cell.Verdict is null ? double.NaN : cell.RatePerSecond);
        layout.Put(row, Divergence, cell.Indicators?.Divergence ?? double.NaN);
        layout.Put(row, Flutter, cell.Indicators?.Flutter ?? double.NaN);
    }

    /// <summary>Reads a cell.</summary>
    public static MapCell Read(ReadOnlySpan<byte> row)
    {
        RowLayout layout = Layout;
        int outcome = layout.Word(row, Outcome);
        if (outcome >= Verdicts.Length)
        {
            return MapCell.Blocked(new(Obstacles[outcome - Verdicts.Length].Kind, ""));
        }
        (double divergence, double flutter) = (layout.Number(row, Divergence), layout.Number(row, Flutter));
        int engine = layout.Word(row, Engine);
        return new(
            Verdicts[outcome],
            layout.Number(row, Growth),
            layout.Number(row, Frequency),
            layout.Number(row, Clearance),
            double.IsNaN(divergence) ? null : new(divergence, flutter),
            layout.Number(row, Rate),
            null
        )
        {
            Engine = engine == 0 ? null : Engines[engine - 1],
        };
    }

    /// <summary>Why a cell has no verdict; null when it has one.</summary>
    public static string? FailureOf(ReadOnlySpan<byte> row) =>
        Layout.Word(row, Outcome) is int outcome && outcome >= Verdicts.Length
            ? Obstacles[outcome - Verdicts.Length].Word
            : null;

    /// <summary>Settings that the cells depend on: every property of the input but the design.</summary>
    internal static IReadOnlyList<(string Name, string Value)> SettingsOf(MapInput input) =>
        [
            (nameof(MapInput.X), input.X.ToText()),
            (nameof(MapInput.Y), input.Y.ToText()),
            (nameof(MapInput.Z), input.Z?.ToText() ?? ""),
            (nameof(MapInput.Engine), input.Engine),
        ];

    private static int OutcomeOf(in MapCell cell) =>
        cell.Verdict is { } verdict
            ? Array.IndexOf(Verdicts, verdict)
            : Verdicts.Length + Place([.. Obstacles.Select(o => o.Kind)], cell.Obstacle!.Kind);

    private static int Place(string[] words, string word) =>
        Array.IndexOf(words, word) is int place and >= 0
            ? place
            : throw new InvalidOperationException($"\"{word}\" has no word in the archive.");

    private static CampaignPlan PlanOf(
        MapInput input,
        StudyContext context,
        string stage,
        long items,
        RowLayout layout
    ) =>
        DesignCampaign.PlanOf(
            input.Design,
            DesignCampaign.QuestionOf(
                input.Design,
                "map",
                ResultVersion,
                [.. SettingsOf(input), ("step", stage)],
                context.Accuracy,
                layout
            ),
            items
        ) with
        {
            Stage = stage,
            Keeping = CampaignKeeping.WhenLong,
        };
}
