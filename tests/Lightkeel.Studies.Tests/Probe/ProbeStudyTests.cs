using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Probe;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Probe;

/// <summary>Force and torque at given states, against closed forms and symmetry.</summary>
public sealed class ProbeStudyTests
{
    private const double Force = 1e6 / Craft.LightSpeed;

    public static TheoryData<string> Samples => [.. Craft.SampleFiles];

    private static ProbeResult Probe(
        OpenedDesign design,
        double accuracy,
        string engine,
        params IReadOnlyList<ProbeState> states
    ) => new ProbeStudy().Run(new(design.Model, states, engine), new StudyContext { Accuracy = accuracy });

    private static ProbedState One(string toml, ProbeState state, params (string Path, string Value)[] changes) =>
        Assert.Single(Probe(Craft.Open(toml, changes), 1e-11, "auto", state).States);

    private static double Norm(double[] v) => Math.Sqrt(v.Sum(c => c * c));

    [Fact]
    public void MirrorBallOnTheAxis_FeelsItsClosedForm()
    {
        // F c/P = 2 − (w²/R²)(1 − e^(−2R²/w²)) by direct integration.
        ProbedState s = One(Craft.Ball, new(0, 0));
        Assert.Equal(1.1353352832366 * Force, s.ForceNewtons![2], 1e-12 * Force + 1e-13 * Force);
        Assert.Equal(0, s.TorqueNewtonMetres!.Max(Math.Abs), 1e-14 * Force);
        Assert.Equal(1e6 * (1 - Math.Exp(-2)), s.InterceptedWatts!.Value, 1e-5);
        Assert.Equal(0, s.AbsorbedWatts);
        Assert.True(s.RelativeError <= 1e-11);
    }

    [Fact]
    public void SmallMirrorBall_OffTheAxis_FeelsTheGradient()
    {
        // −(4π/15)(R³/c) ∇I from the potential of a mirror ball; the next term is of order (R/w)².
        ProbedState s = One(Craft.Ball, new(0.3, -0.4), ("sail.canopy.radius", "1 mm"));
        double peak = 2e6 / Math.PI * Math.Exp(-2 * 0.25);
        double scale = -4 * Math.PI / 15 * 1e-9 / Craft.LightSpeed * peak * -4;
        Assert.Equal(1, s.ForceNewtons![0] / (scale * 0.3), 1e-5);
        Assert.Equal(1, s.ForceNewtons![1] / (scale * -0.4), 1e-5);
    }

    [Fact]
    public void RecedingBall_FeelsTheDopplerFactor()
    {
        // D² = (1 − β)/(1 + β) = 2/3 at β = 1/5: Annalen der Physik 322, 891 (1905), doi:10.1002/andp.19053221004.
        ProbedState still = One(Craft.Ball, new(0, 0));
        ProbedState fast = One(Craft.Ball, new(0, 0, Speed: 0.2 * Craft.LightSpeed));
        Assert.Equal(2.0 / 3, fast.ForceNewtons![2] / still.ForceNewtons![2], 1e-12);
        Assert.Equal(2.0 / 3, fast.InterceptedWatts!.Value / still.InterceptedWatts!.Value, 1e-12);
    }

    [Fact]
    public void BlackCraft_InAnyState_FeelsInterceptedPowerOverCAlongTheBeam()
    {
        // Momentum of light, P/c; both sides of the foil radiate alike, so that heat gives no push.
        ProbedState s = One(
            Craft.Cone,
            new(0.4, -0.3, 0.1, 0.05, 0.7),
            ("surface.foil.kind", "coefficients"),
            ("surface.foil.specular", "0"),
            ("surface.foil.diffuse", "0"),
            ("surface.foil.absorbed", "1"),
            ("surface.foil.emissivity_lit", "0.5"),
            ("surface.foil.emissivity_back", "0.5")
        );
        Assert.Equal(s.InterceptedWatts!.Value / Craft.LightSpeed, s.ForceNewtons![2], 1e-11 * Force);
        Assert.Equal(0, s.ForceNewtons[0], 1e-11 * Force);
        Assert.Equal(0, s.ForceNewtons[1], 1e-11 * Force);
        Assert.Equal(s.InterceptedWatts.Value, s.AbsorbedWatts!.Value, 1e-6);
    }

    [Fact]
    public void RoundCraft_TurnedAboutItsAxis_FeelsTheSame()
    {
        ProbedState first = One(Craft.Cone, new(0.2, 0.1, 0.05, -0.1));
        ProbedState second = One(Craft.Cone, new(0.2, 0.1, 0.05, -0.1, SpinAngle: 2.1));
        Assert.All(first.ForceNewtons!.Zip(second.ForceNewtons!), p => Assert.Equal(p.First, p.Second, 1e-10 * Force));
        Assert.All(
            first.TorqueNewtonMetres!.Zip(second.TorqueNewtonMetres!),
            p => Assert.Equal(p.First, p.Second, 1e-10 * Force)
        );
    }

    [Theory, MemberData(nameof(Samples))]
    public void Engines_OnASample_AgreeWithinTheErrorsThatTheyVouchFor(string file)
    {
        OpenedDesign design = Craft.Open(Craft.Sample(file));
        double size = design.Model.Craft.Surfaces[0].Shape.MaximumRadiusMetres;
        ProbeState state = new(0.1 * size, -0.05 * size, 0.02, -0.03, 0.4);
        ProbedState fast = Probe(design, 1e-8, "quadrature", state).States[0];
        ProbedState plain = Probe(design, 1e-8, "reference", state).States[0];
        double allowed = (fast.RelativeError!.Value + plain.RelativeError!.Value) * Norm(fast.ForceNewtons!);
        Assert.True(fast.RelativeError <= 1e-8);
        Assert.True(plain.RelativeError <= 1e-3, $"{plain.RelativeError}");
        Assert.All(fast.ForceNewtons!.Zip(plain.ForceNewtons!), p => Assert.Equal(p.First, p.Second, allowed));
    }

    [Theory, MemberData(nameof(Samples))]
    public void Differences_OfProbedStates_AreTheJacobianOfTheCheck(string file)
    {
        OpenedDesign design = Craft.Open(Craft.Sample(file));
        CheckResult check = Craft.Check(design, 1e-11);
        double size = design.Model.Craft.Surfaces[0].Shape.MaximumRadiusMetres;
        double[] steps = [1e-3 * size, 1e-3 * size, 1e-3, 1e-3];
        for (int j = 0; j < 4; j++)
        {
            double[] wide = Difference(j, steps[j]);
            double[] close = Difference(j, 0.5 * steps[j]);
            for (int i = 0; i < 4; i++)
            {
                double natural = check.ThrustNewtons * (i < 2 ? 1 : size) / (j < 2 ? size : 1);
                Assert.Equal((4 * close[i] - wide[i]) / 3, check.Jacobian[i][j], 1e-7 * natural);
            }
        }

        double[] Difference(int j, double h)
        {
            ProbedState[] s = [.. Probe(design, 1e-12, "auto", At(j, h), At(j, -h)).States];
            double[] up = [.. s[0].ForceNewtons!.Take(2), .. s[0].TorqueNewtonMetres!.Take(2)];
            double[] down = [.. s[1].ForceNewtons!.Take(2), .. s[1].TorqueNewtonMetres!.Take(2)];
            return [.. up.Zip(down, (a, b) => (a - b) / (2 * h))];
        }
        static ProbeState At(int j, double v) =>
            j switch
            {
                0 => new(v, 0),
                1 => new(0, v),
                2 => new(0, 0, v),
                _ => new(0, 0, 0, v),
            };
    }

    [Fact]
    public void StateThatBouncesTwice_HasAReasonInPlaceOfNumbers_AndTheOthersHaveNumbers()
    {
        // Half-angle 65°: single bounce up to a tilt of 3 · 65° − 180° = 15°.
        ProbeResult r = Probe(Craft.Open(Craft.Cone), 1e-8, "auto", new(0, 0), new(0, 0, 0, 0.5), new(0.1, 0));
        Assert.Equal(1, r.Refused);
        Assert.Null(r.States[1].ForceNewtons);
        Assert.Null(r.States[1].RelativeError);
        Assert.Contains("canopy", r.States[1].ForceReason, StringComparison.Ordinal);
        Assert.NotNull(r.States[0].ForceNewtons);
        Assert.NotNull(r.States[2].ForceNewtons);
    }

    [Fact]
    public void States_WithOneThreadOrTwo_HaveTheSameBits()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern.toml"));
        ProbeState[] states = [.. Enumerable.Range(0, 40).Select(i => new ProbeState(0.03 * i, -0.02 * i, 0.01 * i))];
        string Run(int threads) =>
            System.Text.Json.JsonSerializer.Serialize(
                new ProbeStudy().Run(new(design.Model, states), new StudyContext { Threads = threads })
            );
        Assert.Equal(Run(1), Run(2));
    }

    [Theory]
    [InlineData(1e-2), InlineData(1e-5), InlineData(1e-9)]
    public void AskedAccuracy_IsKeptAndVouchedFor(double accuracy)
    {
        OpenedDesign design = Craft.Open(Craft.Sample("tern.toml"));
        ProbeState[] states = [.. Enumerable.Range(0, 12).Select(i => new ProbeState(0.2 * i, 0.05 * i))];
        ProbeResult asked = Probe(design, accuracy, "auto", states);
        ProbeResult fine = Probe(design, 1e-12, "auto", states);
        foreach ((ProbedState a, ProbedState f) in asked.States.Zip(fine.States))
        {
            double thrust = Norm(f.ForceNewtons!);
            Assert.True(a.RelativeError <= accuracy);
            Assert.All(a.ForceNewtons!.Zip(f.ForceNewtons!), p => Assert.Equal(p.First, p.Second, accuracy * thrust));
        }
    }
}
