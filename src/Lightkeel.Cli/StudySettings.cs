using System.Globalization;
using System.Text.Json.Serialization.Metadata;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Output.Requirements;

namespace Lightkeel.Cli;

/// <summary>The common options of a study, read and checked.</summary>
internal sealed record StudySettings
{
    public required StudyRequest Request { get; init; }
    public required IReadOnlyList<Requirement> Requirements { get; init; }
    public required ResultFolder? Folder { get; init; }
    public required ulong Seed { get; init; }
    public required double Accuracy { get; init; }
    public required int Threads { get; init; }
    public required bool Json { get; init; }
    public required bool Quiet { get; init; }
    public required bool AlwaysParquet { get; init; }
    public required string? Progress { get; init; }

    /// <summary>Reads everything; all faults are collected before the input is refused.</summary>
    /// <exception cref="InputRefusedException">Something is wrong.</exception>
    public static StudySettings Read(CommandEntry entry, OptionTexts texts, IInputReader reader)
    {
        List<InputFault> faults = [];
        StudyRequest common = Collect(
            faults,
            () => RequestReader.Read(entry.CommonOptions, texts with { Changes = [] }, reader)
        );
        StudyRequest request = Collect(faults, () => RequestReader.Read(entry.Options, texts, reader));
        IReadOnlyList<Requirement> requirements = ReadRequirements(entry.Study!.ResultShapeOf(request), texts, faults);
        ulong seed = ReadSeed(texts, faults);
        ResultFolder? folder = faults.Count == 0 ? OpenFolder(common, faults) : null;
        if (faults.Count > 0)
        {
            throw new InputRefusedException(faults);
        }
        return new()
        {
            Request = request,
            Requirements = requirements,
            Folder = folder,
            Seed = seed,
            Accuracy = common.Value(CommonOptions.Accuracy),
            Threads = (int)common.ValueOr(CommonOptions.Threads, Environment.ProcessorCount),
            Json = common.Value(CommonOptions.Json),
            Quiet = common.Value(CommonOptions.Quiet),
            AlwaysParquet = common.Value(CommonOptions.Parquet),
            Progress = common.Has(CommonOptions.Progress) ? common.Value(CommonOptions.Progress) : null,
        };
    }

    private static StudyRequest Collect(List<InputFault> faults, Func<StudyRequest> read)
    {
        try
        {
            return read();
        }
        catch (InputRefusedException refused)
        {
            faults.AddRange(refused.Faults);
            return StudyRequest.Empty;
        }
    }

    private static List<Requirement> ReadRequirements(JsonTypeInfo shape, OptionTexts texts, List<InputFault> faults)
    {
        List<Requirement> requirements = [];
        foreach (string text in texts.Texts[CommonOptions.Require.Name])
        {
            try
            {
                Requirement requirement = Requirement.Parse(text);
                requirement.CheckAgainst(shape);
                requirements.Add(requirement);
            }
            catch (RequirementException fault)
            {
                faults.Add(new(CommonOptions.Require.Written, fault.Message));
            }
        }
        return requirements;
    }

    private static ulong ReadSeed(OptionTexts texts, List<InputFault> faults)
    {
        string text = texts.Texts[CommonOptions.Seed.Name] is [.., string last] ? last : CommonOptions.Seed.Default!;
        if (ulong.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out ulong seed))
        {
            return seed;
        }
        faults.Add(
            new(
                CommonOptions.Seed.Written,
                $"\"{text}\" is not a seed",
                "write a whole number from 0 to 18446744073709551615"
            )
        );
        return 0;
    }

    private static ResultFolder? OpenFolder(StudyRequest common, List<InputFault> faults)
    {
        if (!common.Has(CommonOptions.Out))
        {
            return null;
        }
        string path = common.Value(CommonOptions.Out);
        try
        {
            return ResultFolder.Open(path);
        }
        catch (Exception fault)
            when (fault is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            faults.Add(
                new(
                    CommonOptions.Out.Written,
                    $"\"{path}\" cannot be written: {fault.Message}",
                    "name a folder that you may write to"
                )
            );
            return null;
        }
    }
}
