using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Verify;

/// <summary>Chooses checks by module and by id.</summary>
internal static class CheckFilter
{
    /// <summary>The chosen checks; all where nothing is named.</summary>
    /// <exception cref="InputRefusedException">A name is unknown; all such names are listed at once.</exception>
    public static IReadOnlyList<CheckModule> Chosen(IReadOnlyList<CheckModule> modules, VerifyInput input)
    {
        string[] ids = [.. modules.SelectMany(m => m.Checks).Select(c => c.Id)];
        List<InputFault> faults =
        [
            .. input
                .Modules.Where(name => !modules.Any(m => Same(m.Name, name)))
                .Select(name => new InputFault("--module", $"there is no module \"{name}\"", Known(modules, name))),
            .. input
                .Ids.Where(id => !ids.Any(known => Same(known, id)))
                .Select(id => new InputFault("--id", $"there is no check \"{id}\"", KnownIds(modules, ids, id))),
        ];
        if (faults.Count > 0)
        {
            throw new InputRefusedException(faults);
        }
        if (input.Modules.Count == 0 && input.Ids.Count == 0)
        {
            return modules;
        }
        return
        [
            .. modules
                .Select(m =>
                    input.Modules.Any(name => Same(name, m.Name))
                        ? m
                        : m with
                        {
                            Checks = [.. m.Checks.Where(c => input.Ids.Any(id => Same(id, c.Id)))],
                        }
                )
                .Where(m => m.Checks.Count > 0),
        ];
    }

    private static string Known(IReadOnlyList<CheckModule> modules, string name)
    {
        string[] names = [.. modules.Select(m => m.Name)];
        string list = $"known: {string.Join(", ", names)}";
        return NearestName.Of(name, names) is { } near ? $"did you mean \"{near}\"? {list}" : list;
    }

    private static string KnownIds(IReadOnlyList<CheckModule> modules, string[] ids, string id)
    {
        string ranges = string.Join(
            ", ",
            modules.Where(m => m.Checks.Count > 0).Select(m => $"{m.Checks[0].Id} … {m.Checks[^1].Id} ({m.Name})")
        );
        return NearestName.Of(id, ids) is { } near ? $"did you mean \"{near}\"? known: {ranges}" : $"known: {ranges}";
    }

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
