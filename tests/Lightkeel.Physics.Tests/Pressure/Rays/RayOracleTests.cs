using System.Globalization;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Rays;

/// <summary>
/// Narrow mouth-first mirror cones, off the axis and tilted, against an independent ray tracer that adds up a plain grid of rays
/// (benchmarks/peers/oracles/cone_rays.py, NumPy, none of our code), within the error that its next coarser grid shows.
/// </summary>
public sealed class RayOracleTests
{
    private static readonly double[][] Rows =
    [
        .. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "Pressure", "Rays", "ray_oracle_values.csv"))
            .Where(line => line.Length > 0 && line[0] != '#' && !char.IsLetter(line[0]))
            .Select(line => line.Split(',').Select(v => double.Parse(v, CultureInfo.InvariantCulture)).ToArray()),
    ];

    public static TheoryData<int> Cases => [.. Enumerable.Range(0, Rows.Length)];

    [Theory, MemberData(nameof(Cases))]
    public void NarrowCone_InAPose_AgreesWithTheIndependentTracer(int index)
    {
        double[] v = Rows[index];
        RayPressure engine = new(
            SingleSail(new Cone(v[1], Degrees(v[0]), LaserSide.Mouth), new(0, 0, v[3])),
            UnitBeam(new GaussianProfile(v[2])),
            1e-6
        );
        PressureReading r = engine.Evaluate(CraftPose.From(v[4], v[5], v[6], v[7]));
        // Two grids may agree by chance: no better than the worst of the cases' usual errors.
        double error = Math.Max(3 * v[15], 2e-5);
        Assert.Equal(0, (r.ForceNewtons - new Vec3(v[8], v[9], v[10])).Length, error);
        Assert.Equal(0, (r.TorqueNewtonMetres - new Vec3(v[11], v[12], v[13])).Length, error);
        Assert.Equal(v[14], r.InterceptedWatts / C, error);
    }
}
