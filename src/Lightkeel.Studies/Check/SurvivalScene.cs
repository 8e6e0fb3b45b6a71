using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>One film of the craft as survival looks at it.</summary>
/// <param name="Sail">What the design says of it.</param>
/// <param name="Surface">The surface.</param>
/// <param name="Material">Its material; null when not stated.</param>
/// <param name="ThicknessMetres">Thickness, stated or from mass and density, m; null when neither is known.</param>
/// <param name="Law">How its shares change with temperature.</param>
/// <param name="Heat">Its heat in the trim.</param>
/// <param name="HasEmissivity">False when the design states no emissivity.</param>
/// <param name="Colour">Absorbed share against wavelength; null when it does not change.</param>
internal sealed record SurvivalFilm(
    SailDesign Sail,
    PlacedSurface Surface,
    Material? Material,
    double? ThicknessMetres,
    HeatLaw Law,
    FilmHeat Heat,
    bool HasEmissivity,
    ShareTable? Colour
);

/// <summary>What all parts of the survival assessment look at: the craft in its trim.</summary>
internal sealed class SurvivalScene
{
    public SurvivalScene(DesignModel model, RidingAssessment assessment)
    {
        Model = model;
        Assessment = assessment;
        Pose = assessment.Trim.Pose!.Value;
        Reading = assessment.Trim.Reading!.Value;
        Acceleration = Reading.ForceNewtons.Z / model.Craft.Mass.MassKilograms;
        FastestHertz = assessment.Report.Modes.Select(m => m.FrequencyHertz).DefaultIfEmpty(0).Max();
        Films = [.. model.Design.Sails.Select((sail, i) => FilmOf(sail, model.Craft.Surfaces[i], Pose))];
    }

    public DesignModel Model { get; }

    public RidingAssessment Assessment { get; }

    /// <summary>The trim.</summary>
    public CraftPose Pose { get; }

    public PressureReading Reading { get; }

    /// <summary>Proper acceleration by the light alone, m/s²: what film and booms feel, also where gravity holds against it.</summary>
    public double Acceleration { get; }

    /// <summary>Frequency of the fastest rigid-body mode, Hz; zero when none swings.</summary>
    public double FastestHertz { get; }

    public IReadOnlyList<SurvivalFilm> Films { get; }

    public LimitsDesign Settings => Model.Design.Limits;

    public List<LimitReading> Limits { get; } = [];

    /// <summary>The light on a surface in a pose.</summary>
    public SurfaceLighting LightingOf(PlacedSurface surface, in CraftPose pose) =>
        new(surface, Model.Craft.Mass.CenterOfMassMetres, Model.Beam, pose);

    private SurvivalFilm FilmOf(SailDesign sail, PlacedSurface surface, in CraftPose pose)
    {
        SurfaceDesign optics = Model.Design.SurfaceOf(sail);
        HeatLaw law = FilmHeatModel.LawOf(optics.Heat);
        ShareTable? colour = FilmHeatModel.TableOf(optics.Heat?.Wavelength);
        Material? material = Model.Design.MaterialOf(sail.MaterialName);
        double? density = sail.DensityKilogramsPerCubicMetre ?? material?.Value(MaterialProperty.Density);
        double? thickness =
            sail.ThicknessMetres
            ?? (optics as FilmSurfaceDesign)?.ThicknessMetres
            ?? (
                sail.ArealDensityKilogramsPerSquareMetre > 0 ? sail.ArealDensityKilogramsPerSquareMetre / density : null
            );
        FilmHeat heat = FilmHeat.Of(LightingOf(surface, pose), law, AbsorptionFactor(colour, StartRapidity));
        return new(sail, surface, material, thickness, law, heat, optics.EmissivityLit is not null, colour);
    }

    /// <summary>Rapidity of the start along the beam.</summary>
    private double StartRapidity => Math.Atanh(Pose.VelocityMetresPerSecond.Z / Illumination.LightSpeed);

    /// <summary>Absorbed share of a film that recedes at a rapidity over that at rest, by its table of wavelengths.</summary>
    public double AbsorptionFactor(ShareTable? colour, double rapidity) =>
        FilmHeatModel.AbsorptionFactor(colour, Model.Beam.WavelengthMetres, rapidity);

    /// <summary>A vector of body axes as beam axes see it from the centre of mass.</summary>
    public Vec3 InBeam(Vec3 bodyMetres) => Pose.BeamFromBody * (bodyMetres - Model.Craft.Mass.CenterOfMassMetres);
}
