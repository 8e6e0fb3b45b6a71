using System.Globalization;
using System.Text;
using System.Text.Json;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;
using StudyOptionOf = Lightkeel.Studies.Catalogue.Option;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Commands on archives: <c>list</c>, <c>show</c>, <c>verify</c>, <c>export</c>, <c>merge</c>, <c>prune</c>.</summary>
internal sealed class ArchiveCommands(CommandServices services)
{
    private static readonly StudyOption<string> Archive = StudyOptionOf.Text("archive", "The archive.", "FILE") with
    {
        IsPositional = true,
        IsRequired = true,
    };

    private static readonly StudyOption<string> Key = StudyOptionOf.Text(
        "key",
        "The campaign: the beginning of its key, as list shows it."
    ) with
    {
        IsPositional = true,
        IsRequired = true,
    };

    private static readonly StudyOption<string> Shards = StudyOptionOf.Text(
        "shards",
        "Shards, or folders of them."
    ) with
    {
        IsPositional = true,
        IsRequired = true,
        IsRepeatable = true,
    };

    private static readonly StudyOption<string> Target = StudyOptionOf.Text(
        "to",
        "The file to write: its ending, .csv or .parquet, says how.",
        "FILE"
    ) with
    {
        IsRequired = true,
    };

    private static readonly StudyOption<bool> Series = StudyOptionOf.Flag(
        "series",
        "Write the numbers of series too, a column each."
    );

    private static readonly StudyOption<bool> Unfinished = StudyOptionOf.Flag(
        "unfinished",
        "Delete the campaigns that are not complete."
    );

    private static readonly StudyOption<string> Only = StudyOptionOf.Text(
        "campaign",
        "Delete the campaign whose key begins so.",
        "KEY"
    ) with
    {
        IsRepeatable = true,
    };

    public IEnumerable<CommandEntry> Entries() =>
        [
            Entry(
                "list",
                "list the campaigns of an archive",
                [Archive, CommonOptions.Json],
                List,
                "tern.archive.sqlite"
            ),
            Entry(
                "show",
                "show what a campaign of an archive asked, and who computed it",
                [Archive, Key, CommonOptions.Json],
                Show,
                "tern.archive.sqlite 3f2a"
            ),
            Entry(
                "verify",
                "check an archive's structure and every piece against its checksum",
                [Archive],
                Verify,
                "tern.archive.sqlite"
            ),
            Entry(
                "export",
                "write the items of a campaign as a table",
                [Archive, Key, Target, Series],
                Export,
                "tern.archive.sqlite 3f2a --to rides.parquet"
            ),
            Entry(
                "merge",
                "put the pieces of shards into an archive; doing it twice changes nothing",
                [Archive, Shards],
                Merge,
                "tern.archive.sqlite tern.shards"
            ),
            Entry(
                "prune",
                "delete campaigns from an archive and give their room back to the disk",
                [Archive, Unfinished, Only],
                Prune,
                "tern.archive.sqlite --unfinished"
            ),
        ];

    private CommandEntry Entry(
        string name,
        string summary,
        IReadOnlyList<StudyOption> options,
        Func<StudyRequest, HostConsole, int> work,
        string example
    ) =>
        new($"archive {name}", summary, options, null, ToolAction.Of(services, work))
        {
            Examples = [new($"archive {name} {example}", char.ToUpperInvariant(summary[0]) + summary[1..] + ".")],
        };

    private int List(StudyRequest request, HostConsole console)
    {
        using ArchiveFile file = ArchiveFile.OpenToRead(request.Value(Archive));
        IReadOnlyList<CampaignEntry> campaigns = new ArchiveCatalog(file).Campaigns();
        if (request.Value(CommonOptions.Json))
        {
            WriteJson(
                console,
                "archive-list",
                json =>
                {
                    json.WriteStartArray("campaigns"u8);
                    foreach (CampaignEntry campaign in campaigns)
                    {
                        json.WriteStartObject();
                        ArchiveListing.Write(json, campaign);
                        json.WriteEndObject();
                    }
                    json.WriteEndArray();
                }
            );
            return ExitCode.Done;
        }
        foreach (CampaignEntry campaign in campaigns)
        {
            console.Output.WriteLine(ArchiveListing.Line(campaign));
        }
        return ExitCode.Done;
    }

    private int Show(StudyRequest request, HostConsole console)
    {
        using ArchiveFile file = ArchiveFile.OpenToRead(request.Value(Archive));
        CampaignEntry campaign = new ArchiveCatalog(file).Find(request.Value(Key));
        if (request.Value(CommonOptions.Json))
        {
            WriteJson(
                console,
                "archive-show",
                json =>
                {
                    ArchiveListing.Write(json, campaign);
                    ArchiveListing.WriteDetails(json, campaign);
                }
            );
            return ExitCode.Done;
        }
        console.Output.Write(ArchiveListing.Page(campaign));
        return ExitCode.Done;
    }

    private static int Verify(StudyRequest request, HostConsole console)
    {
        using ArchiveFile file = ArchiveFile.OpenToRead(request.Value(Archive));
        ArchiveCatalog catalog = new(file);
        string structure = catalog.CheckStructure();
        if (structure != "ok")
        {
            throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                file.Place,
                $"its structure is damaged: {structure}",
                "nothing was repaired: put a copy of it in its place, or move it away and compute again"
            );
        }
        foreach (CampaignEntry campaign in catalog.Campaigns())
        {
            long pieces = catalog.Verify(campaign);
            console.Output.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{campaign.Record.Key[..12]}  {pieces} {(pieces == 1 ? "piece" : "pieces")} in order"
                )
            );
        }
        return ExitCode.Done;
    }

    private static int Export(StudyRequest request, HostConsole console)
    {
        string target = request.Value(Target);
        Action<ResultTable, Stream> write = Path.GetExtension(target) switch
        {
            ".csv" => CsvTable.Write,
            ".parquet" => ParquetTable.Write,
            _ => throw new InputRefusedException(
                Target.Written,
                $"\"{target}\" does not say how to write",
                "name a file that ends in .csv or .parquet"
            ),
        };
        using ArchiveFile file = ArchiveFile.OpenToRead(request.Value(Archive));
        ArchiveCatalog catalog = new(file);
        CampaignEntry campaign = catalog.Find(request.Value(Key));
        ResultTable table = catalog.Table(campaign, request.Value(Series));
        try
        {
            AtomicFile.Write(target, stream => write(table, stream));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new InputRefusedException(Target.Written, $"\"{target}\" cannot be written: {fault.Message}");
        }
        console.Output.WriteLine(
            string.Create(CultureInfo.InvariantCulture, $"Written: {target}, {table.RowCount} {campaign.Record.Stage}")
        );
        return ExitCode.Done;
    }

    private int Merge(StudyRequest request, HostConsole console)
    {
        List<ShardFile> shards = [];
        foreach (string path in request.Values(Shards))
        {
            shards.AddRange(
                Directory.Exists(path)
                    ? ShardFile.In(path).Select(ShardFile.TryOpen).OfType<ShardFile>()
                    : [ShardFile.Open(path)]
            );
        }
        if (shards.Count == 0)
        {
            throw new InputRefusedException(Shards.Written, "there are no shards", "name files or folders of shards");
        }
        using ArchiveFile file = ArchiveFile.Open(request.Value(Archive));
        foreach (MergedCampaign merged in ArchiveMerge.Merge(file, shards, HostProvenance.Of(services, 1)))
        {
            console.Output.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{merged.Campaign.Key[..12]}  {merged.Coverage.Present} of {merged.Campaign.Items} {merged.Campaign.Stage}, {merged.Coverage.Present - merged.Before} of them new"
                )
            );
        }
        return ExitCode.Done;
    }

    private static int Prune(StudyRequest request, HostConsole console)
    {
        bool unfinished = request.Value(Unfinished);
        IReadOnlyList<string> keys = request.Values(Only);
        if (!unfinished && keys.Count == 0)
        {
            throw new InputRefusedException(
                "archive prune",
                "nothing is said to be deleted",
                "give --unfinished, or --campaign KEY"
            );
        }
        using ArchiveFile file = ArchiveFile.Open(request.Value(Archive));
        ArchiveCatalog catalog = new(file);
        CampaignEntry[] gone =
        [
            .. catalog
                .Campaigns()
                .Where(c => unfinished && !c.Coverage.IsComplete)
                .Concat(keys.Select(catalog.Find))
                .DistinctBy(c => c.Record.Key),
        ];
        foreach (CampaignEntry campaign in gone)
        {
            catalog.Delete(campaign);
            console.Output.WriteLine($"Deleted: {ArchiveListing.Line(campaign)}");
        }
        if (gone.Length == 0)
        {
            console.Output.WriteLine("Nothing to delete: every campaign is finished.");
        }
        catalog.Compact();
        return ExitCode.Done;
    }

    private void WriteJson(HostConsole console, string command, Action<Utf8JsonWriter> write)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
        {
            json.WriteStartObject();
            write(json);
            json.WriteEndObject();
        }
        ResultEnvelope envelope = new()
        {
            Version = services.Version,
            Command = command,
            Results = ResultDocument.Parse(stream.ToArray()),
            Seed = StudyContext.UsualSeed,
            Accuracy = StudyContext.UsualAccuracy,
        };
        console.WriteOutput(envelope.ToJson());
    }
}
