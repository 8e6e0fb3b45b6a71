using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using Xunit;

namespace Lightkeel.Studies.Tests.Catalogue;

public sealed class CatalogueTests
{
    [Fact]
    public void TwoStudies_OfOneName_AreRefused() =>
        Assert.Throws<ArgumentException>(() => new StudyCatalogue(new Declared("a"), new Declared("a")));

    [Fact]
    public void BadNames_AreRefused() =>
        Assert.Throws<ArgumentException>(() => new StudyCatalogue(new Declared("Check It")));

    public static TheoryData<string, StudyOption[]> BadOptions =>
        new()
        {
            { "declared twice", [Option.Flag("deep", "D."), Option.Flag("deep", "D.")] },
            { "common option", [Option.Flag("json", "J.")] },
            { "required and has a default", [Option.Number("n", "N.") with { IsRequired = true, Default = "1" }] },
            { "two choices", [Option.Choice("c", "C.", "one")] },
            { "help", [Option.Flag("deep", " ")] },
            {
                "behind a repeatable",
                [
                    Option.Text("a", "A.") with
                    {
                        IsPositional = true,
                        IsRepeatable = true,
                    },
                    Option.Text("b", "B.") with
                    {
                        IsPositional = true,
                    },
                ]
            },
        };

    [Theory]
    [MemberData(nameof(BadOptions))]
    public void BadDeclarations_AreRefused(string message, StudyOption[] options)
    {
        ArgumentException fault = Assert.Throws<ArgumentException>(() =>
            new StudyCatalogue(new Declared("a", options))
        );
        Assert.Contains(message, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Find_GivesTheStudyOrNull()
    {
        Declared study = new("check");
        StudyCatalogue catalogue = new(study);
        Assert.Same(study, catalogue.Find("check"));
        Assert.Null(catalogue.Find("chek"));
    }

    [Fact]
    public void Request_BuiltInCode_GivesItsValuesBack()
    {
        StudyOption<double> length = Option.Quantity("length", "L.", "m");
        StudyOption<string> word = Option.Text("word", "W.") with { IsRepeatable = true };
        StudyOption<bool> flag = Option.Flag("flag", "F.");
        StudyRequest request = StudyRequest.Empty.With(length, 1.5).With(word, "a", "b");
        Assert.Equal(1.5, request.Value(length));
        Assert.Equal(["a", "b"], request.Values(word));
        Assert.False(request.Value(flag));
        Assert.False(request.Has(flag));
        Assert.Throws<KeyNotFoundException>(() => StudyRequest.Empty.Value(length));
        Assert.Equal(2.5, StudyRequest.Empty.ValueOr(length, 2.5));
    }

    [Theory]
    [InlineData(1e-16)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Context_WithAnImpossibleAccuracy_IsRefused(double accuracy) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new StudyContext { Accuracy = accuracy });

    [Theory]
    [InlineData(0, "0")]
    [InlineData(1.875, "1.875")]
    [InlineData(-0.05, "-0.05")]
    [InlineData(1.0 / 3, "0.333333")]
    [InlineData(123456.78, "123457")]
    [InlineData(12345678, "1.23457e7")]
    [InlineData(5.670374419e-8, "5.67037e-8")]
    public void SummaryNumbers_HaveSixDigits(double value, string text) => Assert.Equal(text, SummaryRow.Write(value));

    private sealed class Declared(string id, params StudyOption[] options) : IStudy
    {
        public StudyInfo Info => new(id, id, id);

        public IReadOnlyList<StudyOption> Options => options;

        public JsonTypeInfo ResultShape => throw new NotSupportedException();

        public StudyOutcome Run(StudyRequest request, StudyContext context) =>
            new(ResultDocument.Parse("{}"u8.ToArray()), new StudyPresentation());
    }
}
