using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>The fastest swing that the light can give: what fixed steps must resolve.</summary>
public sealed class LocalRatesTests
{
    [Fact]
    public void SpunFlatMirror_HasTheRootsOfItsQuartic()
    {
        // docs/theory/riding.md: I ω⁴ − h ω³ + c s ω² − F c/m = 0, I = m = 1, s = 6, F = c = 2, h = 9. Largest root by
        // numpy.roots (NumPy 1.24): 7.385020389763242.
        SlopeEngine engine = new(_ => Plate);
        MassProperties mass = new(1, Vec3.Zero, Mat3.Diagonal(1, 1, 1.5));
        double? found = LocalRates.HighestHertz(mass, engine, 1, 0.1, 6, isRound: true);
        Assert.Equal(7.385020389763242 / (2 * Math.PI), found!.Value, 1e-12);
    }

    [Fact]
    public void FreeBody_OnSpin_Nutates()
    {
        // I₃ W / I₁, whatever the light, when there is none (Mechanics, Pergamon, 3rd ed. 1976, §33).
        MassProperties mass = new(2, Vec3.Zero, Mat3.Diagonal(0.5, 0.5, 0.8));
        double? found = LocalRates.HighestHertz(
            mass,
            new SlopeEngine(_ => new double[4, 4]),
            1,
            0.1,
            10,
            isRound: true
        );
        Assert.Equal(1.6 * 10 / (2 * Math.PI), found!.Value, 1e-12);
    }

    [Fact]
    public void Light_ThatHoldsMoreStifflyOffTheAxis_IsFoundThere()
    {
        // F = −x − x³ on 1 kg: 1 + 3 x² at the edge, x = 2. Along y only the diagonal knows: −4 y.
        SlopeEngine engine = new(p =>
            new double[,]
            {
                { -1 - 3 * p.OffsetXMetres * p.OffsetXMetres, 0, 0, 0 },
                { 0, -4 - 12 * p.OffsetYMetres * p.OffsetYMetres, 0, 0 },
                { 0, 0, 0, 0 },
                { 0, 0, 0, 0 },
            }
        );
        MassProperties mass = new(1, Vec3.Zero, Mat3.Identity);
        double round = LocalRates.HighestHertz(mass, engine, 2, 0.1, 0, isRound: true)!.Value;
        double any = LocalRates.HighestHertz(mass, engine, 2, 0.1, 0, isRound: false)!.Value;
        Assert.Equal(Math.Sqrt(13) / (2 * Math.PI), round, 1e-12);
        Assert.Equal(Math.Sqrt(52) / (2 * Math.PI), any, 1e-12);
    }

    [Fact]
    public void PosesOutsideTheEngine_AreLeftOut_AndNoneAtAllIsSaid()
    {
        SailCraft craft = SingleSail(new Cone(1, Degrees(63), LaserSide.Mouth), new(0, 0, -0.2));
        Beam beam = new(1e6, 1.064e-6, new GaussianProfile(3));
        Assert.NotNull(
            LocalRates.HighestHertz(craft.Mass, new SurfaceQuadrature(craft, beam, 1e-6), 3, 1, 0, isRound: true)
        );
        SlopeEngine none = new(_ => throw new PressureUnavailableException("no light"));
        Assert.Null(LocalRates.HighestHertz(craft.Mass, none, 3, 1, 0, isRound: true));
    }

    // Rows F_x, F_y, T_x, T_y; columns x, y, tilt_x, tilt_y.
    private static double[,] Plate =>
        new double[,]
        {
            { 0, 0, 0, 2 },
            { 0, 0, -2, 0 },
            { 0, -2, 12, 0 },
            { 2, 0, 0, 12 },
        };

    private sealed class SlopeEngine(Func<CraftPose, double[,]> law) : IPressureEngine
    {
        public string Name => "slopes";

        public double Accuracy => 1e-15;

        public PressureReading Evaluate(in CraftPose pose) => throw new NotSupportedException();

        public PressureDerivatives Differentiate(in CraftPose pose)
        {
            double[,] k = law(pose);
            PressureReading Column(int j) => new(new(k[0, j], k[1, j], 0), new(k[2, j], k[3, j], 0), 0, 0, 0);
            return new(Column(0), Column(1), Column(2), Column(3), 0);
        }
    }
}
