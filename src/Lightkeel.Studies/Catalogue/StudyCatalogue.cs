namespace Lightkeel.Studies.Catalogue;

/// <summary>All studies. Command line, web routes, forms and reference pages are derived from it.</summary>
public sealed class StudyCatalogue
{
    /// <summary>Creates a catalogue and checks that every study is well declared.</summary>
    /// <param name="studies">The studies, in the order they are listed.</param>
    /// <exception cref="ArgumentException">A declaration is faulty.</exception>
    public StudyCatalogue(params IReadOnlyList<IStudy> studies)
    {
        ArgumentNullException.ThrowIfNull(studies);
        HashSet<string> names = new(StringComparer.Ordinal);
        foreach (IStudy study in studies)
        {
            string id = Output.ResultName.Require(study.Info.Id);
            if (!names.Add(id))
            {
                throw new ArgumentException($"Two studies are called \"{id}\".", nameof(studies));
            }
            CheckOptions(id, study.Options);
        }
        Studies = studies;
    }

    /// <summary>The studies.</summary>
    public IReadOnlyList<IStudy> Studies { get; }

    /// <summary>The study of a name, or null.</summary>
    public IStudy? Find(string id) => Studies.FirstOrDefault(study => study.Info.Id == id);

    private static void CheckOptions(string id, IReadOnlyList<StudyOption> options)
    {
        HashSet<string> names = [.. CommonOptions.All.Select(option => option.Name), "help", "version"];
        bool repeatedPositional = false;
        foreach (StudyOption option in options)
        {
            string? fault =
                !names.Add(option.Name) ? "is declared twice or is a common option"
                : option.IsPositional && repeatedPositional ? "stands behind a repeatable argument"
                : option.IsRequired && option.Default is not null ? "is required and has a default"
                : option.Kind == OptionKind.Choice && option.Choices.Count < 2 ? "needs two choices or more"
                : option.Kind == OptionKind.Quantity && option.Unit is null ? "needs a unit"
                : string.IsNullOrWhiteSpace(option.Help) ? "needs a help text"
                : null;
            repeatedPositional |= option is { IsPositional: true, IsRepeatable: true };
            if (fault is not null)
            {
                throw new ArgumentException($"Option \"{option.Name}\" of study \"{id}\" {fault}.", nameof(options));
            }
        }
    }
}
