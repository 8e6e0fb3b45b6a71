using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Everything that the rides of one study share. Ride k of a seed is the same wherever and whenever it is flown.</summary>
internal sealed class RidePlan
{
    // A ride of an ensemble that is flown alone must take the engine that it takes among the others, however many these are.
    private const long RidesOfAnEnsemble = RideEnsemble.MostRides;

    private readonly RideInput _input;
    private readonly StudyContext _context;
    private readonly Lock _documents = new();
    private readonly AtlasFolder? _atlases;

    public RidePlan(RideInput input, StudyContext context)
    {
        (_input, _context) = (input, context);
        DesignModel model = input.Design.Model;
        _atlases = input.AtlasCacheFolder is { } folder ? AtlasFolder.Open(folder) : null;
        IPressureEngine direct = EngineChoice.Build(input.Engine, model, context.Accuracy);
        Model = RideModel.Of(model, direct);
        double? limit = input.StepSeconds is { } step ? 0.5 / step : null;
        Noise = input.IsCalm ? NoisePlan.Of([], [], 1) : NoiseModel.PlanOf(model, limit);
        Scatter = ScatterPlan.Of(input.Design.Document, [.. model.Design.Scatters, .. input.Scatters]);
        Steps = RideSteps.Choose(input, model, Model, Noise);
        bool isOfMany = (input.Rides is not null || input.IsScattered) && Scatter.ChangesStartOnly;
        Engine = RideEngine.For(input.Engine, Model, Demand(isOfMany ? RidesOfAnEnsemble : 1));
        Model = Model with { Setup = Model.Setup with { Engine = Engine } };
    }

    /// <summary>What was amiss with kept atlases, in words.</summary>
    public IReadOnlyList<string> AtlasNotes => _atlases?.Notes ?? [];

    public IPressureEngine Engine { get; }

    public RideModel Model { get; }

    public NoisePlan Noise { get; }

    public ScatterPlan Scatter { get; }

    public RideSteps Steps { get; }

    /// <summary>Offset that counts as off the beam, m.</summary>
    public double LostAtMetres => Model.Limits.LostAtMetres ?? _input.Design.Model.Beam.Profile.ExtentMetres;

    /// <summary>One ride, ready to be flown.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="isScattered">Whether it starts as in an ensemble, or as the design says.</param>
    public RideModel Prepare(ulong number, bool isScattered)
    {
        RideModel model = isScattered && Scatter.Count > 0 ? Scattered(number) : Model;
        return model with
        {
            Setup = model.Setup with
            {
                Disturbance = Noise.BeamOf(_context.Seed, number),
                Imbalance = Noise.ImbalanceOf(_context.Seed, number),
            },
        };
    }

    /// <summary>Flies one ride.</summary>
    /// <exception cref="InputRefusedException">Start, limits and steps do not make a ride.</exception>
    public static RideResult Fly(RideModel ride, RideMethod method, CancellationToken cancellation) =>
        DesignModel.Guarded(
            "ride",
            () => Physics.Motion.Ride.Fly(ride.Setup, ride.Start, ride.Limits, method, cancellation)
        );

    /// <summary>What finer steps change of a ride; a ride that was interrupted or could not be computed has none.</summary>
    public RideConvergence? Compare(RideResult flown, ulong number, bool isScattered, RideMethod method)
    {
        if (!_input.WithConvergence || flown.Outcome.Ending is not (RideEnding.Held or RideEnding.Lost))
        {
            return null;
        }
        RideModel ride = Prepare(number, isScattered);
        RideConvergence found = RideConvergence.Of(
            flown,
            ride.Setup,
            ride.Start,
            ride.Limits,
            method,
            _context.Cancellation
        );
        return found.Fine.Outcome.Ending == RideEnding.Interrupted ? null : found;
    }

    /// <summary>What another accuracy of the forces changes of a ride; a ride without a decided end has none.</summary>
    public EngineTwin? CompareEngine(RideResult flown, ulong number, bool isScattered, RideMethod method)
    {
        if (!_input.WithConvergence || flown.Outcome.Ending is not (RideEnding.Held or RideEnding.Lost))
        {
            return null;
        }
        RideModel ride = Prepare(number, isScattered);
        IPressureEngine engine = RideEngine.TwinOf(ride, Demand(1));
        RideResult twin = Fly(ride with { Setup = ride.Setup with { Engine = engine } }, method, _context.Cancellation);
        return twin.Outcome.Ending == RideEnding.Interrupted
            ? null
            : new(engine, RideConvergence.Between(flown, twin), LateralDistance(flown, twin));
    }

    /// <summary>How a ride of the ensemble ends with finer steps and with other forces.</summary>
    public (RideEnding Steps, RideEnding Forces) TwinEndings(ulong number, RideMethod method)
    {
        RideModel ride = Prepare(number, isScattered: true);
        RideResult finer = Fly(ride, RideConvergence.Finer(method), _context.Cancellation);
        IPressureEngine engine = RideEngine.TwinOf(ride, Demand(1));
        RideModel again = Prepare(number, isScattered: true);
        RideResult other = Fly(
            again with
            {
                Setup = again.Setup with { Engine = engine },
            },
            method,
            _context.Cancellation
        );
        return (finer.Outcome.Ending, other.Outcome.Ending);
    }

    /// <summary>Distance of the end points of two rides across the beam, m.</summary>
    public static double LateralDistance(RideResult a, RideResult b)
    {
        Vec3 between = a.Final.State.PositionMetres - b.Final.State.PositionMetres;
        return double.Hypot(between.X, between.Y);
    }

    private RideDemand Demand(long rides) =>
        new(
            rides * RideEngine.EvaluationsOf(Model, Steps.Method),
            Noise,
            _context.Accuracy,
            _context.Threads,
            _atlases
        );

    private RideModel Scattered(ulong number)
    {
        Design design;
        // A document reads its side files when first asked; one thread at a time.
        lock (_documents)
        {
            design = Scatter.Draw(_context.Seed, number);
        }
        if (Scatter.ChangesStartOnly)
        {
            return Model with { Start = RideModel.StartOf(design.Start) };
        }
        DesignModel model = DesignModel.Build(design);
        RideModel ride = RideModel.Of(model, EngineChoice.Build(_input.Engine, model, _context.Accuracy));
        return ride with { Setup = ride.Setup with { Engine = RideEngine.For(_input.Engine, ride, Demand(1)) } };
    }
}

/// <summary>The same ride on forces of another accuracy.</summary>
/// <param name="Engine">Where these came from.</param>
/// <param name="Change">How the rides differ.</param>
/// <param name="OffsetDifferenceMetres">Distance of the end points across the beam, m.</param>
internal sealed record EngineTwin(IPressureEngine Engine, RideConvergence Change, double OffsetDifferenceMetres);
