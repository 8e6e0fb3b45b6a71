using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli;

/// <summary>The services of the program as it is delivered: the place where studies are listed.</summary>
internal static class StandardServices
{
    public static CommandServices Create() => new() { Catalogue = new StudyCatalogue(), Reader = new NoDesigns() };

    /// <summary>Stands in until the reader of designs joins.</summary>
    private sealed class NoDesigns : IInputReader
    {
        public string? ReadQuantity(string text, string unit, out double siValue)
        {
            siValue = 0;
            return "this build reads no quantities";
        }

        public IOpenDesign OpenDesign(DesignRequest request) =>
            throw new InputRefusedException(request.Path, "this build reads no designs");
    }
}
