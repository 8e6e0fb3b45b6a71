using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Stability.Models;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>Expected boundaries and slopes follow from the closed form of one plane, worked by hand.</summary>
public sealed class StabilityMarginsTests
{
    // kxx = −2, ktt = −1, kxt = 1, ktx = p: Δ = 1/4 + p (flutter below −1/4), det = 2 − p (divergence above 2).
    private static StabilityReport Coupled(double p) => StabilityAnalysis.Analyse(Of(Axisymmetric(-2, 1, p, -1)));

    [Fact]
    public void Coupling_MovedBothWays_ChangesTheVerdictWhereTheClosedFormSays()
    {
        StabilityMargin margin = StabilityMargins.Find(new("coupling", 0.5, -5, 5), Coupled);

        Assert.Equal(-0.25, margin.Downward.ChangeAt!.Value, 1e-9);
        Assert.Equal(StabilityVerdict.Flutter, margin.Downward.Becomes);
        Assert.Equal(2, margin.Upward.ChangeAt!.Value, 4e-9);
        Assert.Equal(StabilityVerdict.Divergent, margin.Upward.Becomes);
        Assert.True(margin.Evaluations <= 60, $"{margin.Evaluations} evaluations");
    }

    [Fact]
    public void Coupling_SlopesOfTheFrequencies_AreThoseOfTheClosedForm()
    {
        StabilityMargin margin = StabilityMargins.Find(new("coupling", 0.5, -5, 5), Coupled);

        // ω² = 1.5 ∓ √(1/4 + p): dω/dp = ∓ 1/(4 ω √(1/4 + p)).
        double root = Math.Sqrt(0.75);
        double[] expected = [-1 / (4 * Math.Sqrt(1.5 - root) * root), 1 / (4 * Math.Sqrt(1.5 + root) * root)];
        for (int i = 0; i < 2; i++)
        {
            ModeSensitivity slope = margin.Sensitivities[i];
            Assert.Equal(expected[i] / (2 * Math.PI), slope.FrequencySlope!.Value, 1e-10);
            Assert.True(
                Math.Abs(slope.FrequencySlope!.Value - expected[i] / (2 * Math.PI)) <= slope.FrequencySlopeError
            );
            Assert.Equal(0, slope.GrowthSlope);
        }
    }

    [Fact]
    public void UnstableCoupling_FindsTheWayBackToRiding()
    {
        StabilityMargin margin = StabilityMargins.Find(new("coupling", 3, -5, 5), Coupled);

        Assert.Equal(2, margin.Downward.ChangeAt!.Value, 4e-9);
        Assert.Equal(StabilityVerdict.NeutrallyStable, margin.Downward.Becomes);
        Assert.Null(margin.Upward.ChangeAt);
        Assert.Contains("to the end of the range", margin.Upward.Sentence, StringComparison.Ordinal);
        // λ = √(−1.5 + √(1/4 + p)): dλ/dp = 1/(4 λ √(1/4 + p)).
        double root = Math.Sqrt(3.25);
        double slope = 1 / (4 * Math.Sqrt(root - 1.5) * root);
        Assert.Equal(slope, margin.Sensitivities[0].GrowthSlope!.Value, 1e-9);
    }

    // Source: critical spin of the sleeping top, (I3 w3)² = 4 I1 m g l.
    [Fact]
    public void SleepingTop_SpinMargin_EndsAtTheCriticalSpin()
    {
        (double i1, double i3, double mgl) = (0.002, 0.001, 0.05);
        double critical = Math.Sqrt(4 * i1 * mgl) / i3;

        StabilityMargin margin = StabilityMargins.Find(
            new("start.spin", 2 * critical, 1, 100 * critical),
            w => StabilityAnalysis.Analyse(Of(Axisymmetric(-1, 0, 0, mgl), 1, i1, i3, w))
        );

        Assert.Equal(1, margin.Downward.ChangeAt!.Value / critical, 1e-9);
        Assert.Equal(StabilityVerdict.Flutter, margin.Downward.Becomes);
        Assert.Null(margin.Upward.ChangeAt);
        Assert.True(margin.Evaluations <= 60, $"{margin.Evaluations} evaluations");
    }

    [Fact]
    public void LoneOffset_MarginOfItsSpring_EndsAtZero()
    {
        StabilityMargin margin = StabilityMargins.Find(
            new("spring", 3, -10, 10),
            k => StabilityAnalysis.Analyse(Of(Axisymmetric(-k, 0, 0, 0)))
        );

        Assert.Equal(0, margin.Downward.ChangeAt!.Value, 1e-9);
        Assert.Equal(StabilityVerdict.Divergent, margin.Downward.Becomes);
    }

    [Fact]
    public void ForcesThatCannotBeComputed_EndTheSearchWithTheReason()
    {
        StabilityMargin margin = StabilityMargins.Find(
            new("coupling", 0.5, -5, 5),
            p => p > 1.3 ? throw new PressureUnavailableException("made-up limit") : Coupled(p)
        );

        Assert.Null(margin.Upward.ChangeAt);
        Assert.InRange(margin.Upward.SearchedTo, 1.25, 1.3);
        Assert.Contains("not computable", margin.Upward.Sentence, StringComparison.Ordinal);
        Assert.Contains("made-up limit", margin.Upward.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void CrossingFrequencies_AreFollowedByTheShapesOfTheirModes()
    {
        // Offset alone at √p, tilt alone at 1: they cross at p = 1, inside the step.
        const double present = 1.0003;
        StabilityMargin margin = StabilityMargins.Find(
            new("spring", present, 0.1, 10),
            p => StabilityAnalysis.Analyse(Of(Axisymmetric(-p, 0, 0, -1)))
        );

        ModeSensitivity offset = margin.Sensitivities.Single(s => s.Mode.Shape.TiltRadians == 0);
        ModeSensitivity tilt = margin.Sensitivities.Single(s => s.Mode.Shape.OffsetMetres == 0);
        Assert.Equal(1 / (4 * Math.PI * Math.Sqrt(present)), offset.FrequencySlope!.Value, 1e-10);
        Assert.Equal(0, tilt.FrequencySlope!.Value, 1e-12);
    }

    [Fact]
    public void NumberAtTheEndOfItsRange_HasNoSlopeAndOneMargin()
    {
        StabilityMargin margin = StabilityMargins.Find(new("coupling", 0.5, 0.5, 5), Coupled);

        Assert.Null(margin.Downward.ChangeAt);
        Assert.Equal(2, margin.Upward.ChangeAt!.Value, 4e-9);
        Assert.All(margin.Sensitivities, s => Assert.NotNull(s.Reason));
    }

    [Fact]
    public void DivergenceThatTurnsToFlutter_IsFoundThoughBothAreUnstable()
    {
        // kxx = 2, ktt = 1, kxt = 1, ktx = p: both squares positive above p = −1/4, complex below.
        StabilityMargin margin = StabilityMargins.Find(
            new("coupling", 0.2, -5, 0.3),
            p => StabilityAnalysis.Analyse(Of(Axisymmetric(2, 1, p, 1)))
        );

        Assert.Equal(StabilityVerdict.Flutter, margin.Downward.Becomes);
        // A swing counts once it turns by 1e-3 rad per e-folding, a millionth past the meeting of the roots.
        Assert.Equal(-0.25, margin.Downward.ChangeAt!.Value, 1e-5);
    }

    [Fact]
    public void EmptyRange_IsRefused() =>
        Assert.Throws<ArgumentException>(() => StabilityMargins.Find(new("coupling", 1, 1, 1), Coupled));
}
