using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>Which starts are held: the basin over two numbers of the start, and what the release may do.</summary>
public sealed class CaptureStudy : Study<CaptureInput, CaptureResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<string> XOption = Axis("x", "Number of the start along x and its values");
    private static readonly StudyOption<string> YOption = Axis("y", "Number of the start along y and its values");

    private static readonly StudyOption<double> TimeOption = Option.Quantity(
        "time",
        "For how long the craft must be held, coordinate time. Without it the design's ride, cut to 50 swings of its slowest motion.",
        "s"
    ) with
    {
        Minimum = 1e-9,
    };

    private static readonly StudyOption<long> LevelsOption = Option.Integer(
        "levels",
        "How often a cell on the boundary is split in four."
    ) with
    {
        Default = "2",
        Minimum = 0,
        Maximum = 6,
    };

    private static readonly StudyOption<double> BoundaryOption = Option.Number(
        "boundary-tolerance",
        "Width to which each point of the boundary is searched, over the length of its axis."
    ) with
    {
        Default = "5e-4",
        Minimum = 1e-12,
        Maximum = 0.5,
    };

    private static readonly StudyOption<double> ToleranceOption = Option.Number(
        "tolerance",
        "Local error of the rides, relative to each variable or its natural size."
    ) with
    {
        Default = "1e-7",
        Minimum = 1e-14,
        Maximum = 1e-3,
    };

    private static readonly StudyOption<string> AboutOption = Option.Choice(
        "about",
        "Start about which the release requirement is written: the design's own, or the trim (no offset, no tilt, no motion across).",
        "start",
        "trim"
    ) with
    {
        Default = "start",
    };

    private static readonly StudyOption<bool> NoisyOption = Option.Flag(
        "noisy",
        "Flies every start through the design's noise and drop-outs, those of ride 0 of the seed; without it the beam is calm."
    );

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new(
            "capture",
            "Basin of capture",
            "which starts are held, over two numbers of the start, and what the release may do"
        )
        {
            Help =
                "Flies a ride from every point of a grid over two numbers of the start (start.offset.x, start.tilt.y, start.velocity.x, start.spin and so on; --x PATH=A..B:N with units) and tells which are held for the stated time. Cells on the boundary are split in four, level by level, and every crossed edge of the finest lattice is then halved on rides to the asked width. Without axes a craft whose lateral force has a potential is shown over offset and lateral velocity, sized by rim and escape speed, any other over offset and tilt, sized by rides along the axes; where the light can no longer be computed before the craft is lost, the axes stay within what can be computed, and the release requirement then ends with them.\n\n"
                + "held_fraction is the share of the area of the asked rectangle that is held; held_fraction_low and _high leave out or count in every cell that the boundary still crosses, so a boundary that stays ragged at the finest level shows as a wide gap. A pocket that touches no edge of the lattice is not seen; take more points. What the result says of held starts is sampled by rides, except where certificate says proven.\n\n"
                + "The release requirement is the largest box, and the largest ellipse, about the design's start in cells that are held together with all their neighbours. For a ball about its centre of mass the energy gives a proof by interval arithmetic; its assumptions are listed.",
            Examples =
            [
                new("capture tern.toml", "offset against lateral velocity, sized by the well"),
                new(
                    "capture tern-c.toml --x \"start.offset.x=-20 cm..20 cm:33\" --y \"start.tilt.y=-4 deg..4 deg:33\" --time \"10 s\" --out figures",
                    "offset against tilt of a cone, with figures"
                ),
                new("capture tern.toml --require 'held_fraction_low > 0.3'", "exit code 3 where less is held"),
            ],
            CitationKeys = ["solar-sailing-1999", "interval-analysis-2009"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } =
    [
        DesignOption,
        XOption,
        YOption,
        TimeOption,
        LevelsOption,
        BoundaryOption,
        ToleranceOption,
        AboutOption,
        NoisyOption,
        EngineChoice.RideOption,
        .. CampaignOptions.All,
    ];

    /// <inheritdoc/>
    protected override JsonTypeInfo<CaptureResult> ResultJson => CaptureJson.Default.CaptureResult;

    /// <inheritdoc/>
    protected override CaptureInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        OpenedDesign design = (OpenedDesign)request.Value(DesignOption);
        List<InputFault> faults = [];
        DesignAxis? Read(StudyOption<string> option)
        {
            try
            {
                return request.Has(option)
                    ? DesignAxis.Read(design.Document, option.Written, request.Value(option))
                    : null;
            }
            catch (InputRefusedException e)
            {
                faults.AddRange(e.Faults);
                return null;
            }
        }
        (DesignAxis? x, DesignAxis? y) = (Read(XOption), Read(YOption));
        return faults.Count > 0
            ? throw new InputRefusedException(faults)
            : new(design, x, y, request.ValueOr(EngineChoice.RideOption, "auto"))
            {
                HoldSeconds = request.Has(TimeOption) ? request.Value(TimeOption) : null,
                Levels = (int)request.ValueOr(LevelsOption, 2),
                BoundaryTolerance = request.ValueOr(BoundaryOption, 5e-4),
                RideTolerance = request.ValueOr(ToleranceOption, 1e-7),
                Center = request.ValueOr(AboutOption, "start") == "trim" ? ReleaseCenter.Trim : ReleaseCenter.Start,
                IsNoisy = request.Value(NoisyOption),
            };
    }

    /// <inheritdoc/>
    public override CaptureResult Run(CaptureInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        CaptureAxes.RequireSound(input);
        return CaptureRun.Of(input, context);
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(CaptureInput input, CaptureResult result)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(result);
        bool vague = result.BoundaryMoved > CaptureSummary.MovedShare * result.BoundaryChecked;
        return new()
        {
            Summary = CaptureSummary.Of(input, result),
            Warnings = CaptureSummary.Warnings(input, result),
            MakeFigures = () => CaptureFigures.Of(input, result),
            MakeTables = () => CaptureTables.Of(result),
            Ending =
                result.IsStopped ? StudyEnding.Interrupted
                : vague ? StudyEnding.AccuracyNotReached
                : StudyEnding.Done,
            EndingReason =
                result.IsStopped ? "Stopped before the boundary was traced; what was flown until then is kept."
                : vague
                    ? FormattableString.Invariant(
                        $"With steps a hundred times finer {result.BoundaryMoved} of {result.BoundaryChecked} points of the boundary move by more than twice the asked width; ask for a smaller --tolerance or a larger --boundary-tolerance."
                    )
                : null,
        };
    }

    private static StudyOption<string> Axis(string name, string help) =>
        Option.Text(name, help + ": PATH=A..B:N with units; chosen without it.", "PATH=A..B:N");
}
