using System.CommandLine;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli.Campaigns;

/// <summary>The command whose work is split: a study with its design and options, as it would be run alone.</summary>
internal sealed class CampaignLine
{
    private readonly CommandEntry _entry;
    private readonly StudySettings _settings;

    private CampaignLine(IReadOnlyList<string> words, CommandEntry entry, StudySettings settings) =>
        (Words, _entry, _settings) = (words, entry, settings);

    /// <summary>Its words.</summary>
    public IReadOnlyList<string> Words { get; }

    /// <summary>Threads that it asks for.</summary>
    public int Threads => _settings.Threads;

    /// <summary>Reads the words.</summary>
    /// <exception cref="InputRefusedException">They are no command of a study, or it has faults.</exception>
    public static CampaignLine Read(IReadOnlyList<string> words, CommandServices services)
    {
        CommandTree tree = new(services);
        ParseResult parsed = tree.Parse(words);
        CommandEntry? entry = tree.EntryOf(parsed);
        List<InputFault> faults = ParseFaults.Of(parsed, entry, tree);
        if (faults.Count > 0)
        {
            throw new InputRefusedException(faults);
        }
        if (entry?.Study is null || !entry.Options.Contains(CampaignOptions.Archive))
        {
            IEnumerable<string> known = tree
                .Entries.Where(e => e.Options.Contains(CampaignOptions.Archive))
                .Select(e => e.Name);
            throw new InputRefusedException(
                words[0],
                "is no command whose work can be split",
                $"possible: {string.Join(", ", known)}"
            );
        }
        return new(words, entry, StudySettings.Read(entry, entry.TextsOf(parsed), services.Reader));
    }

    /// <summary>The archive that it uses when it is run alone.</summary>
    public string ArchiveOf(CampaignPlan plan) =>
        _settings.Request.Has(CampaignOptions.Archive)
            ? _settings.Request.Value(CampaignOptions.Archive)
            : ArchiveHome.Beside(plan.DesignFile ?? plan.Question.Study);

    /// <summary>Runs it until its home hands over, or to its end where nothing is left to be split.</summary>
    /// <exception cref="InputRefusedException">It computes nothing that can be split.</exception>
    public void Run(SplitHome home, HostConsole console)
    {
        using ProgressDisplay progress = ProgressDisplay.Choose(_settings, console);
        try
        {
            _entry.Study!.Run(
                _settings.Request,
                new StudyContext
                {
                    Seed = _settings.Seed,
                    Accuracy = _settings.Accuracy,
                    Threads = _settings.Threads,
                    Progress = progress.Reporter,
                    Cancellation = console.Cancellation,
                    Campaigns = home,
                }
            );
        }
        catch (CampaignHandedOverException)
        {
            // What the home has found out is asked of it.
        }
        if (!home.HasCampaign)
        {
            throw new InputRefusedException(
                string.Join(' ', Words),
                "is one piece of work, nothing to split",
                "ask for an ensemble, such as with --rides"
            );
        }
    }
}
