using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Tables;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Search;

/// <summary>Opens a study file with its design, and lists everything that is wrong with them.</summary>
internal static class SearchOpening
{
    private const int Places = 12;
    private const string Accepted = "expected a study file in TOML, as docs/search.md shows one";

    public static SearchProblem Open(string path, IReadOnlyList<DesignChange> changes, bool allowOutsideFiles)
    {
        if (!Utf8Text.TryReadFile(path, DesignLimits.LargestDesignBytes, out byte[]? content, out string? what))
        {
            throw new InputRefusedException(path, $"the file {what}", Accepted);
        }
        if (!Utf8Text.TryDecode(content, out string? text))
        {
            throw new InputRefusedException($"{path}:1:1", "the file is not text in UTF-8", Accepted);
        }
        FaultList faults = new();
        SearchFile? file = SearchFileSpec.Read(text, path, faults);
        if (file is null)
        {
            throw Refused(faults);
        }
        OpenedDesign design = OpenDesign(file, path, changes, allowOutsideFiles);
        SearchBinding binding = SearchBinding.Of(file, design.Document, faults);
        if (!faults.IsEmpty)
        {
            throw Refused(faults);
        }
        SearchProblem problem = new(file, path, text, design, binding);
        foreach (VaryDesign vary in file.Varies.Where(v => v.Choices.Count > 0))
        {
            CheckChoices(problem, vary, faults);
        }
        return faults.IsEmpty ? problem : throw Refused(faults);
    }

    // A choice that makes no design anywhere in the bounds is a slip of the pen, and would silently take its kind out of the search.
    private static void CheckChoices(SearchProblem problem, VaryDesign vary, FaultList faults)
    {
        int variable = Enumerable.Range(0, problem.Variables.Count).First(i => problem.Variables[i].Name == vary.Name);
        for (int choice = 0; choice < vary.Choices.Count; choice++)
        {
            string?[] found =
            [
                .. Enumerable.Range(0, Places).Select(k => FaultAt(problem, Genes(problem, variable, choice, k))),
            ];
            bool reads = found.Contains(null);
            if (!reads)
            {
                faults.Add(
                    vary.Choices[choice].Position,
                    $"vary.{vary.Name}.choice.{vary.Choices[choice].Name} makes no design: {found[0]}",
                    "expected changes that together with the numbers of the choice make a sound design file"
                );
            }
        }
    }

    private static double[] Genes(SearchProblem problem, int variable, int choice, int place)
    {
        double[] genes =
        [
            .. problem.Variables.Select(
                (v, i) =>
                {
                    double share = (0.5 + 0.618 * place + 0.3 * i * place) % 1;
                    return v.IsChoice ? (int)(share * v.Words.Count)
                        : v.IsWhole ? Math.Round(v.Lower + share * (v.Upper - v.Lower))
                        : share;
                }
            ),
        ];
        genes[variable] = choice;
        if (problem.Variables[variable].When is { } when)
        {
            genes[when.Variable] = when.Choices[0];
        }
        return genes;
    }

    private static string? FaultAt(SearchProblem problem, double[] genes)
    {
        try
        {
            return problem.DocumentAt(genes).Read().Faults is [{ } fault, ..] ? fault.What : null;
        }
        catch (DesignFaultException e)
        {
            return e.Faults.Count > 0 ? e.Faults[0].What : e.Message;
        }
    }

    private static OpenedDesign OpenDesign(
        SearchFile file,
        string path,
        IReadOnlyList<DesignChange> changes,
        bool allowOutsideFiles
    )
    {
        string folder = Path.GetDirectoryName(path) is { Length: > 0 } own ? own : ".";
        string place = Path.IsPathRooted(file.Design) ? file.Design : Path.Combine(folder, file.Design);
        if (!allowOutsideFiles && !RealPath.IsInside(Path.GetFullPath(folder), file.Design))
        {
            throw new InputRefusedException(
                file.DesignPosition.ToString(),
                $"design: \"{file.Design}\" leads out of the folder of the study",
                "name a design file in that folder, or give --allow-outside-files"
            );
        }
        if (!File.Exists(place))
        {
            throw new InputRefusedException(
                file.DesignPosition.ToString(),
                $"design: there is no file \"{file.Design}\" beside the study",
                "name a design file, by its place from the study file"
            );
        }
        return OpenedDesign.Open(new(place, changes, allowOutsideFiles));
    }

    private static InputRefusedException Refused(FaultList faults) =>
        new([.. faults.ToList().Select(f => new InputFault(f.Position.ToString(), f.What, f.Accepted))]);
}
