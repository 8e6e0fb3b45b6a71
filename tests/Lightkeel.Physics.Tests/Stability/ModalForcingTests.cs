using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;
using Xunit;

namespace Lightkeel.Physics.Tests.Stability;

public sealed class ModalForcingTests
{
    private static LinearModel Model(double[][] k, double[][]? damping = null) =>
        new()
        {
            MassKilograms = 2,
            InertiaKilogramSquareMetres = Mat3.Diagonal(0.5, 0.5, 0.7),
            Jacobian = k,
            Damping = damping,
        };

    // One plane of a cone with a boom: offset and tilt coupled, the stiffness not symmetric.
    private static double[][] Coupled =>
        [
            [-30, 0, 0, 9],
            [0, -30, -9, 0],
            [0, -4, -6, 0],
            [4, 0, 0, -6],
        ];

    [Fact]
    public void OscillatorOnItsOwn_IsDrivenByOmegaSquared()
    {
        // d⟨A²⟩/dt = ω² S over two axes: twice ω² S/2 for each (m ω⁴ S/4 over m ω²/2).
        ModalForcing mode = Assert.Single(
            ModalForcing.Of(
                Model([
                    [-18, 0, 0, 0],
                    [0, -18, 0, 0],
                    [0, 0, 0, 0],
                    [0, 0, 0, 0],
                ])
            )!
        );
        Assert.Equal(3 / (2 * Math.PI), mode.FrequencyHertz, 1e-12);
        Assert.Equal(9, mode.OffsetGainPerSecondSquared, 1e-9);
        Assert.Equal(1, mode.Participation, 1e-9);
    }

    [Fact]
    public void CoupledModes_InTheirStationaryMotion_HaveTheVarianceOfTheTransfer()
    {
        // With damping the motion under white noise settles: by the modes ⟨x²⟩ = Σ G S/(8 |σ|), by the transfer ∫ |H|² S df. Two ways
        // that share no formula; they differ by the overlap of the modes, of the order of σ over their distance.
        const double Drag = 0.02;
        LinearModel model = Model(
            Coupled,
            [
                [2 * Drag, 0, 0, 0],
                [0, 2 * Drag, 0, 0],
                [0, 0, 0.5 * Drag, 0],
                [0, 0, 0, 0.5 * Drag],
            ]
        );
        IReadOnlyList<ModalForcing> modes = ModalForcing.Of(model)!;
        Assert.Equal(2, modes.Count);
        double byModes = modes.Sum(m => m.OffsetGainPerSecondSquared / (8 * -m.GrowthPerSecond));
        double byTransfer = 0;
        const double Step = 3e-4;
        for (double f = 0.5 * Step; f < 20; f += Step)
        {
            double gain = ModalTransfer.At(model, f)!.Value.OffsetRatio.Magnitude;
            byTransfer += gain * gain * Step;
        }
        Assert.Equal(byTransfer, byModes, 0.01 * byTransfer);
    }

    [Fact]
    public void Transfer_AtLowFrequency_FollowsTheBeam()
    {
        ModalTransfer slow = ModalTransfer.At(Model(Coupled), 1e-4)!.Value;
        Assert.Equal(1, slow.OffsetRatio.Real, 1e-5);
        Assert.Equal(0, slow.TiltPerMetre.Magnitude, 1e-5);
    }
}
