using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class ReadingTests
{
    private const string Craft = """
        [craft]
        mass = "2.4 g"
        center_of_mass = ["0 m", "1 mm", "0 m"]
        inertia = ["1 g m^2", "2 g m^2", "2.5 g m^2", "0.1 g m^2", "-0.2 g m^2", "0.3 g m^2"]
        [surface.foil]
        """;

    [Fact]
    public void Tern_IsReadAsItsFileSays()
    {
        Design tern = DesignDocument.Parse(DesignSamples.Tern).Design;
        Assert.Equal("Tern courier, ring beam and ball sail", tern.Title);
        Assert.Equal(300e6, tern.Beam.PowerWatts);
        Assert.Equal(1.064e-6, tern.Beam.WavelengthMetres);
        Assert.Equal(new RingProfileDesign { RadiusMetres = 1.05, WidthMetres = 0.45 }, tern.Beam.Profile);
        Assert.Equal(new DirectorDesign { ApertureMetres = 4, StandoffMetres = 400e3 }, tern.Beam.Director);
        SailDesign sail = Assert.Single(tern.Sails);
        Assert.Equal(new SphereShapeDesign { RadiusMetres = 1.2 }, sail.Shape);
        Assert.Equal(0.11e-3, sail.ArealDensityKilogramsPerSquareMetre);
        Assert.Equal(0.98, Assert.IsType<CoefficientsSurfaceDesign>(tern.SurfaceOf(sail)).Specular);
        Assert.Equal(0.4e-3, Assert.Single(tern.Masses).MassKilograms);
        Assert.Null(tern.Craft);
        Assert.Equal((0.05, 0.02), (tern.Start.OffsetXMetres, tern.Start.VelocityYMetresPerSecond));
        Assert.Equal((120, 2.5), (tern.Ride.DurationSeconds, tern.Ride.LostAtMetres));
        Assert.Equal(NoiseMeasure.Length, Assert.Single(tern.Noises).Spectrum.Measure);
        Assert.Equal(0, tern.Surroundings.GravityMetresPerSecondSquared);
    }

    [Fact]
    public void Inertia_OfSixElements_IsASymmetricTensorInTheDocumentedOrder()
    {
        CraftDesign craft = DesignDocument.Parse(DesignSamples.Small.Replaced("[surface.foil]", Craft)).Design.Craft!;
        Assert.Equal(
            new(new(1e-3, 0.1e-3, -0.2e-3), new(0.1e-3, 2e-3, 0.3e-3), new(-0.2e-3, 0.3e-3, 2.5e-3)),
            craft.InertiaKilogramSquareMetres()
        );
    }

    [Fact]
    public void Inertia_OfAFlatDisc_IsAcceptedAlthoughItMeetsTheTriangleInequalityWithEquality()
    {
        string flat = Craft.Replaced("\"2.5 g m^2\", \"0.1 g m^2\", \"-0.2 g m^2\", \"0.3 g m^2\"", "\"3 g m^2\"");
        Assert.Equal("", DesignSamples.Listed(DesignSamples.Small.Replaced("[surface.foil]", flat)));
    }

    [Fact]
    public void Film_OfThicknessAndDensity_HasTheirProductAsMassPerArea()
    {
        string film = "thickness = \"2 um\"\ndensity = \"2000 kg/m^3\"";
        string text = DesignSamples.Small.Replaced("areal_density = \"0.11 g/m^2\"", film);
        Assert.Equal(2e-6 * 2000, DesignDocument.Parse(text).Design.Sails[0].ArealDensityKilogramsPerSquareMetre);
    }

    [Fact]
    public void Cap_GivenByItsRim_HasTheAngleOfThatRim()
    {
        string cap = "shape = \"cap\"\ncurvature_radius = \"2.4 m\"\ntoward_laser = \"mouth\"";
        Design design = DesignDocument.Parse(DesignSamples.Small.Replaced("shape = \"sphere\"", cap)).Design;
        // A rim of half the radius of curvature is seen from the centre under 30 deg: sin 30 deg = 1/2.
        Assert.Equal(Math.PI / 6, ((CapShapeDesign)design.Sails[0].Shape).RimAngleRadians, 15);
    }

    [Fact]
    public void Design_Printed_IsText() =>
        Assert.Contains(
            "MassKilograms = 0.0024",
            DesignDocument.Parse(DesignSamples.Small.Replaced("[surface.foil]", Craft)).Design.ToString(),
            StringComparison.Ordinal
        );
}
