using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Limits.Mission;

public sealed class AxialBoostTests
{
    private static AxialBoost Mirror(double mass, double power, PowerSchedule? schedule = null) =>
        new(mass, power, _ => 2 * power / Scenes.C, _ => 1, schedule ?? PowerSchedule.Constant, null);

    // Closed boost of a perfect mirror (Nature 211, 22 (1966), doi:10.1038/211022a0; The Astronomical Journal 155, 155 (2018)),
    // T = m c²/(2P): emission (u − 1) T, time [γ(1+β)(2−β)/(1−β) − 2] T/3, proper time β/(1−β) T, distance (u³/6 − u/2 + 1/3) cT.
    [Theory]
    [InlineData(100e9, 0.2)]
    [InlineData(1e9, 1e-3)]
    [InlineData(1e12, 0.9)]
    public void Mirror_FollowsTheClosedForms(double power, double beta)
    {
        (IReadOnlyList<BoostInstant> all, BoostEnd end) = Mirror(1e-3, power).Fly(0, new(1e9, beta, null));
        BoostInstant last = all[^1];
        double unit = 1e-3 * Scenes.C * Scenes.C / (2 * power);
        double gamma = 1 / Math.Sqrt(1 - beta * beta);
        double u = Math.Sqrt((1 + beta) / (1 - beta));
        Assert.Equal(BoostEnd.Speed, end);
        Assert.Equal(beta, last.Beta, 1e-12);
        Assert.Equal(1, last.SourceSeconds / ((u - 1) * unit), 1e-9);
        Assert.Equal(1, last.TimeSeconds / ((gamma * (1 + beta) * (2 - beta) / (1 - beta) - 2) / 3 * unit), 1e-9);
        Assert.Equal(1, last.ProperSeconds / (beta / (1 - beta) * unit), 1e-9);
        double distance =
            beta > 0.01 ? u * u * u / 6 - u / 2 + 1.0 / 3 : 0.5 * Math.Pow(u - 1, 2) + Math.Pow(u - 1, 3) / 6;
        Assert.Equal(1, last.DistanceMetres / (distance * Scenes.C * unit), 1e-8);
        Assert.Equal(power * last.SourceSeconds, last.SourceJoules, 1e-9 * last.SourceJoules);
    }

    // A spot that grows past 2e9 m, force 1.5 N/s², 1 g, to 3000 s: SciPy 1.10 DOP853 at rtol 1e-13.
    [Fact]
    public void GrowingSpot_MeetsTheReferenceIntegration()
    {
        Beam beam = new(1e9, 1.064e-6, new GaussianProfile(1));
        BeamDirector director = new(2e9 * 2 * 1.064e-6 / Math.PI, 4e5, beam);
        Assert.Equal(2e9, director.HoldRangeMetres, 1);
        AxialBoost boost = new(1e-3, 1e9, s => 1.5 / (s * s), s => 1 / (s * s), PowerSchedule.Constant, director);
        (IReadOnlyList<BoostInstant> all, BoostEnd end) = boost.Fly(0, new(3000, null, null));
        Assert.Equal(BoostEnd.Time, end);
        Assert.Equal(2980.0986575088587, all[^1].SourceSeconds, 1e-6);
        Assert.Equal(0.01046788935885435, all[^1].Beta, 1e-10);
        Assert.Equal(5.96627238e9, all[^1].DistanceMetres, 10.0);
    }

    [Fact]
    public void Schedule_EndsTheBoost_AndItsEnergyIsTheAreaUnderIt()
    {
        AxialBoost boost = Mirror(1, 1e6, PowerSchedule.Ramped(2, 5, 3));
        (IReadOnlyList<BoostInstant> all, BoostEnd end) = boost.Fly(0, new(1e4, null, null));
        Assert.Equal(BoostEnd.LightOff, end);
        Assert.Equal(10, all[^1].SourceSeconds, 1e-12);
        Assert.Equal(7.5e6, all[^1].SourceJoules, 1e-4);
        Assert.Equal(7.5e6 * 2 / (Scenes.C * Scenes.C), all[^1].Beta, 1e-17);
    }

    // Far out, a ball takes R²/(…) of the light: the series must follow the engine at sizes it was not fitted on.
    [Fact]
    public void ScaledThrust_FollowsTheEngine()
    {
        Beam beam = new(1e6, 1.064e-6, new RingProfile(1.05, 0.45));
        SurfaceQuadrature engine = Scenes.Quadrature(new Sphere(1.2), beam);
        ScaledThrust thrust = ScaledThrust.Of(engine, CraftPose.OnAxis, 50, 1e-9);
        foreach (double scale in (double[])[1, 1.01, 1.7, 4.4, 33])
        {
            PressureReading there = engine.Evaluate(CraftPose.OnAxis with { BeamScale = scale });
            Assert.Equal(1, thrust.Force(scale) / there.ForceNewtons.Z, 1e-7);
            Assert.Equal(1, thrust.Met(scale) / there.InterceptedWatts, 1e-7);
        }
    }

    [Fact]
    public void MassBudget_AndDirector_AddUp()
    {
        MassBudget budget = new(2, 1, 1, 0.5, 0.2);
        Assert.Equal(5.4, budget.Predicted, 1e-12);
        Assert.Equal(1 / 5.4, budget.PayloadFraction!.Value, 1e-12);
        Beam beam = new(1, 1.064e-6, new GaussianProfile(1.3));
        double range = new BeamDirector(4, 1, beam).HoldRangeMetres;
        Assert.Equal(4, DirectorNeed.ApertureMetres(1.064e-6, range, 1.3), 1e-9);
    }
}
