using System.CommandLine;
using Lightkeel.Cli.Campaigns;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using Lightkeel.Studies.Output.Requirements;

namespace Lightkeel.Cli;

/// <summary>Runs a study: reads the input, computes, judges conditions, writes, and chooses the exit code.</summary>
internal sealed class StudyCommand(CommandEntry entry, CommandServices services, HostConsole console)
{
    private readonly List<InputFault> _lateFaults = [];

    public int Run(ParseResult parsed)
    {
        OptionTexts texts = entry.TextsOf(parsed);
        bool json = texts.Texts[CommonOptions.Json.Name].Count > 0;
        StudySettings settings;
        try
        {
            settings = StudySettings.Read(entry, texts, services.Reader);
        }
        catch (InputRefusedException refused)
        {
            return RefusalReport.Write(refused.Faults, entry.Name, services, console, json);
        }
        return RunWith(settings);
    }

    private int RunWith(StudySettings settings)
    {
        try
        {
            // Open until the last table is written: results are read from it.
            using CampaignHome home = HomeOf(settings);
            return RunIn(home, settings);
        }
        catch (InputRefusedException refused)
        {
            return Fail(settings, ExitCode.InputRefused, refused.Faults);
        }
        catch (ArchiveException fault)
        {
            return Fail(settings, ExitCode.InputRefused, [ToolAction.FaultOf(fault)]);
        }
    }

    private CampaignHome HomeOf(StudySettings settings)
    {
        bool none = settings.Request.Value(CampaignOptions.NoArchive);
        string? named = settings.Request.Has(CampaignOptions.Archive)
            ? settings.Request.Value(CampaignOptions.Archive)
            : null;
        if (none && named is not null)
        {
            throw new InputRefusedException(
                CampaignOptions.NoArchive.Written,
                "contradicts --archive",
                "give one of the two"
            );
        }
        return none || !entry.Options.Contains(CampaignOptions.Archive)
            ? CampaignHome.InMemory
            : new ArchiveHome(named, HostProvenance.Of(services, settings.Threads));
    }

    private int RunIn(CampaignHome home, StudySettings settings)
    {
        StudyOutcome outcome;
        try
        {
            outcome = Compute(home, settings);
        }
        catch (PressureUnavailableException fault)
        {
            return Fail(settings, ExitCode.AccuracyNotReached, [new("", fault.Message)]);
        }
        catch (NonFiniteResultException fault)
        {
            return Fail(settings, ExitCode.AccuracyNotReached, [new("", fault.Message, "please report this design")]);
        }
        catch (ArithmeticException fault) when (fault.GetType() == typeof(ArithmeticException))
        {
            // An iteration that did not converge: no number, and the reason.
            return Fail(settings, ExitCode.AccuracyNotReached, [new("", fault.Message, "please report this design")]);
        }
        catch (OperationCanceledException) when (console.Cancellation.IsCancellationRequested)
        {
            return Fail(settings, ExitCode.Interrupted, [new("", "stopped before anything was finished")]);
        }
        int code = Deliver(settings, outcome);
        if (!settings.Quiet || code == ExitCode.Interrupted)
        {
            ArchiveNotes.Write(home, code == ExitCode.Interrupted, console.Error);
        }
        return code;
    }

    private StudyOutcome Compute(CampaignHome home, StudySettings settings)
    {
        using ProgressDisplay progress = ProgressDisplay.Choose(settings, console);
        StudyOutcome outcome = entry.Study!.Run(
            settings.Request,
            new StudyContext
            {
                Seed = settings.Seed,
                Accuracy = settings.Accuracy,
                Threads = settings.Threads,
                Progress = progress.Reporter,
                Cancellation = console.Cancellation,
                Campaigns = home,
            }
        );
        StudyPresentation shown = outcome.Presentation;
        return outcome with
        {
            Presentation = shown with { Warnings = [.. shown.Warnings, .. ArchiveNotes.Warnings(home)] },
        };
    }

    private int Deliver(StudySettings settings, StudyOutcome outcome)
    {
        List<RequirementFinding> findings = Judge(settings, outcome);
        ResultEnvelope envelope = EnvelopeOf(settings) with
        {
            Results = outcome.Results,
            Warnings = outcome.AllWarnings,
            Failures = [.. _lateFaults.Select(RefusalReport.FailureOf)],
        };
        TextWriter human = settings.Json ? console.Error : console.Output;
        if (!settings.Quiet)
        {
            bool styled = settings.Json ? console.ErrorIsTerminal : console.OutputIsTerminal;
            human.Write(SummaryText.Of(outcome, styled, console.Width));
        }
        human.Flush();
        if (settings.Json)
        {
            console.WriteOutput(envelope.ToJson());
        }
        WriteFiles(settings, outcome, envelope, human);
        TellFindings(settings, findings, human);
        return CodeOf(outcome, findings);
    }

    private List<RequirementFinding> Judge(StudySettings settings, StudyOutcome outcome)
    {
        List<RequirementFinding> findings = [];
        foreach (Requirement requirement in settings.Requirements)
        {
            try
            {
                findings.Add(requirement.Judge(outcome.Results));
            }
            catch (RequirementException fault)
            {
                _lateFaults.Add(new(CommonOptions.Require.Written, fault.Message));
            }
        }
        return findings;
    }

    private void WriteFiles(StudySettings settings, StudyOutcome outcome, ResultEnvelope envelope, TextWriter human)
    {
        if (settings.Folder is null)
        {
            return;
        }
        try
        {
            StudyPresentation shown = outcome.Presentation;
            IReadOnlyList<string> files = settings.Folder.Write(
                envelope,
                shown.MakeFigures(),
                shown.MakeTables(),
                settings.AlwaysParquet
            );
            IReadOnlyList<string> further = settings.Folder.Write(shown.MakeFiles());
            if (!settings.Quiet)
            {
                human.WriteLine($"Written to {settings.Folder.Path}: {string.Join(", ", files.Concat(further))}");
            }
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            _lateFaults.Add(new(CommonOptions.Out.Written, $"cannot be written: {fault.Message}"));
        }
    }

    private void TellFindings(StudySettings settings, List<RequirementFinding> findings, TextWriter human)
    {
        foreach (RequirementFinding finding in findings)
        {
            if (!finding.Holds)
            {
                console.Error.WriteLine($"required: {finding}");
            }
            else if (!settings.Quiet)
            {
                human.WriteLine($"required: {finding}");
            }
        }
        foreach (InputFault fault in _lateFaults)
        {
            console.Error.WriteLine($"error: {fault}");
        }
    }

    private int CodeOf(StudyOutcome outcome, List<RequirementFinding> findings)
    {
        string? reason = outcome.Presentation.EndingReason;
        if (_lateFaults.Count > 0)
        {
            return ExitCode.InputRefused;
        }
        switch (outcome.Presentation.Ending)
        {
            case StudyEnding.Interrupted:
                console.Error.WriteLine($"stopped: {reason ?? "the results are partial"}");
                return ExitCode.Interrupted;
            case StudyEnding.AccuracyNotReached:
                console.Error.WriteLine($"accuracy not reached: {reason ?? "see the warnings"}");
                return ExitCode.AccuracyNotReached;
            default:
                return findings.TrueForAll(finding => finding.Holds) ? ExitCode.Done : ExitCode.RequirementNotMet;
        }
    }

    private int Fail(StudySettings settings, int code, IReadOnlyList<InputFault> faults)
    {
        foreach (InputFault fault in faults)
        {
            console.Error.WriteLine($"{(code == ExitCode.Interrupted ? "stopped" : "error")}: {fault}");
        }
        if (settings.Json)
        {
            ResultEnvelope envelope = EnvelopeOf(settings) with
            {
                Failures = [.. faults.Select(RefusalReport.FailureOf)],
            };
            console.WriteOutput(envelope.ToJson());
        }
        return code;
    }

    private ResultEnvelope EnvelopeOf(StudySettings settings)
    {
        DesignReference[] designs =
        [
            .. settings.Request.Designs.Select(design => new DesignReference(design.Title, design.Sha256)),
        ];
        return new()
        {
            Version = services.Version,
            Command = entry.Name,
            Design = designs.Length == 1 ? designs[0] : null,
            Designs = designs.Length > 1 ? designs : [],
            Seed = settings.Seed,
            Accuracy = settings.Accuracy,
        };
    }
}
