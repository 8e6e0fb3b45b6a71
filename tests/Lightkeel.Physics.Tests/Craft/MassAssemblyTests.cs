using CsCheck;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Craft;

/// <summary>Sums of parts, measured properties, and what is refused.</summary>
public sealed class MassAssemblyTests
{
    [Fact]
    public void Sum_TwoHemispheresBackToBack_IsTheSphere()
    {
        ThinShell lower = new("a", new SphericalCap(1.2, Math.PI / 2, LaserSide.Vertex), 0.5, new(new(0, 0, -1.2)));
        ThinShell upper = new(
            "b",
            new SphericalCap(1.2, Math.PI / 2, LaserSide.Vertex),
            0.5,
            new(new(0, 0, 1.2), new(Math.PI, 0, 0))
        );
        MassProperties sum = MassAssembly.Sum([lower, upper]);
        MassProperties sphere = MassAssembly.Sum([new ThinShell("s", new Sphere(1.2), 0.5)]);
        Assert.Equal(sphere.MassKilograms, sum.MassKilograms, 1e-13);
        Assert.Equal(0, sum.CenterOfMassMetres.Length, 1e-15);
        Assert.Equal(sphere.InertiaKilogramSquareMetres.Row0.X, sum.InertiaKilogramSquareMetres.Row0.X, 1e-12);
        Assert.Equal(2.0 / 3 * sphere.MassKilograms * 1.44, sphere.InertiaKilogramSquareMetres.Row2.Z, 1e-12);
    }

    [Fact]
    public void Sum_TwoPointsAndARing_MatchesHandSum()
    {
        MassProperties sum = MassAssembly.Sum([
            new PointMass("p", 1, new(new(0, 0, 3))),
            new PointMass("q", 2, new(new(0, 0, 0))),
            new RingMass("o", 3, 2, Vec3.UnitZ),
        ]);
        // Centre of mass 3/6 = 0.5; axial 3·4; transverse 3·4/2 + 1·2.5² + 5·0.5².
        Assert.Equal(6, sum.MassKilograms);
        Assert.Equal(0.5, sum.CenterOfMassMetres.Z, 1e-15);
        Assert.Equal(12, sum.InertiaKilogramSquareMetres.Row2.Z, 1e-14);
        Assert.Equal(6 + 6.25 + 1.25, sum.InertiaKilogramSquareMetres.Row0.X, 1e-14);
    }

    [Fact]
    public void Sum_PartsInAnyOrderOrMovedTogether_KeepsInertia() =>
        Gen.Select(Gen.Double[-2, 2].Array[9], Gen.Double[0.1, 3].Array[4])
            .Sample(
                (place, size) =>
                {
                    Vec3 shift = new(place[6], place[7], place[8]);
                    MassProperties a = MassAssembly.Sum(Parts(Vec3.Zero));
                    MassProperties b = MassAssembly.Sum([.. Parts(shift).Reverse()]);
                    double scale = PrincipalAxes.Of(a.InertiaKilogramSquareMetres).Values.Z;
                    Assert.Equal(0, (b.CenterOfMassMetres - a.CenterOfMassMetres - shift).Length, 1e-13);
                    Assert.Equal(
                        0,
                        (b.InertiaKilogramSquareMetres.Row0 - a.InertiaKilogramSquareMetres.Row0).Length / scale,
                        1e-12
                    );

                    MassPart[] Parts(Vec3 by) =>
                        [
                            new BoxMass(
                                "b",
                                size[0],
                                new(size[1], 0.4, 0.1),
                                new(by + new Vec3(place[0], 0, 1), new(place[1], place[2], 0))
                            ),
                            new SphereMass("s", size[2], size[3], placement: new(by + new Vec3(0, place[3], place[4]))),
                            new RodMass("r", 0.2, 2, new(1, place[5], 0.3), new(by)),
                        ];
                },
                iter: 100
            );

    [Fact]
    public void Sum_NoMassOrNoExtent_IsRefusedWithTheReason()
    {
        Assert.Contains("no mass", Refusal(() => MassAssembly.Sum([])), StringComparison.Ordinal);
        Assert.Contains("no mass", Refusal(() => MassAssembly.Sum([new PointMass("p", 0)])), StringComparison.Ordinal);
        Assert.Contains("one line", Refusal(() => MassAssembly.Sum([new PointMass("p", 1)])), StringComparison.Ordinal);
        Assert.Contains(
            "one line",
            Refusal(() =>
                MassAssembly.Sum([new RodMass("r", 1, 1, new(1, 2, 3)), new PointMass("p", 1, new(new(1, 2, 3)))])
            ),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "finite",
            Refusal(() => MassAssembly.Sum([new RingMass("o", 1, 1e200, Vec3.UnitZ)])),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Measured_SoundNumbers_AreKept()
    {
        MassProperties m = MassAssembly.Measured(2.4e-3, new(0, 0, 0.1), Mat3.Diagonal(1.4e-3, 1.4e-3, 1.5e-3));
        Assert.Equal(2.4e-3, m.MassKilograms);
        Assert.Equal(1.5e-3, m.InertiaKilogramSquareMetres.Row2.Z);
        // A flat plate meets the triangle inequality with equality.
        MassAssembly.Measured(1, default, Mat3.Diagonal(1, 2, 3));
    }

    [Fact]
    public void Measured_ImpossibleNumbers_AreRefusedWithTheReason()
    {
        Mat3 sound = Mat3.Diagonal(1, 1, 1);
        foreach (double bad in (double[])[0, -1, double.NaN, double.PositiveInfinity])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => MassAssembly.Measured(bad, default, sound));
        }
        Says("symmetric", new(new(1, 0.1, 0), new(0, 1, 0), new(0, 0, 1)));
        Says("positive definite", Mat3.Diagonal(-1, 1, 1));
        Says("positive definite", new(new(1, 2, 0), new(2, 1, 0), new(0, 0, 5)));
        Says("one line", Mat3.Diagonal(0, 1, 1));
        Says("sum to the largest", Mat3.Diagonal(1, 1, 2.1));
        Says("finite", Mat3.Diagonal(1, 1, double.NaN));
        Assert.Throws<ArgumentException>(() => MassAssembly.Measured(1, new(double.NaN, 0, 0), sound));

        static void Says(string word, Mat3 inertia) =>
            Assert.Contains(word, Refusal(() => MassAssembly.Measured(1, default, inertia)), StringComparison.Ordinal);
    }

    private static string Refusal(Action act) => Assert.ThrowsAny<ArgumentException>(act).Message;
}
