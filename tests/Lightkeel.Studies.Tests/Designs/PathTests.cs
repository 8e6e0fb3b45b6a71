using CsCheck;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class PathTests
{
    private static readonly DesignDocument Tern = DesignDocument.Parse(DesignSamples.Tern, "tern.toml");
    private static readonly DesignDocument Cone = DesignDocument.Parse(DesignSamples.Cone, "cone.toml");

    public static TheoryData<string> Kinds => new(DesignTemplates.All.Select(t => t.Kind));

    [Fact]
    public void WithValue_OfEveryForm_ChangesThatNumberAlone()
    {
        Assert.Equal(
            0.5,
            Tern.WithValue("beam.radius", "50 cm").Design.Beam.Profile is RingProfileDesign r ? r.RadiusMetres : 0
        );
        Assert.Equal(0.5, Tern.WithValue("beam.power", "\"0.5 W\"").Design.Beam.PowerWatts);
        Assert.Equal(
            0.9,
            ((CoefficientsSurfaceDesign)Tern.WithValue("surface.foil.specular", "0.9").Design.Surfaces[0]).Specular
        );
        Assert.Equal(
            0.9,
            ((CoefficientsSurfaceDesign)Tern.WithValue("surface.foil.specular", "90 %").Design.Surfaces[0]).Specular
        );
        Assert.Equal(-0.1, Tern.WithValue("mass.bus.at.z", "-10 cm").Design.Masses[0].PositionMetres.Z);
        Assert.Equal(-0.1, Tern.WithValue("mass.0.at.2", "-10 cm").Design.Masses[0].PositionMetres.Z);
        Assert.Equal(
            1e-7,
            (
                (WhiteSpectrumDesign)Tern.WithValue("noise.jitter.density", "1e-7 m^2/Hz").Design.Noises[0].Spectrum
            ).DensityPerHertz
        );
        Assert.Equal(
            1e-7,
            (
                (WhiteSpectrumDesign)Tern.WithValue("noise.0.density", "1e-7 m^2/Hz").Design.Noises[0].Spectrum
            ).DensityPerHertz
        );
        Assert.Equal(0.02, Tern.WithValue("start.offset", "[\"1 cm\", \"2 cm\"]").Design.Start.OffsetYMetres);
        Assert.Equal("new name", Tern.WithValue("title", "new name").Design.Title);
    }

    [Fact]
    public void WithValue_OfAnAbsentOptionalKey_AddsIt()
    {
        Assert.Equal(0.3, Tern.WithValue("sail.canopy.at.y", "30 cm").Design.Sails[0].PositionMetres.Y);
        Assert.Equal(
            9.8,
            Tern.WithValue("surroundings.gravity", "9.8 m/s^2").Design.Surroundings.GravityMetresPerSecondSquared
        );
        Assert.Equal(0.1, Tern.WithValue("start.rate.x", "0.1 rad/s").Design.Start.TiltRateXRadiansPerSecond);
        Assert.Equal(0.2, Tern.WithValue("ride.tilt_limit", "0.2 rad").Design.Ride.TiltLimitRadians);
    }

    [Fact]
    public void WithValue_OfAChoice_DropsTheKeysOfTheOldOne()
    {
        DesignDocument gaussian = Tern.WithValue("beam.profile", "gaussian").WithValue("beam.waist", "1.3 m");
        Assert.Equal(new GaussianProfileDesign { WaistMetres = 1.3 }, gaussian.Design.Beam.Profile);
        DesignDocument otherOrder = Tern.WithValue("beam.waist", "1.3 m").WithValue("beam.profile", "gaussian");
        Assert.Equal(gaussian.Design.Beam.Profile, otherOrder.Design.Beam.Profile);
        DesignDocument disc = Cone.WithValue("sail.canopy.shape", "disc");
        Assert.Equal(new DiscShapeDesign { RadiusMetres = 1.5, InnerRadiusMetres = 0 }, disc.Design.Sails[0].Shape);
    }

    [Theory]
    [InlineData("beem.power", "a design has no \"beem\" (did you mean \"beam\"?)")]
    [InlineData("beam.powr", "beam has no \"powr\" (did you mean \"power\"?)")]
    [InlineData("beam", "beam is a table, not a value")]
    [InlineData("", "a design has no \"\"")]
    [InlineData("beam.power.x", "beam.power has no parts")]
    [InlineData("sail", "sail is a list of tables")]
    [InlineData("sail.canpoy.radius", "sail has no \"canpoy\" (did you mean \"canopy\"?)")]
    [InlineData("sail.1.radius", "sail has no \"1\"")]
    [InlineData("surface.mirror.specular", "surface has no \"mirror\"")]
    [InlineData("start.offset.z", "\"z\" is no component of start.offset")]
    [InlineData("start.offset.7", "\"7\" is no component of start.offset")]
    [InlineData("start.offset.x.y", "start.offset.x has no parts")]
    [InlineData("craft.inertia.xx", "\"xx\" is no component of craft.inertia")]
    [InlineData("noise.1.density", "noise has no \"1\"")]
    public void WithValue_OfAPathThatLeadsNowhere_SaysSo(string path, string expected)
    {
        DesignFaultException thrown = Assert.Throws<DesignFaultException>(() => Tern.WithValue(path, "1 m"));
        Assert.StartsWith($"--set {path}: {expected}", thrown.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("beam.power", "3", "--set beam.power: beam.power: \"3\" has no unit; expected a power")]
    [InlineData("beam.power", "[1", "the value [1 is not TOML")]
    [InlineData("beam.power", "", "the value is empty")]
    [InlineData("start.offset.x", "1 deg", "start.offset.x: \"1 deg\" is an angle; expected a length")]
    [InlineData("beam.profile", "gausian", "beam.profile: \"gausian\" is not known (did you mean \"gaussian\"?)")]
    [InlineData("mass.bus.shape", "sphere", "mass.bus.radius is missing")]
    public void WithValue_OfAWrongValue_IsAFaultOfTheFlag(string path, string value, string expected)
    {
        DesignFaultException thrown = Assert.Throws<DesignFaultException>(() => Tern.WithValue(path, value).Design);
        Assert.Contains(expected, thrown.Message, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Numbers_OfATemplate_AllReadBackThroughBothKindsOfChange(string kind)
    {
        DesignDocument document = DesignDocument.Parse(DesignTemplates.Find(kind)!.Text);
        Assert.True(document.Numbers.Count > 20);
        Assert.Equal(document.Numbers.Count, document.Numbers.Select(n => n.Path).Distinct().Count());
        foreach (DesignNumber number in document.Numbers)
        {
            Assert.True(number.Kind.Range.Contains(number.SiValue), number.Path);
            DesignDocument byNumber = document.WithNumber(number.Path, number.SiValue);
            DesignDocument byText = document.WithValue(number.Path, Quantity.Format(number.SiValue, number.Dimension));
            Assert.Empty(byNumber.Read().Faults);
            Assert.Equal(Values(document), Values(byNumber));
            Assert.Equal(Values(document), Values(byText));
        }
    }

    [Fact]
    public void Numbers_OfTern_KnowWhatWasWrittenAndWhatIsDefault()
    {
        Dictionary<string, DesignNumber> numbers = Tern.Numbers.ToDictionary(n => n.Path);
        Assert.Equal((1.2, false), (numbers["sail.canopy.radius"].SiValue, numbers["sail.canopy.radius"].IsDefault));
        Assert.Equal((0.0, true), (numbers["start.speed"].SiValue, numbers["start.speed"].IsDefault));
        Assert.Equal((0.05, false), (numbers["start.offset.x"].SiValue, numbers["start.offset.x"].IsDefault));
        Assert.Equal(Dimension.OfLengthSpectralDensity, numbers["noise.jitter.density"].Dimension);
        Assert.True(numbers["sail.canopy.at.z"].IsDefault);
        Assert.DoesNotContain("ride.tilt_limit", numbers.Keys);
    }

    [Fact]
    public void WithNumber_AnyValue_GivesThatValueOrAFaultOutOfRange() =>
        Gen.Select(Gen.Int[0, Tern.Numbers.Count - 1], Gen.OneOf(Gen.Double[-10, 10], Gen.Double))
            .Sample(
                (index, value) =>
                {
                    DesignNumber number = Tern.Numbers[index];
                    DesignDocument changed = Tern.WithNumber(number.Path, value);
                    if (changed.Read().Design is null)
                    {
                        Assert.NotEmpty(changed.Read().Faults);
                        Assert.All(changed.Read().Faults, f => Assert.NotEqual("", f.What));
                    }
                    else
                    {
                        Assert.Equal(value, changed.Numbers.Single(n => n.Path == number.Path).SiValue);
                    }
                },
                iter: 2000
            );

    [Fact]
    public void WithNumber_OfSpinWrittenInHertz_IsInRadiansPerSecond()
    {
        DesignDocument spun = Tern.WithValue("start.spin", "2 Hz");
        Assert.Equal(4 * Math.PI, spun.Design.Start.SpinRadiansPerSecond);
        Assert.Equal(3, spun.WithNumber("start.spin", 3).Design.Start.SpinRadiansPerSecond);
        Assert.Equal(Math.PI / 180, Tern.WithValue("start.spin", "1 deg/s").Design.Start.SpinRadiansPerSecond);
        Assert.Equal(2 * Math.PI, Tern.WithValue("start.spin", "60 rpm").Design.Start.SpinRadiansPerSecond);
    }

    [Fact]
    public void ParseNumber_OfATextWithItsUnit_IsTheSiValueWithinTheRange()
    {
        Assert.Equal(0.5, Tern.ParseNumber("beam.radius", "50 cm"));
        Assert.Equal(2 * Math.PI, Tern.ParseNumber("start.spin", "1 Hz"));
        Assert.Equal(1e-9, Tern.ParseNumber("noise.jitter.density", "1e-9 m^2/Hz"));
        Assert.Contains(
            "\"50\" has no unit; expected a length",
            ParseFault("beam.radius", "50"),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "is out of range; expected a length such as \"1.2 m\", 0 m or more",
            ParseFault("beam.radius", "-1 m"),
            StringComparison.Ordinal
        );
        Assert.Contains("is not a number", ParseFault("beam.profile", "1 m"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1e31 m")]
    [InlineData("1e-61 m")]
    [InlineData("1e300 m")]
    public void WithValue_BeyondAllMagnitudes_IsRefused(string value) =>
        Assert.Contains(
            "is out of range",
            Assert.Single(Tern.WithValue("sail.canopy.radius", value).Read().Faults).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void WithValue_OfAnArrayWithAFault_IsPlacedAtTheFlag() =>
        Assert.StartsWith(
            "--set start.offset: start.offset.y: \"1 deg\" is an angle",
            Assert.Single(Tern.WithValue("start.offset", "[\"1 m\", \"1 deg\"]").Read().Faults).ToString(),
            StringComparison.Ordinal
        );

    private static string ParseFault(string path, string text) =>
        Assert.Throws<DesignFaultException>(() => Tern.ParseNumber(path, text)).Message;

    [Theory]
    [InlineData("title")]
    [InlineData("beam.profile")]
    [InlineData("start.offset")]
    [InlineData("sail.canopy.surface")]
    public void WithNumber_OfSomethingElse_IsRefused(string path) =>
        Assert.Contains(
            "is not a number",
            Assert.Throws<DesignFaultException>(() => Tern.WithNumber(path, 1)).Message,
            StringComparison.Ordinal
        );

    [Fact]
    public void Sha256_WithoutChanges_IsThatOfTheBytes()
    {
        // SHA-256 of "abc": FIPS 180-2, appendix B.1.
        Assert.Equal(
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
            DesignDocument.Parse("abc").Sha256
        );
        Assert.NotEqual(Tern.Sha256, Tern.WithValue("beam.power", "1 W").Sha256);
        Assert.Equal(
            [("beam.power", "1 W"), ("beam.radius", "2")],
            Tern.WithValue("beam.power", "1 W").WithNumber("beam.radius", 2).Changes
        );
    }

    [Fact]
    public void WithValue_OnTheOriginal_LeavesItAlone()
    {
        _ = Tern.WithValue("beam.power", "1 W").Design;
        Assert.Equal(300e6, Tern.Design.Beam.PowerWatts);
    }

    private static IEnumerable<(string, double)> Values(DesignDocument document) =>
        document.Numbers.Select(n => (n.Path, n.SiValue));
}
