using Lightkeel.Studies.Designs;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

public sealed class TemplateTests
{
    public static TheoryData<string> Kinds => new(DesignTemplates.All.Select(t => t.Kind));

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Template_OfEachKind_IsASoundDesign(string kind)
    {
        DesignReading reading = DesignDocument.Parse(DesignTemplates.Find(kind)!.Text, kind).Read();
        Assert.Empty(reading.Faults);
        Assert.NotNull(reading.Design);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Template_OfEachKind_SaysThatItIsInventedAndCautions(string kind)
    {
        string text = DesignTemplates.Find(kind)!.Text;
        Assert.Contains("invented", text, StringComparison.Ordinal);
        Assert.Contains("laser safety officer", text, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Template_OfEachKind_IsTheSampleOfTheDesignsFolder(string kind)
    {
        DesignTemplate template = DesignTemplates.Find(kind)!;
        string path = Path.Combine(RepositoryRoot(), "designs", template.SampleName + ".toml");
        Assert.Equal(File.ReadAllText(path), template.Text);
    }

    private static string RepositoryRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "lightkeel.slnx")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName ?? throw new InvalidOperationException("The tests run outside the repository.");
    }
}
