using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Sections;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Models.Quantities;

/// <summary>How a design is measured.</summary>
/// <param name="Accuracy">Requested relative accuracy of forces.</param>
/// <param name="Engine">auto, quadrature, rays or reference; auto takes rays where light meets the untilted craft more than once.</param>
/// <param name="EscapeCells">Cells of the mesh of the escape, 64 or more, even.</param>
/// <param name="RideTolerance">Tolerance of the steps of rides.</param>
/// <param name="Cancellation">Asks to stop.</param>
public sealed record MeasurementSettings(
    double Accuracy = 1e-8,
    string Engine = "auto",
    int EscapeCells = 128,
    double RideTolerance = 1e-9,
    CancellationToken Cancellation = default
)
{
    /// <summary>
    /// True to follow a round well no further than a glance at some dozens of places says that its rim lies: many times
    /// faster, and blind to a rim so thin that it lies between two of them. For exploring; what is reported is measured whole.
    /// </summary>
    public bool IsQuick { get; init; }
}

/// <summary>Measures one design, each part when it is first asked for and only once. Used by one thread.</summary>
/// <param name="model">The design with its models.</param>
/// <param name="settings">How.</param>
public sealed class DesignMeasurement(DesignModel model, MeasurementSettings settings)
{
    private const string NoWell = "no well: the light does not pull the craft back all around";
    private const int Glances = 32;
    private const double QuickTolerance = 10;
    private Measured<RidingAssessment>? _assessment;
    private Measured<LateralWell>? _well;
    private Measured<StraightBoost>? _boost;
    private Measured<EscapeEstimate>? _escape;
    private Measured<RideResult>? _ride;
    private Measured<double>? _film;

    /// <summary>The design with its models.</summary>
    public DesignModel Model { get; } = model;

    /// <summary>Name of the engine that gave the light pressure; null before it was asked.</summary>
    public string? EngineName { get; private set; }

    /// <summary>Trim and linear modes.</summary>
    public Measured<RidingAssessment> Assessment => _assessment ??= Guarded(Assess);

    /// <summary>The potential well.</summary>
    public Measured<LateralWell> Well => _well ??= Assessment.Then(a => Guarded(() => WellOf(a)));

    /// <summary>The straight boost.</summary>
    public Measured<StraightBoost> Boost => _boost ??= Assessment.Then(a => Guarded(() => BoostOf(a)));

    /// <summary>The escape from the well under the design's noise.</summary>
    public Measured<EscapeEstimate> Escape => _escape ??= Assessment.Then(a => Guarded(() => EscapeOf(a)));

    /// <summary>A ride of the full equations from the design's start, without noise.</summary>
    public Measured<RideResult> Ride => _ride ??= Assessment.Then(a => Guarded(() => RideOf(a)));

    /// <summary>Temperature of the hottest element of all films at the start of the boost, K.</summary>
    public Measured<double> FilmKelvin => _film ??= Assessment.Then(a => Guarded(() => HeatOf(a)));

    private static Measured<T> Guarded<T>(Func<Measured<T>> measure)
    {
        try
        {
            return measure();
        }
        catch (Exception e) when (e is PressureUnavailableException or ArithmeticException or InputRefusedException)
        {
            return Measured<T>.Missing(e.Message);
        }
    }

    private Measured<RidingAssessment> Assess()
    {
        IPressureEngine engine = EngineChoice.Pick(settings.Engine, Model, settings.Accuracy);
        EngineName = engine.Name;
        StartDesign start = Model.Design.Start;
        return new(
            RidingAssessment.Of(
                Model.Craft,
                Model.Beam,
                engine,
                start.SpinRadiansPerSecond,
                start.SpeedMetresPerSecond
            ),
            null
        );
    }

    private Measured<LateralWell> WellOf(RidingAssessment assessment)
    {
        CentralLight light = CentralLight.Of(Model.Craft);
        if (!light.HasPotential)
        {
            return Measured<LateralWell>.Missing("not a potential: " + light.Reason);
        }
        double radius = Model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        CraftPose bottom = assessment.Trim.Pose!.Value;
        double reach = Model.Beam.Profile.ExtentMetres + radius;
        if (settings.IsQuick && Model.Beam.Profile.IsAxisymmetric && bottom is { OffsetXMetres: 0, OffsetYMetres: 0 })
        {
            if (GlancedReach(assessment.Engine, bottom, reach) is not { } near)
            {
                return Measured<LateralWell>.Missing(NoWell);
            }
            reach = near;
        }
        LateralWell well = LateralWell.Measure(
            assessment.Engine,
            Model.Beam,
            new(bottom, reach) { ToleranceRatio = settings.IsQuick ? QuickTolerance : 1 }
        );
        double stiffness = -assessment.Report.Model.Jacobian[0][0];
        return well.RimMetres is null || !(stiffness > 0) ? Measured<LateralWell>.Missing(NoWell) : new(well, null);
    }

    // A little beyond where the force first turns from pulling back to pushing away; null where it does not.
    private static double? GlancedReach(IPressureEngine engine, in CraftPose bottom, double reach)
    {
        bool pulls = false;
        for (int i = 1; i <= Glances; i++)
        {
            double offset = reach * i / Glances;
            double force = engine.Evaluate(bottom with { OffsetXMetres = offset }).ForceNewtons.X;
            if (pulls && force > 0)
            {
                return Math.Min(reach, offset + 0.1 * reach / Glances);
            }
            pulls |= force < 0;
        }
        return null;
    }

    private Measured<StraightBoost> BoostOf(RidingAssessment assessment)
    {
        if (Model.Design.Surroundings.GravityMetresPerSecondSquared > 0)
        {
            return Measured<StraightBoost>.Missing("the craft hangs in gravity: it is a rig, not a boost");
        }
        if (!(assessment.Trim.Reading!.Value.ForceNewtons.Z > 0))
        {
            return Measured<StraightBoost>.Missing("the light does not push the craft forward");
        }
        RideModel ride = RideModel.Of(Model, assessment.Engine);
        return new(StraightBoost.Fly(ride, assessment.Trim.Pose!.Value, settings.Accuracy), null);
    }

    private Measured<EscapeEstimate> EscapeOf(RidingAssessment assessment)
    {
        NoiseSource[] sources = [.. NoiseModel.SourcesOf(Model.Design).Where(s => s.Spectrum.TotalVariance > 0)];
        if (sources.Length == 0)
        {
            return Measured<EscapeEstimate>.Missing("the design has no noise");
        }
        RideModel ride = RideModel.Of(Model, assessment.Engine);
        BeamWell well = BeamWell.Measure(
            Model.Craft,
            Model.Beam,
            assessment.Engine,
            ride.Limits.LostAtMetres,
            Model.Design.Start.SpeedMetresPerSecond
        );
        if (well.Well is not { } planar)
        {
            return Measured<EscapeEstimate>.Missing(well.Reason ?? "there is no well");
        }
        RideResult boost = WellNoiseModel.CalmBoost(ride, settings.Cancellation);
        EscapeEstimate? estimate = EscapeEstimate.Of(
            planar,
            WellNoiseModel.Of(ride, boost, sources),
            WellNoiseModel.StartOf(Model.Design.Start),
            settings.EscapeCells
        );
        return estimate is null
            ? Measured<EscapeEstimate>.Missing("the start lies outside the well")
            : new(estimate, null);
    }

    private Measured<RideResult> RideOf(RidingAssessment assessment)
    {
        RideModel ride = RideModel.Of(Model, assessment.Engine);
        RideMethod method = new()
        {
            Tolerance = settings.RideTolerance,
            FindPeaks = false,
            RecordEveryStep = true,
        };
        RideResult flown = DesignModel.Guarded(
            "ride",
            () => Physics.Motion.Ride.Fly(ride.Setup, ride.Start, ride.Limits, method, settings.Cancellation)
        );
        settings.Cancellation.ThrowIfCancellationRequested();
        return flown.Outcome.Ending is RideEnding.Held or RideEnding.Lost
            ? new(flown, null)
            : Measured<RideResult>.Missing(flown.Outcome.Sentence);
    }

    private Measured<double> HeatOf(RidingAssessment assessment)
    {
        double hottest = 0;
        for (int i = 0; i < Model.Design.Sails.Count; i++)
        {
            SurfaceDesign optics = Model.Design.SurfaceOf(Model.Design.Sails[i]);
            SurfaceLighting lighting = new(
                Model.Craft.Surfaces[i],
                Model.Craft.Mass.CenterOfMassMetres,
                Model.Beam,
                assessment.Trim.Pose!.Value
            );
            double rapidity = Math.Atanh(Model.Design.Start.SpeedMetresPerSecond / Illumination.LightSpeed);
            FilmHeat heat = FilmHeat.Of(
                lighting,
                FilmHeatModel.LawOf(optics.Heat),
                FilmHeatModel.AbsorptionFactor(
                    FilmHeatModel.TableOf(optics.Heat?.Wavelength),
                    Model.Beam.WavelengthMetres,
                    rapidity
                )
            );
            if (heat.Balance.Absorbed == 0)
            {
                continue;
            }
            if (optics.EmissivityLit is null)
            {
                return Measured<double>.Missing("no emissivity is stated");
            }
            if (heat.HottestKelvin is not { } kelvin)
            {
                return Measured<double>.Missing(heat.Reason ?? "a film has no heat balance");
            }
            hottest = Math.Max(hottest, kelvin);
        }
        return hottest > 0 ? new(hottest, null) : Measured<double>.Missing("no film takes heat from the light");
    }
}
