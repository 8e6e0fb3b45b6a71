using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Tables;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Search;

/// <summary>Opens a study file with its design, and lists everything that is wrong with them.</summary>
internal static class SearchOpening
{
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
        return faults.IsEmpty ? new(file, path, text, design, binding) : throw Refused(faults);
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
