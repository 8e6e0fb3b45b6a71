using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>Which engine serves a ride, what it vouches for, and what its error does.</summary>
public sealed class RideEngineTests : IDisposable
{
    /// <summary>A ball in a beam whose width and place are noisy and which spreads from some 60 m on.</summary>
    private const string NoisyBall =
        Craft.Ball
        + """

            [beam.director]
            aperture = "1 cm"
            standoff = "15.69 km"
            [ride]
            duration = "20 s"
            lost_at = "0.6 m"
            [start]
            offset = ["5 cm", "0 m"]
            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "1e-7 m^2/Hz"
            corner = "20 Hz"
            [[noise]]
            name = "breath"
            source = "width"
            spectrum = "white"
            density = "1e-6 1/Hz"
            corner = "20 Hz"
            """;

    private readonly string _folder = Directory.CreateTempSubdirectory("lightkeel-atlas-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static RideStudyResult Fly(RideInput input, int threads = 1) =>
        new RideStudy().Run(input, new StudyContext { Threads = threads, Accuracy = 1e-7 });

    private static SingleRideResult One(string engine, string toml = NoisyBall, string? folder = null) =>
        (SingleRideResult)Fly(new(Craft.Open(toml), engine) { AtlasCacheFolder = folder, Order = 2 });

    [Fact]
    public void NoisyRide_ThroughTheAtlas_IsThatOfQuadratureWithinTheToldError()
    {
        SingleRideResult atlas = One("atlas");
        SingleRideResult quadrature = One("quadrature");
        Assert.Equal("atlas", atlas.Engine);
        Assert.Equal("surface quadrature", quadrature.Engine);
        Assert.Equal(0, atlas.Numerics.EngineHandedOverFraction);
        Assert.InRange(atlas.Numerics.EngineRelativeError, 1e-9, 3e-7);
        Assert.True(atlas.FinalState.BeamScaleRatio != 1);
        RideEngineTwinReport twin = atlas.Numerics.EngineTwin!;
        Assert.Equal(1e-8, twin.RelativeError, 1e-20);
        Assert.True(twin.SameEnding);
        // The twin's difference tells the size of the error; the quadrature ride must lie within a few times that.
        double apart = double.Hypot(
            atlas.FinalState.PositionMetres[0] - quadrature.FinalState.PositionMetres[0],
            atlas.FinalState.PositionMetres[1] - quadrature.FinalState.PositionMetres[1]
        );
        Assert.InRange(apart, 0, 10 * twin.OffsetDifferenceMetres + 1e-9);
        Assert.InRange(twin.OffsetDifferenceMetres, 1e-14, 1e-6);
        RideEngineTwinReport off = quadrature.Numerics.EngineTwin!;
        Assert.Equal(1e-7, off.RelativeError, 1e-20);
        Assert.InRange(off.OffsetDifferenceMetres, 1e-12, 1e-4);
    }

    [Fact]
    public void ConeByQuadrature_IsToldWhatTheErrorOfItsForcesMayDo()
    {
        // The rule gives smooth cones the same forces at 1e-7 and 1e-6: only forces that are off tell anything. Off by 1e-7 F r/L
        // for 1 s they move the craft by some 1e-9 m.
        string toml = Craft.Cone + "\n[start]\noffset = [\"3 cm\", \"0 m\"]\n[ride]\nduration = \"1 s\"";
        SingleRideResult ride = One("quadrature", toml);
        Assert.Equal("held", ride.Outcome);
        RideEngineTwinReport off = ride.Numerics.EngineTwin!;
        Assert.Equal("surface quadrature, off by its error", off.Engine);
        Assert.InRange(off.OffsetDifferenceMetres, 1e-12, 1e-7);
    }

    [Fact]
    public void Auto_TakesTheAtlas_WhereTheWorkPays()
    {
        string shortRide = NoisyBall.Replace("\"20 s\"", "\"0.1 s\"", StringComparison.Ordinal);
        string steady = NoisyBall.Replace("\"20 s\"", "\"8000 s\"", StringComparison.Ordinal);
        Assert.Equal("surface quadrature", One("auto", shortRide).Engine);
        RideInput calm = new(Craft.Open(steady))
        {
            IsCalm = true,
            WithConvergence = false,
            Tolerance = 1e-6,
        };
        Assert.Equal("atlas", Fly(calm).Engine);
        RideInput many = new(Craft.Open(shortRide)) { Rides = 2, WithConvergence = false };
        Assert.Equal("atlas", Fly(many).Engine);
        RideInput one = many with { Rides = null, RideNumber = 1, IsScattered = true };
        Assert.Equal("atlas", Fly(one).Engine);
    }

    [Fact]
    public void AtlasForACraftWithoutSymmetry_IsRefused_AndAutoTakesQuadrature()
    {
        string toml =
            NoisyBall
            + "\n[[mass]]\nname = \"bus\"\nshape = \"point\"\nmass = \"1 g\"\nat = [\"5 cm\", \"0 m\", \"0 m\"]";
        InputRefusedException e = Assert.Throws<InputRefusedException>(() => One("atlas", toml));
        Assert.Contains("--engine", e.Message, StringComparison.Ordinal);
        RideInput auto = new(Craft.Open(toml, ("ride.duration", "1 s"))) { Rides = 1, WithConvergence = false };
        Assert.Equal("surface quadrature", Fly(auto).Engine);
    }

    [Fact]
    public void EnsembleThroughTheAtlas_OnOneAndTwoThreads_HasTheSameBits()
    {
        string Text(int threads) =>
            ResultDocument
                .From(
                    Fly(new(Craft.Open(NoisyBall, ("ride.duration", "4 s")), "atlas") { Rides = 4 }, threads),
                    RideJson.Default.RideStudyResult
                )
                .Root.GetRawText();
        Assert.Equal(Text(1), Text(2));
    }

    [Fact]
    public void AtlasFolder_KeepsWhatWasBuilt_AndReplacesWhatIsDamaged()
    {
        // A radius of its own, so that no other test has put this atlas on the shelf of the process.
        string toml = NoisyBall
            .Replace("radius = \"1 m\"", "radius = \"0.987 m\"", StringComparison.Ordinal)
            .Replace("\"20 s\"", "\"0.5 s\"", StringComparison.Ordinal);
        OpenedDesign design = Craft.Open(toml);
        AtlasFolder folder = AtlasFolder.Open(_folder);
        AtlasBox box = new(0.1, 0.1);
        PressureAtlas Get(IAtlasStore store) =>
            new AtlasShelf().Get(design.Model.Craft, design.Model.Beam, box, 1e-5, store: store);
        PressureAtlas built = Get(folder);
        string file = Assert.Single(Directory.GetFiles(_folder));
        Assert.Matches("^[0-9a-f]{64}[.]atlas$", Path.GetFileName(file));
        Assert.Equal(built.Report, Get(folder).Report);
        Assert.Empty(folder.Notes);
        byte[] bytes = File.ReadAllBytes(file);
        bytes[bytes.Length / 2] ^= 4;
        File.WriteAllBytes(file, bytes);
        Assert.Equal(built.Report, Get(folder).Report);
        Assert.Contains("damaged", Assert.Single(folder.Notes), StringComparison.Ordinal);
        Get(folder);
        Assert.Single(folder.Notes);
    }

    [Fact]
    public void RideWithAFolder_WritesItsAtlases_AndAFileInItsPlaceIsRefused()
    {
        string toml = NoisyBall
            .Replace("radius = \"1 m\"", "radius = \"0.976 m\"", StringComparison.Ordinal)
            .Replace("\"20 s\"", "\"0.5 s\"", StringComparison.Ordinal);
        string inside = Path.Combine(_folder, "kept");
        One("atlas", toml, inside);
        Assert.NotEmpty(Directory.GetFiles(inside, "*.atlas"));
        string file = Path.Combine(_folder, "file");
        File.WriteAllText(file, "");
        InputRefusedException e = Assert.Throws<InputRefusedException>(() => One("atlas", toml, file));
        Assert.Contains("--atlas-cache", e.Message, StringComparison.Ordinal);
    }
}
