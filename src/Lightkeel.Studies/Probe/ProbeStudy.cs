using System.Text.Json.Serialization.Metadata;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Probe;

/// <summary>Input of <see cref="ProbeStudy"/>.</summary>
/// <param name="Model">Craft and beam.</param>
/// <param name="States">States, one or more.</param>
/// <param name="Engine">auto, quadrature or reference.</param>
public sealed record ProbeInput(DesignModel Model, IReadOnlyList<ProbeState> States, string Engine = "auto");

/// <summary>Force and torque of the light at given states of the craft.</summary>
public sealed class ProbeStudy : Study<ProbeInput, ProbeResult>
{
    private static readonly StudyOption<IOpenDesign> DesignOption = Option.Design();
    private static readonly StudyOption<string> StatesOption = Option.File(
        "states",
        "CSV table of states: x_m, y_m, tilt_x_rad, tilt_y_rad, and optionally spin_angle_rad, speed_m_s, vx_m_s, vy_m_s."
    ) with
    {
        IsRequired = true,
    };

    /// <inheritdoc/>
    public override StudyInfo Info { get; } =
        new("probe", "Light pressure at given states", "force and torque of the light at given states")
        {
            Help =
                "For each state of the table: force and torque about the centre of mass in beam axes, power intercepted and absorbed, and the relative error that the engine vouches for.\n\n"
                + "A state is the place of the centre of mass in the beam slice, two small tilts that form one rotation vector, a turn about the body axis before the tilt, the axial speed and the lateral velocity. A moving craft sees Doppler-shifted and aberrated light; force and power are those in the craft's rest frame.\n\n"
                + "A state whose geometry the engine cannot answer for (light would bounce twice, or parts would shade each other) has no number but a reason, and the exit code is 4.",
            Examples = [new("probe tern.toml --states states.csv --json", "forces at the states of a table, as JSON")],
            CitationKeys = ["solar-sailing-1999", "annalen-322-891"],
        };

    /// <inheritdoc/>
    public override IReadOnlyList<StudyOption> Options { get; } = [DesignOption, StatesOption, EngineChoice.Option];

    /// <inheritdoc/>
    protected override JsonTypeInfo<ProbeResult> ResultJson => ProbeJson.Default.ProbeResult;

    /// <inheritdoc/>
    protected override ProbeInput ReadInput(StudyRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        OpenedDesign design = (OpenedDesign)request.Value(DesignOption);
        return new(
            design.Model,
            ProbeState.ReadFile(request.Value(StatesOption)),
            request.ValueOr(EngineChoice.Option, "auto")
        );
    }

    /// <inheritdoc/>
    public override ProbeResult Run(ProbeInput input, StudyContext context)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(context);
        IPressureEngine engine = EngineChoice.Pick(input.Engine, input.Model, context.Accuracy);
        ProbedState[] states = new ProbedState[input.States.Count];
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = context.Threads,
            CancellationToken = context.Cancellation,
        };
        Parallel.For(0, states.Length, options, i => states[i] = Answer(engine, input.States[i]));
        return new()
        {
            Engine = engine.Name,
            Refused = states.Count(s => s.ForceNewtons is null),
            States = states,
        };
    }

    /// <inheritdoc/>
    protected override StudyPresentation Present(ProbeInput input, ProbeResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        ProbedState? refused = result.States.FirstOrDefault(s => s.ForceNewtons is null);
        return new()
        {
            Summary = new(Summary(result)),
            Warnings = Warnings(input),
            MakeTables = () => [Table(result)],
            Ending = refused is null ? StudyEnding.Done : StudyEnding.AccuracyNotReached,
            EndingReason = refused is null
                ? null
                : FormattableString.Invariant(
                    $"{result.Refused} of {result.States.Count} states have no number. The first: {refused.ForceReason}"
                ),
        };
    }

    private static ResultWarning[] Warnings(ProbeInput input)
    {
        LightRegime regime = LightRegime.Assess(input.Model.Craft);
        return
        [
            .. new[] { regime.StrayLightCaution, regime.HeatCaution }
                .OfType<string>()
                .Select(text => new ResultWarning("neglected-light", text)),
        ];
    }

    private static ProbedState Answer(IPressureEngine engine, ProbeState s)
    {
        ProbedState state = new()
        {
            XMetres = s.X,
            YMetres = s.Y,
            TiltXRadians = s.TiltX,
            TiltYRadians = s.TiltY,
            SpinAngleRadians = s.SpinAngle,
            SpeedMetresPerSecond = s.Speed,
            VelocityXMetresPerSecond = s.VelocityX,
            VelocityYMetresPerSecond = s.VelocityY,
        };
        try
        {
            PressureReading r = engine.Evaluate(s.Pose);
            return state with
            {
                ForceNewtons = Components(r.ForceNewtons),
                TorqueNewtonMetres = Components(r.TorqueNewtonMetres),
                InterceptedWatts = r.InterceptedWatts,
                AbsorbedWatts = r.AbsorbedWatts,
                RelativeError = r.RelativeError,
            };
        }
        catch (PressureUnavailableException e)
        {
            return state with
            {
                ForceReason = e.Message,
                TorqueReason = e.Message,
                InterceptedReason = e.Message,
                AbsorbedReason = e.Message,
                RelativeErrorReason = e.Message,
            };
        }
    }

    private static double[] Components(Vec3 v) => [v.X, v.Y, v.Z];

    private static SummarySection Summary(ProbeResult result)
    {
        const int Shown = 12;
        List<SummaryRow> rows = [new("engine", result.Engine), SummaryRow.Of("states", result.States.Count)];
        foreach (ProbedState s in result.States.Take(Shown))
        {
            string at = PlaceOf(s);
            string value = s is { ForceNewtons: { } f, TorqueNewtonMetres: { } t }
                ? FormattableString.Invariant(
                    $"F ({f[0]:G6}, {f[1]:G6}, {f[2]:G6}) N   T ({t[0]:G6}, {t[1]:G6}, {t[2]:G6}) N m"
                )
                : "no number: " + s.ForceReason;
            rows.Add(new(at, value));
        }
        return new("Light pressure")
        {
            Rows = rows,
            Paragraphs =
                result.States.Count > Shown
                    ?
                    [
                        FormattableString.Invariant(
                            $"The first {Shown} of {result.States.Count} states; --json or --out give all."
                        ),
                    ]
                    : [],
        };
    }

    private static string PlaceOf(ProbedState s)
    {
        string place = FormattableString.Invariant(
            $"x {s.XMetres:G4} m, y {s.YMetres:G4} m, tilt {s.TiltXRadians:G4}, {s.TiltYRadians:G4} rad"
        );
        string turn =
            s.SpinAngleRadians != 0 ? FormattableString.Invariant($", turned {s.SpinAngleRadians:G4} rad") : "";
        string speed =
            s.SpeedMetresPerSecond != 0 ? FormattableString.Invariant($", {s.SpeedMetresPerSecond:G4} m/s") : "";
        bool drifts = s.VelocityXMetresPerSecond != 0 || s.VelocityYMetresPerSecond != 0;
        string drift = drifts
            ? FormattableString.Invariant(
                $", across {s.VelocityXMetresPerSecond:G4}, {s.VelocityYMetresPerSecond:G4} m/s"
            )
            : "";
        return place + turn + speed + drift;
    }

    private static ResultTable Table(ProbeResult result)
    {
        IReadOnlyList<ProbedState> s = result.States;
        TableColumn Of(string header, Func<ProbedState, double?> value) =>
            TableColumn.Numbers(header, [.. s.Select(value)]);
        return new(
            "states",
            "Light pressure at the given states",
            [
                Of("x_m", p => p.XMetres),
                Of("y_m", p => p.YMetres),
                Of("tilt_x_rad", p => p.TiltXRadians),
                Of("tilt_y_rad", p => p.TiltYRadians),
                Of("spin_angle_rad", p => p.SpinAngleRadians),
                Of("speed_m_s", p => p.SpeedMetresPerSecond),
                Of("vx_m_s", p => p.VelocityXMetresPerSecond),
                Of("vy_m_s", p => p.VelocityYMetresPerSecond),
                Of("force_x_N", p => p.ForceNewtons?[0]),
                Of("force_y_N", p => p.ForceNewtons?[1]),
                Of("force_z_N", p => p.ForceNewtons?[2]),
                Of("torque_x_Nm", p => p.TorqueNewtonMetres?[0]),
                Of("torque_y_Nm", p => p.TorqueNewtonMetres?[1]),
                Of("torque_z_Nm", p => p.TorqueNewtonMetres?[2]),
                Of("intercepted_W", p => p.InterceptedWatts),
                Of("absorbed_W", p => p.AbsorbedWatts),
                Of("relative_error", p => p.RelativeError),
                TableColumn.Texts("reason", [.. s.Select(p => p.ForceReason)]),
            ]
        );
    }
}
