using Lightkeel.Studies;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Search;

namespace Lightkeel.Cli;

/// <summary>The services of the program as it is delivered.</summary>
internal static class StandardServices
{
    public static CommandServices Create() =>
        new()
        {
            Catalogue = StudyList.All(),
            Reader = new DesignInputReader(),
            Starters = [.. DesignTemplates.All.Select(t => new StarterDesign(t.Kind, t.Title, () => t.Text))],
            SearchSchema = SearchStudy.FileSchema,
            DesignSchema = () => DesignSpecification.JsonSchema().ToJsonString(new() { WriteIndented = true }),
        };
}
