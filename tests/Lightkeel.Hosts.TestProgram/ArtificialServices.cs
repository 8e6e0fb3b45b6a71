using Lightkeel.Cli;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Hosts.TestProgram;

/// <summary>A small made-up study, design reader and starter that go through the whole command line.</summary>
internal static class ArtificialServices
{
    public static CommandServices Create() =>
        new()
        {
            Catalogue = new StudyCatalogue(new ArtificialStudy(), new PlainStudy()),
            Reader = new ArtificialReader(),
            Starters = [new("tern", "an invented courier", () => "title = \"Tern\"\n")],
            DesignSchema = () => "{ \"type\": \"object\" }",
            Version = "9.8.7",
        };
}
