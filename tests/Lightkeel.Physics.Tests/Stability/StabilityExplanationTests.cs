using Lightkeel.Physics.Stability;
using Xunit;
using static Lightkeel.Physics.Tests.Stability.Models;

namespace Lightkeel.Physics.Tests.Stability;

public sealed class StabilityExplanationTests
{
    private static string Explain(LinearModel model) =>
        string.Join(" ", StabilityExplanation.Explain(StabilityAnalysis.Analyse(model)));

    [Fact]
    public void Flutter_NamesTheCouplingThatFeedsIt()
    {
        string text = Explain(Of(Axisymmetric(-2, 1, -1, -1)));

        Assert.StartsWith("The craft does not ride (flutter)", text, StringComparison.Ordinal);
        Assert.Contains("pushes it back (dFx/dx = -2 N/m)", text, StringComparison.Ordinal);
        Assert.Contains("chase each other", text, StringComparison.Ordinal);
        Assert.Contains("The discriminant fails", text, StringComparison.Ordinal);
        Assert.Contains(
            "dFx/dtilt_y = 1 N/rad (removed or reversed: neutrally-stable)",
            text,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Divergence_NamesTheOffsetThatPushesOut()
    {
        string text = Explain(Of(Axisymmetric(0.5, 0, 0, -1)));

        Assert.Contains("pushes it further out (dFx/dx = +0.5 N/m)", text, StringComparison.Ordinal);
        Assert.Contains("dFx/dx = 0.5 N/m (reversed: neutrally-stable)", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Coupling_ThatHoldsAnUnstableOffset_IsCredited()
    {
        string text = Explain(Of(Axisymmetric(1, 1, -3.1, -3)));

        Assert.StartsWith("The craft rides", text, StringComparison.Ordinal);
        Assert.Contains(
            "The offset alone would run away; its coupling with the other holds it.",
            text,
            StringComparison.Ordinal
        );
        Assert.Contains("dTy/dx = -3.1 N (removed or reversed: divergent)", text, StringComparison.Ordinal);
    }

    [Fact]
    public void SpinningTop_SaysThatTheSpinHoldsItAndWarnsOfTheTrap()
    {
        string text = Explain(Of(Axisymmetric(-1, 0, 0, 0.5), 1, 1, 1.5, 3));

        Assert.Contains("the spin is what holds it", text, StringComparison.Ordinal);
        Assert.Contains("without spin the verdict would be divergent", text, StringComparison.Ordinal);
        Assert.Contains("nonlinear rides from misaligned starts", text, StringComparison.Ordinal);
    }

    [Fact]
    public void GeneralJacobian_IsExplainedEntryByEntry()
    {
        string text = Explain(Of(FullJacobian) with { BeamIsAxisymmetric = false });

        Assert.Contains("The Jacobian is not symmetric", text, StringComparison.Ordinal);
        Assert.Contains("dFy/dy = -2.4 N/m", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Ball_SaysThatItsTiltsAreFree()
    {
        string text = Explain(Of(Axisymmetric(-4, 0, 0, 0)));

        Assert.Contains("tilt_x is free", text, StringComparison.Ordinal);
        Assert.Contains("dFx/dx = -4 N/m (removed or reversed: divergent)", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Undecided_SaysWhatAccuracyWouldDecide()
    {
        string text = Explain(Of(Axisymmetric(-2, 1, -0.25 + 1e-6, -1), error: 1e-5));

        Assert.Contains("undecided", text, StringComparison.Ordinal);
        Assert.Contains("would decide it", text, StringComparison.Ordinal);
    }

    [Fact]
    public void EverySentence_EndsAsOneAndHasNoNaN()
    {
        LinearModel[] models =
        [
            Of(Axisymmetric(-2, 1, -1, -1)),
            Of(Axisymmetric(0, 1, 0, -0.2)),
            Of(FullJacobian, spin: 1.3),
            Of(Axisymmetric(-2, 0.1, 0.1, -1), spin: 0.5),
        ];
        foreach (string sentence in models.SelectMany(m => StabilityExplanation.Explain(StabilityAnalysis.Analyse(m))))
        {
            Assert.EndsWith(".", sentence, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", sentence, StringComparison.Ordinal);
        }
    }
}
