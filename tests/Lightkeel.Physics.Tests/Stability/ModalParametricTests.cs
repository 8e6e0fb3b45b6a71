using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Stability;
using Xunit;

namespace Lightkeel.Physics.Tests.Stability;

public sealed class ModalParametricTests
{
    private const double Mass = 2;
    private const double Inertia = 0.5;
    private const double Axial = 0.7;

    private static LinearModel Model(double[][] k, double spin = 0) =>
        new()
        {
            MassKilograms = Mass,
            InertiaKilogramSquareMetres = Mat3.Diagonal(Inertia, Inertia, Axial),
            Jacobian = k,
            SpinRadiansPerSecond = spin,
        };

    // One plane of a craft with a boom, the other its mirror image: offset and tilt coupled.
    private static double[][] Coupled(double force, double torque) =>
        [
            [-30, 0, 0, force],
            [0, -30, -force, 0],
            [0, -torque, -6, 0],
            [torque, 0, 0, -6],
        ];

    // A change of another form than the stiffness itself, as that by the beam's width.
    private static double[][] Change(double force, double torque) =>
        [
            [-12, 0, 0, force],
            [0, -12, -force, 0],
            [0, -torque, -5, 0],
            [torque, 0, 0, -5],
        ];

    [Fact]
    public void OscillatorOnItsOwn_IsHeatedAtThePublishedRate()
    {
        // π² f² S(2f): Physical Review A 56, R1095 (1997), doi:10.1103/PhysRevA.56.R1095.
        double[][] k =
        [
            [-18, 0, 0, 0],
            [0, -18, 0, 0],
            [0, 0, 0, 0],
            [0, 0, 0, 0],
        ];
        ModalParametric found = ModalParametric.Of(Model(k), k)!;
        ParametricResonance only = Assert.Single(found.Resonances);
        double f = 3 / (2 * Math.PI);
        Assert.Equal(2 * f, only.ListensHertz, 1e-9);
        Assert.Equal(Math.PI * Math.PI * f * f, only.GainPerSecondSquared, 1e-9);
        Assert.Equal(Math.PI * Math.PI * f * f * 1e-4, found.GrowthPerSecond(_ => 1e-4), 1e-12);
    }

    // Under white noise of one-sided density S the second moments C of q′ = (A + nB) q obey C′ = A C + C Aᵀ + ½ S B C Bᵀ exactly.
    // Expected: largest real part of the eigenvalues of that map as a 64 × 64 matrix, NumPy 1.24.
    [Theory]
    [InlineData(0, 3, 3, 1.4879618127448502e-05)]
    [InlineData(0, 3, -3, 2.0603825304756324e-05)]
    [InlineData(4, 3, 3, 1.1460434097346745e-05)]
    [InlineData(4, 3, -3, 1.2834218825906108e-05)]
    public void Growth_IsThatOfTheExactSecondMoments_UnderWeakWhiteNoise(
        double spin,
        double force,
        double torque,
        double expected
    ) =>
        Assert.Equal(
            expected,
            ModalParametric.Of(Model(Coupled(4, 4), spin), Change(force, torque))!.GrowthPerSecond(_ => 1e-5),
            1e-7 * expected
        );

    [Fact]
    public void Power_WithoutSpin_CouplesNoTwoModes()
    {
        double[][] k = Coupled(9, 4);
        ModalParametric found = ModalParametric.Of(Model(k), k)!;
        Assert.Equal(2, found.Resonances.Count);
        Assert.All(found.Resonances, r => Assert.Equal(r.FirstHertz, r.SecondHertz, 1e-6));
    }

    [Fact]
    public void Sum_HeatsWhereTheCouplingHasAPotential_AndDifferenceWhereItHasTheOppositeSign()
    {
        // Products of the couplings of one sign: resonance at the sum; of opposite signs: at the difference (as of Mathieu-Hill systems of
        // two degrees of freedom; Nonlinear Oscillations (Wiley, 1979), § 5.4).
        double[][] plain = Coupled(0, 0);
        ParametricResonance sum = Assert.Single(
            ModalParametric.Of(Model(plain), Change(3, 3))!.Resonances,
            r => r.FirstHertz != r.SecondHertz
        );
        Assert.True(sum.IsSum);
        // k₁₂²/(4 ω₁ ω₂), k₁₂² = (3/m)(3/J), with action and angle: derived here.
        double rates = Math.Sqrt(30 / Mass) * Math.Sqrt(6 / Inertia);
        Assert.Equal(9 / (Mass * Inertia) / (4 * rates), sum.GainPerSecondSquared, 1e-9);
        ParametricResonance difference = Assert.Single(
            ModalParametric.Of(Model(plain), Change(3, -3))!.Resonances,
            r => r.FirstHertz != r.SecondHertz
        );
        Assert.False(difference.IsSum);
        Assert.Equal(sum.GainPerSecondSquared, difference.GainPerSecondSquared, 1e-9);
    }
}
