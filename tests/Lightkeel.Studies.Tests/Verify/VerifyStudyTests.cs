using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Verify;
using Xunit;

namespace Lightkeel.Studies.Tests.Verify;

/// <summary>Running, choosing, counting and failing, on made-up lists whose outcome is known.</summary>
public sealed class VerifyStudyTests
{
    private static readonly CheckModule[] TwoModules =
    [
        new("first", "First", [Made("ONE-01", 2, 2), Made("ONE-02", 4, 4)]),
        new("second", "Second", [Made("TWO-01", 1, 1)]),
    ];

    private static OutsideCheck Made(string id, double expected, double computed, double tolerance = 1e-12) =>
        new(id, "made up")
        {
            Source = "this test",
            Origin = ExpectedOrigin.CommonPractice,
            Expected = [expected],
            Tolerance = tolerance,
            Compute = () => [computed],
        };

    private static VerifyResult Run(params OutsideCheck[] checks) =>
        Run((CheckModule[])[new("made", "Made up", checks)]);

    private static VerifyResult Run(CheckModule[] list, VerifyInput? input = null, StudyContext? context = null) =>
        new VerifyStudy(() => list).Run(input ?? VerifyInput.Everything, context ?? new() { Threads = 2 });

    private static StudyOutcome Present(params OutsideCheck[] checks)
    {
        IStudy study = new VerifyStudy(() => [new("made", "Made up", checks)]);
        return study.Run(StudyRequest.Empty, new StudyContext { Threads = 1 });
    }

    [Fact]
    public void ErrorAtTheTolerance_Passes_AndBeyondItFails()
    {
        VerifyResult r = Run(Made("AAA-01", 100, 101, 0.01), Made("AAA-02", 100, 101.5, 0.01), Made("AAA-03", 3, 3, 0));
        Assert.Equal([true, false, true], r.Checks.Select(c => c.Pass));
        Assert.Equal(0.015, r.Checks[1].RelativeError!.Value, 1e-12);
        Assert.Equal((3, 2, 1, 0, false), (r.Run, r.Passed, r.Failed, r.NotRun, r.AllPass));
    }

    [Fact]
    public void OfSeveralValues_TheLargestErrorDecides_AndIsNamed()
    {
        VerifyResult r = Run(
            Made("AAA-01", 1, 1) with
            {
                Parts = ["a", "b", "c"],
                Expected = [1, 0, 2],
                Size = 10,
                Compute = () => [1, 0.5, 2.1],
            }
        );
        VerifiedCheck check = r.Checks[0];
        Assert.Equal(("b", 0.0, 0.5), (check.Part, check.Expected, check.Computed));
        Assert.Equal(0.05, check.RelativeError!.Value, 1e-15);
        Assert.Equal(10, check.Size);
        Assert.Equal([0, 0.05, 0.01], check.Values!.Select(v => Math.Round(v.RelativeError, 12)));
    }

    [Theory]
    [InlineData(double.NaN), InlineData(double.PositiveInfinity)]
    public void NumberThatIsNotFinite_FailsWithAReason_AndIsNotWritten(double value)
    {
        VerifyResult r = Run(Made("AAA-01", 1, value));
        Assert.False(r.Checks[0].Pass);
        Assert.Null(r.Checks[0].Computed);
        Assert.Contains("not finite", r.Checks[0].ComputedReason, StringComparison.Ordinal);
        Assert.NotNull(ResultDocument.From(r, VerifyJson.Default.VerifyResult));
    }

    [Fact]
    public void LibraryThatRefuses_FailsWithItsWords()
    {
        VerifyResult r = Run(Made("AAA-01", 1, 1) with { Compute = () => throw new ArithmeticException("no way") });
        Assert.False(r.Checks[0].Pass);
        Assert.Contains("no way", r.Checks[0].ComputedReason, StringComparison.Ordinal);
    }

    [Fact]
    public void WrongNumberOfValues_Fails() =>
        Assert.False(Run(Made("AAA-01", 1, 1) with { Compute = () => [1, 2] }).Checks[0].Pass);

    [Fact]
    public void Failure_EndsAsAccuracyNotReached_AndIsToldLast()
    {
        StudyOutcome outcome = Present(Made("AAA-01", 1, 1), Made("AAA-02", 2, 3));
        Assert.Equal(StudyEnding.AccuracyNotReached, outcome.Presentation.Ending);
        Assert.Equal("1 of 2 outside checks failed: AAA-02.", outcome.Presentation.EndingReason);
        SummarySection told = outcome.Presentation.Summary.Sections[^2];
        Assert.Equal("FAILED: 1", told.Heading);
        Assert.Contains("expected 2, computed 3", Assert.Single(told.Paragraphs), StringComparison.Ordinal);
        Assert.Equal(StudyEnding.Done, Present(Made("AAA-01", 1, 1)).Presentation.Ending);
    }

    [Fact]
    public void FilterByModuleAndId_TakesBoth()
    {
        Assert.Equal(["TWO-01"], Chosen(["SECOND"], []));
        Assert.Equal(["ONE-02", "TWO-01"], Chosen(["second"], ["one-02"]));
        Assert.Equal(["ONE-02"], Chosen([], ["ONE-02"]));

        static IEnumerable<string> Chosen(string[] modules, string[] ids) =>
            Run(TwoModules, new(modules, ids)).Checks.Select(c => c.Id);
    }

    [Fact]
    public void UnknownNames_AreRefusedAllAtOnce_WithWhatIsKnown()
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() =>
            Run(TwoModules, new(["secnd"], ["ONE-09"]))
        );
        Assert.Equal(["--module", "--id"], e.Faults.Select(f => f.Where));
        Assert.Equal("did you mean \"second\"? known: first, second", e.Faults[0].Accepted);
        Assert.Contains("ONE-01 … ONE-02 (first)", e.Faults[1].Accepted, StringComparison.Ordinal);
    }

    [Fact]
    public void RunThatIsStopped_KeepsWhatWasRun_AndSaysSo()
    {
        using CancellationTokenSource stop = new();
        OutsideCheck stopping = Made("AAA-01", 1, 1) with
        {
            Compute = () =>
            {
                stop.Cancel();
                return [1];
            },
        };
        VerifyResult r = Run(
            [new("made", "Made up", [stopping, Made("AAA-02", 1, 1), Made("AAA-03", 1, 1)])],
            context: new() { Threads = 1, Cancellation = stop.Token }
        );
        Assert.Equal((1, 2, false), (r.Run, r.NotRun, r.AllPass));
    }

    [Fact]
    public void Result_WithOneThreadOrTwo_IsTheSame()
    {
        static string With(int threads) =>
            ResultDocument
                .From(
                    new VerifyStudy().Run(new(["beams", "wells"], []), new StudyContext { Threads = threads }),
                    VerifyJson.Default.VerifyResult
                )
                .Root.GetRawText();
        Assert.Equal(With(1), With(2));
    }

    [Fact]
    public void TablesAndFigure_ShowEveryCheck()
    {
        StudyOutcome outcome = Present(Made("AAA-01", 1, 1, 0), Made("AAA-02", 2, 3));
        ResultTable checks = outcome.Presentation.MakeTables()[0];
        Assert.All(checks.Columns, c => Assert.Equal(2, c.Count));
        Assert.Contains(checks.Columns, c => c.Header == "rel_error");
        Assert.All(outcome.Presentation.MakeFigures(), FigureRules.Check);
    }

    [Theory]
    [InlineData(0.0, null), InlineData(double.NaN, 1.0)]
    public void CheckThatCannotDecide_IsFaultyAsData(double expected, double? size)
    {
        Assert.NotNull((Made("AAA-01", 1, 1) with { Expected = [expected], Size = size }).Fault());
        Assert.NotNull((Made("AAA-01", 1, 1) with { Expected = [1, 2] }).Fault());
        Assert.NotNull((Made("AAA-01", 1, 1) with { Origin = ExpectedOrigin.Read("") }).Fault());
        Assert.Null(Made("AAA-01", 1, 1).Fault());
    }
}
