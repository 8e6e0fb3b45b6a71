using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>What the parts of the study share: the calm boost, the resonances along it, the well, the noises as they meet the craft.</summary>
internal sealed record NoiseScene
{
    private const int TrackPoints = 25;

    public required DesignModel Model { get; init; }

    public required IPressureEngine Engine { get; init; }

    public required RideModel Ride { get; init; }

    /// <summary>The boost on the axis, without noise.</summary>
    public required RideResult Boost { get; init; }

    public required IReadOnlyList<ResonanceInstant> Track { get; init; }

    public required RidingAssessment Assessment { get; init; }

    public required BeamWell Well { get; init; }

    public required WellStart Start { get; init; }

    public required IReadOnlyList<NoiseSource> Sources { get; init; }

    /// <summary>Largest radius of the craft, m.</summary>
    public double CraftRadiusMetres => Model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);

    /// <summary>Length of the boost, s.</summary>
    public double DurationSeconds => Boost.Final.TimeSeconds;

    /// <summary>Offset that counts as off the beam, m.</summary>
    public double LostAtMetres => Ride.Limits.LostAtMetres ?? Model.Beam.Profile.ExtentMetres;

    /// <summary>Range from the director at a distance from the start, m; null without a director.</summary>
    public double? RangeAt(double distance) => Model.Design.Beam.Director is { } d ? d.StandoffMetres + distance : null;

    /// <summary>Mean of the squared range over the boost, m²; null without a director.</summary>
    public double? MeanSquareRange => WellNoiseModel.MeanSquareRange(Ride, Boost);

    /// <summary>Metres squared at the craft, of one unit squared of a noise, over the boost.</summary>
    public double FactorOf(NoiseQuantity quantity) => WellNoiseModel.FactorOf(Ride, Boost, quantity);

    /// <summary>The noises as a craft in a well meets them.</summary>
    public IReadOnlyList<WellNoise> WellNoises => WellNoiseModel.Of(Ride, Boost, Sources);

    public static WellAction ActionOf(NoiseQuantity quantity) => WellNoiseModel.ActionOf(quantity);

    public static NoiseScene Of(NoiseInput input, StudyContext context)
    {
        DesignModel model = input.Design.Model;
        IPressureEngine engine = EngineChoice.Build(input.Engine, model, context.Accuracy);
        RideModel ride = RideModel.Of(model, engine);
        RideResult boost = WellNoiseModel.CalmBoost(ride, context.Cancellation);
        StartDesign start = model.Design.Start;
        RidingAssessment assessment = RidingAssessment.Of(
            model.Craft,
            model.Beam,
            engine,
            start.SpinRadiansPerSecond,
            start.SpeedMetresPerSecond
        );
        return new()
        {
            Model = model,
            Engine = engine,
            Ride = ride,
            Boost = boost,
            Assessment = assessment,
            Track = ResonanceTrack.Of(
                model.Craft,
                model.Beam,
                new SurfaceQuadrature(model.Craft, model.Beam, Math.Max(context.Accuracy, 1e-8)),
                boost,
                TrackPoints
            ),
            Well = BeamWell.Measure(
                model.Craft,
                model.Beam,
                engine,
                ride.Limits.LostAtMetres,
                start.SpeedMetresPerSecond
            ),
            Start = WellNoiseModel.StartOf(start),
            Sources = [.. NoiseModel.SourcesOf(model.Design).Where(s => s.Spectrum.TotalVariance > 0)],
        };
    }
}
