namespace Lightkeel.Studies.Search;

/// <summary>Words of results.</summary>
internal static class SearchWords
{
    public static string Of(SearchMethodKind kind) =>
        kind switch
        {
            SearchMethodKind.NsgaII => "nsga2",
            SearchMethodKind.NsgaIII => "nsga3",
            SearchMethodKind.CmaEs => "cma-es",
            SearchMethodKind.Gradient => "gradient",
            _ => "hybrid",
        };

    public static string Of(SearchStatus status) =>
        status switch
        {
            SearchStatus.LimitBroken => "a limit is broken",
            SearchStatus.Missing => "a quantity does not exist",
            SearchStatus.Refused => "no design: refused by its reader or models",
            _ => "feasible",
        };
}
