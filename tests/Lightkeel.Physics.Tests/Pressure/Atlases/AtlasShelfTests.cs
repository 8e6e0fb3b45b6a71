using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Atlases;

/// <summary>Atlases kept by what they are made of, in a process and as bytes.</summary>
public sealed class AtlasShelfTests
{
    private static readonly AtlasBox Box = new(0.2, 0.1) { SmallestScale = 0.97, LargestScale = 1.03 };
    private static readonly Beam Light = UnitBeam(new GaussianProfile(1));
    private static readonly CraftPose Pose = CraftPose.From(0.1, 0.03, 0.02, -0.05, 0.4, new(1, 2, 1e6));

    private static SailCraft CraftOf(double radius) =>
        SingleSail(new Cone(radius, Degrees(70), LaserSide.Mouth), new(0, 0, -2));

    [Fact]
    public void SameSurfacesAndBeam_OfAnyMassAndPower_AreBuiltOnce()
    {
        AtlasShelf shelf = new();
        PressureAtlas first = shelf.Get(CraftOf(1), Light, Box, 1e-5);
        SailCraft heavier = CraftOf(1) with { Mass = CraftOf(1).Mass with { MassKilograms = 7 } };
        PressureAtlas second = shelf.Get(heavier, Light with { PowerWatts = 3 * Light.PowerWatts }, Box, 1e-5);
        Assert.Equal(1, shelf.Built);
        double ratio = second.Evaluate(Pose).ForceNewtons.Z / first.Evaluate(Pose).ForceNewtons.Z;
        Assert.Equal(3, ratio, 1e-14);
        shelf.Get(CraftOf(1.0000001), Light, Box, 1e-5);
        shelf.Get(CraftOf(1), Light with { WavelengthMetres = 1e-6 }, Box, 1e-5);
        shelf.Get(CraftOf(1), Light, Box with { OffsetMetres = 0.21 }, 1e-5);
        shelf.Get(CraftOf(1), Light, Box, 2e-5);
        Assert.Equal(5, shelf.Built);
    }

    [Fact]
    public void FullShelf_DropsTheOneThatWasUsedLongestAgo()
    {
        AtlasShelf shelf = new();
        SailCraft ball = SingleSail(new Sphere(0.5));
        for (int i = 0; i <= AtlasShelf.Room; i++)
        {
            shelf.Get(ball, Light, new(0.1 + 0.001 * i, 0.1), 1e-2);
            shelf.Get(ball, Light, new(0.1, 0.1), 1e-2);
        }
        Assert.Equal(AtlasShelf.Room + 1, shelf.Built);
        shelf.Get(ball, Light, new(0.101, 0.1), 1e-2);
        Assert.Equal(AtlasShelf.Room + 2, shelf.Built);
    }

    [Fact]
    public void AtlasReadFromAStore_AnswersToTheSameBits()
    {
        Store store = new();
        PressureAtlas built = new AtlasShelf().Get(CraftOf(1), Light, Box, 1e-5, store: store);
        AtlasShelf shelf = new();
        PressureAtlas read = shelf.Get(CraftOf(1), Light, Box, 1e-5, store: store);
        Assert.Equal(0, shelf.Built);
        Assert.Equal(built.Report, read.Report);
        foreach (double scale in (double[])[1, 0.99])
        {
            Assert.Equal(
                built.Evaluate(Pose with { BeamScale = scale }),
                read.Evaluate(Pose with { BeamScale = scale })
            );
        }
        Assert.Equal(built.Differentiate(CraftPose.From(0.1, 0)), read.Differentiate(CraftPose.From(0.1, 0)));
        Assert.Equal(0, store.Thrown);
    }

    [Theory]
    [InlineData(8, "another version")]
    [InlineData(0, "another kind of file")]
    [InlineData(400, "a damaged number")]
    [InlineData(-1, "a damaged checksum")]
    public void DamagedBytes_AreNotTrusted(int at, string what)
    {
        Store store = new();
        PressureAtlas built = new AtlasShelf().Get(CraftOf(1), Light, Box, 1e-5, store: store);
        store.Damage(bytes => bytes[at < 0 ? bytes.Length + at : at] ^= 1);
        AtlasShelf shelf = new();
        PressureAtlas again = shelf.Get(CraftOf(1), Light, Box, 1e-5, store: store);
        Assert.True(shelf.Built == 1 && store.Thrown == 1, what);
        Assert.Equal(built.Evaluate(Pose), again.Evaluate(Pose));
    }

    [Fact]
    public void ShortenedBytesAndThoseOfAnotherAtlas_AreNotTrusted()
    {
        Store store = new();
        new AtlasShelf().Get(CraftOf(1), Light, Box, 1e-5, store: store);
        byte[] one = store.Only;
        store.Replace(one[..(one.Length / 2)]);
        new AtlasShelf().Get(CraftOf(1), Light, Box, 1e-5, store: store);
        Assert.Equal(1, store.Thrown);
        Store other = new();
        new AtlasShelf().Get(CraftOf(0.9), Light, Box, 1e-5, store: other);
        store.Replace(other.Only);
        new AtlasShelf().Get(CraftOf(1), Light, Box, 1e-5, store: store);
        Assert.Equal(2, store.Thrown);
    }

    /// <summary>A store in memory.</summary>
    private sealed class Store : IAtlasStore
    {
        private readonly Dictionary<string, byte[]> _kept = [];

        public int Thrown { get; private set; }

        public byte[] Only => Assert.Single(_kept).Value;

        public byte[]? Read(string name) => _kept.GetValueOrDefault(name);

        public void Write(string name, ReadOnlySpan<byte> bytes) => _kept[name] = bytes.ToArray();

        public void Discarded(string name) => Thrown++;

        public void Damage(Action<byte[]> how) => how(Only);

        public void Replace(byte[] bytes) => _kept[Assert.Single(_kept).Key] = bytes;
    }
}
