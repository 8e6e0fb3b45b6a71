using Microsoft.Data.Sqlite;

namespace Lightkeel.Studies.Archive;

/// <summary>Tables of an archive. A change adds a step; the file says in <c>user_version</c> how many it has had.</summary>
internal static class ArchiveSchema
{
    /// <summary>Mark of our files in the header of SQLite: "LKar".</summary>
    public const int ApplicationId = 0x4C4B6172;

    private static readonly string[] Steps =
    [
        """
            CREATE TABLE campaign (
                id INTEGER PRIMARY KEY,
                key TEXT NOT NULL UNIQUE,
                study TEXT NOT NULL,
                title TEXT NOT NULL,
                items INTEGER NOT NULL,
                block INTEGER NOT NULL,
                stage TEXT NOT NULL,
                layout TEXT NOT NULL,
                question TEXT NOT NULL
            ) STRICT;
            CREATE TABLE run (
                id INTEGER PRIMARY KEY,
                campaign_id INTEGER NOT NULL REFERENCES campaign(id) ON DELETE CASCADE,
                tool TEXT NOT NULL,
                machine TEXT NOT NULL,
                started TEXT NOT NULL,
                threads INTEGER NOT NULL
            ) STRICT;
            CREATE INDEX run_campaign ON run(campaign_id);
            CREATE TABLE piece (
                id INTEGER PRIMARY KEY,
                campaign_id INTEGER NOT NULL REFERENCES campaign(id) ON DELETE CASCADE,
                first INTEGER NOT NULL,
                count INTEGER NOT NULL,
                checksum BLOB NOT NULL,
                rows BLOB NOT NULL,
                run_id INTEGER,
                UNIQUE (campaign_id, first, count)
            ) STRICT;
            """,
        // The text of the design, so that an archive alone says what was asked.
        "ALTER TABLE campaign ADD COLUMN design TEXT NOT NULL DEFAULT '';",
    ];

    /// <summary>Version of files that this program writes.</summary>
    public static int Version => Steps.Length;

    /// <summary>Makes the tables, or brings those of an older program up to date.</summary>
    public static void Migrate(ArchiveFile file)
    {
        if (file.Number("PRAGMA user_version") == Version)
        {
            return;
        }
        using SqliteTransaction transaction = file.Begin();
        long version = file.Number("PRAGMA user_version");
        if (version == 0)
        {
            file.Execute(FormattableString.Invariant($"PRAGMA application_id = {ApplicationId}"));
        }
        for (long step = version; step < Version; step++)
        {
            file.Execute(Steps[step]);
        }
        file.Execute(FormattableString.Invariant($"PRAGMA user_version = {Version}"));
        transaction.Commit();
    }

    /// <summary>Makes sure that the file is ours, or new, and not of a newer program.</summary>
    /// <exception cref="ArchiveException">It is not.</exception>
    public static void Recognise(ArchiveFile file)
    {
        long application = file.Number("PRAGMA application_id");
        long version = file.Number("PRAGMA user_version");
        bool isNew = application == 0 && version == 0 && file.Number("SELECT count(*) FROM sqlite_schema") == 0;
        if (!isNew && application != ApplicationId)
        {
            throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                file.Place,
                "it is a file of another program",
                "nothing was changed: name another file with --archive"
            );
        }
        if (version > Version)
        {
            throw new ArchiveException(
                ArchiveFaultKind.Unusable,
                file.Place,
                FormattableString.Invariant($"it is of a newer Lightkeel (form {version}, this one knows {Version})"),
                "use that version, or name another file with --archive"
            );
        }
    }
}
