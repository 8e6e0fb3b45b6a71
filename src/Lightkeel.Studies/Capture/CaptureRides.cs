using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>Flies starts of a design. The fate of a start depends on the start alone.</summary>
internal sealed class CaptureRides
{
    // As long as this many swings of the slowest mode is told apart from the ride of the design, which may take hours.
    private const double UsualSwings = 50;

    // With a dozen steps to a swing a limit that a swing just touches is missed by 1e-5 of it at most.
    private const int SamplesPerStep = 32;
    private readonly CaptureInput _input;
    private readonly StudyContext _context;
    private long _rides;

    private CaptureRides(CaptureInput input, StudyContext context, IPressureEngine engine, RideModel model)
    {
        (_input, _context, Engine, Model) = (input, context, engine, model);
        Method = new()
        {
            Tolerance = input.RideTolerance,
            FindPeaks = false,
            EventSamplesPerStep = SamplesPerStep,
        };
    }

    public IPressureEngine Engine { get; }

    /// <summary>The ride of the design, with the time asked for.</summary>
    public RideModel Model { get; private init; }

    public RideMethod Method { get; }

    /// <summary>Why the time is what it is.</summary>
    public required string HoldText { get; init; }

    /// <summary>How many rides were flown.</summary>
    public int Rides => checked((int)_rides);

    public static CaptureRides Prepare(CaptureInput input, StudyContext context)
    {
        DesignModel model = input.Design.Model;
        RideModel ride = RideModel.Of(model, EngineChoice.Build(input.Engine, model, context.Accuracy));
        (double hold, string text) = HoldTime(input, model, ride);
        ride = ride with { Limits = ride.Limits with { DurationSeconds = hold } };
        NoisePlan noise = input.IsNoisy ? NoiseModel.PlanOf(model) : NoisePlan.Of([], [], 1);
        IPressureEngine engine = CaptureLight.Build(input.Engine, ride, noise, context);
        RideSetup setup = ride.Setup with { Engine = engine };
        if (input.IsNoisy)
        {
            setup = setup with
            {
                Disturbance = noise.BeamOf(context.Seed, 0),
                Imbalance = noise.ImbalanceOf(context.Seed, 0),
            };
        }
        return new(input, context, engine, ride with { Setup = setup }) { HoldText = text };
    }

    /// <summary>Flies a start and counts it; not reached when the run was asked to stop.</summary>
    /// <param name="start">The start.</param>
    public StartFate Fly(RideStart start)
    {
        _rides++;
        return FateOf(start, 1, _context.Cancellation);
    }

    /// <summary>The fate of a start, flown to its end and not counted. Safe to ask from several threads.</summary>
    /// <param name="start">The start.</param>
    /// <param name="finer">How many times finer than asked.</param>
    public StartFate FateOf(RideStart start, double finer = 1) => FateOf(start, finer, CancellationToken.None);

    /// <summary>Counts rides of a campaign, flown now or before.</summary>
    public void Count(long rides) => _rides += rides;

    private StartFate FateOf(RideStart start, double finer, CancellationToken cancellation) =>
        StartFate.Of(
            Model.Setup,
            start,
            Model.Limits,
            finer == 1 ? Method : Method with { Tolerance = Math.Max(1e-14, Method.Tolerance / finer) },
            cancellation
        );

    private static (double Seconds, string Text) HoldTime(CaptureInput input, DesignModel model, RideModel ride)
    {
        double asked = ride.Limits.DurationSeconds;
        if (input.HoldSeconds is { } time)
        {
            return (time, "as asked for");
        }
        if (SlowestSwingHertz(model, ride) is not { } slowest || UsualSwings / slowest >= asked)
        {
            return (asked, "the duration of the design's ride");
        }
        double hold = RoundUp(UsualSwings / slowest);
        return hold < asked
            ? (
                hold,
                FormattableString.Invariant(
                    $"{UsualSwings:0} swings of the slowest motion, {slowest:G4} Hz; the design's ride lasts {asked:G6} s, give --time for more"
                )
            )
            : (asked, "the duration of the design's ride");
    }

    private static double? SlowestSwingHertz(DesignModel model, RideModel ride)
    {
        try
        {
            RidingAssessment assessment = RidingAssessment.Of(
                model.Craft,
                model.Beam,
                ride.Setup.Engine,
                ride.Start.SpinRadiansPerSecond,
                ride.Start.SpeedMetresPerSecond
            );
            double[] swings = [.. assessment.Report.Modes.Select(m => m.FrequencyHertz).Where(f => f > 0)];
            return swings.Length > 0 ? swings.Min() : null;
        }
        catch (Exception e) when (e is PressureUnavailableException or ArithmeticException)
        {
            return null;
        }
    }

    /// <summary>The next number up with two significant digits.</summary>
    internal static double RoundUp(double value)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Ceiling(value / power * (1 - 1e-12)) * power;
    }
}
