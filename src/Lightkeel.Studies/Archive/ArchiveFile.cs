using System.Globalization;
using Microsoft.Data.Sqlite;

namespace Lightkeel.Studies.Archive;

/// <summary>An open archive: an SQLite file of ours. Used by one thread at a time; many processes may have it open at once.</summary>
/// <remarks>
/// Write-ahead log with full synchronisation: what a commit returned for survives a killed process and a power cut. On
/// network file systems, where the log's shared memory is unsafe, a rollback journal is used instead.
/// </remarks>
public sealed class ArchiveFile : IDisposable
{
    private static readonly string[] NetworkFormats =
    [
        "nfs",
        "nfs4",
        "cifs",
        "smb",
        "smb2",
        "smbfs",
        "afs",
        "lustre",
        "gpfs",
        "beegfs",
        "ceph",
        "fuse.sshfs",
        "9p",
        "panfs",
    ];

    private readonly SqliteConnection _connection;

    private ArchiveFile(string place, SqliteConnection connection) => (Place, _connection) = (place, connection);

    /// <summary>The file, as the user gave it.</summary>
    public string Place { get; }

    /// <summary>Opens an archive for reading and writing; makes it when it does not exist.</summary>
    /// <param name="path">The file.</param>
    /// <param name="settings">How.</param>
    /// <exception cref="ArchiveException">It cannot be used.</exception>
    public static ArchiveFile Open(string path, ArchiveSettings? settings = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        settings ??= new();
        RequirePlace(path);
        return Guarded(
            path,
            () =>
            {
                ArchiveFile file = Connect(path, path, SqliteOpenMode.ReadWriteCreate, settings);
                return Prepared(file, () => Prepare(file, settings));
            }
        );
    }

    /// <summary>Opens an archive that exists, for reading alone; works on read-only media too.</summary>
    /// <param name="path">The file.</param>
    /// <param name="settings">How.</param>
    /// <exception cref="ArchiveException">It cannot be used.</exception>
    public static ArchiveFile OpenToRead(string path, ArchiveSettings? settings = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        settings ??= new();
        if (!File.Exists(path))
        {
            throw new ArchiveException(ArchiveFaultKind.Unusable, path, "there is no such file", "check the path");
        }
        return Guarded(path, () => Prepared(Read(path, settings)));
    }

    /// <inheritdoc/>
    public void Dispose() => _connection.Dispose();

    internal SqliteTransaction Begin() => _connection.BeginTransaction(deferred: false);

    internal SqliteCommand Command(string sql, params ReadOnlySpan<(string Name, object Value)> values)
    {
        SqliteCommand command = _connection.CreateCommand();
#pragma warning disable CA2100 // All texts are constants of this room; values travel as parameters.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach ((string name, object value) in values)
        {
            command.Parameters.AddWithValue(name, value);
        }
        return command;
    }

    internal void Execute(string sql, params ReadOnlySpan<(string Name, object Value)> values)
    {
        using SqliteCommand command = Command(sql, values);
        command.ExecuteNonQuery();
    }

    internal long Number(string sql, params ReadOnlySpan<(string Name, object Value)> values)
    {
        using SqliteCommand command = Command(sql, values);
        return Convert.ToInt64(command.ExecuteScalar() ?? -1L, CultureInfo.InvariantCulture);
    }

    internal List<T> Rows<T>(
        string sql,
        Func<SqliteDataReader, T> read,
        params ReadOnlySpan<(string Name, object Value)> values
    )
    {
        using SqliteCommand command = Command(sql, values);
        using SqliteDataReader reader = command.ExecuteReader();
        List<T> rows = [];
        while (reader.Read())
        {
            rows.Add(read(reader));
        }
        return rows;
    }

    /// <summary>Does something with the file; what SQLite reports becomes a sentence.</summary>
    internal T Guarded<T>(Func<T> work) => Guarded(Place, work);

    private static T Guarded<T>(string place, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (SqliteException e)
        {
            throw ArchiveFaults.Of(place, e);
        }
    }

    // A file that cannot be prepared is closed again.
    private static ArchiveFile Prepared(ArchiveFile file, Action prepare)
    {
        try
        {
            prepare();
            return file;
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static ArchiveFile Prepared(ArchiveFile file) => Prepared(file, () => ArchiveSchema.Recognise(file));

    // A connection that may write takes the log and its index away when it is the last to close; one that may not would leave
    // them behind. Nothing is written through it. Where the file cannot be written and there is no log, the file alone is read.
    private static ArchiveFile Read(string path, ArchiveSettings settings)
    {
        ArchiveFile file = Connect(path, path, SqliteOpenMode.ReadWrite, settings);
        if (file.IsReadOnly && !File.Exists(path + "-wal"))
        {
            file.Dispose();
            string source = $"file:{Uri.EscapeDataString(Path.GetFullPath(path))}?immutable=1";
            return Connect(path, source, SqliteOpenMode.ReadOnly, settings);
        }
        return Prepared(file, () => file.Execute("PRAGMA query_only = 1"));
    }

    private bool IsReadOnly => SQLitePCL.raw.sqlite3_db_readonly(_connection.Handle, "main") == 1;

    private static ArchiveFile Connect(string place, string source, SqliteOpenMode mode, ArchiveSettings settings)
    {
        SqliteConnectionStringBuilder text = new()
        {
            DataSource = source,
            Mode = mode,
            Pooling = false,
            ForeignKeys = true,
            DefaultTimeout = settings.BusySeconds,
        };
        SqliteConnection connection = new(text.ConnectionString);
        try
        {
            connection.Open();
            return new(place, connection);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    private static void Prepare(ArchiveFile file, ArchiveSettings settings)
    {
        file.Execute("PRAGMA busy_timeout = 120");
        ArchiveSchema.Recognise(file);
        if (settings.MostPages is { } pages)
        {
            file.Execute(FormattableString.Invariant($"PRAGMA max_page_count = {pages}"));
        }
        SetJournal(file);
        file.Execute("PRAGMA synchronous = FULL");
        ArchiveSchema.Migrate(file);
    }

    private static void SetJournal(ArchiveFile file)
    {
        string wanted = IsOnNetwork(file.Place) ? "delete" : "wal";
        using SqliteCommand ask = file.Command("PRAGMA journal_mode");
        if ((string?)ask.ExecuteScalar() != wanted)
        {
            file.Execute($"PRAGMA journal_mode = {wanted}");
        }
    }

    /// <summary>True on file systems that are shared between machines.</summary>
    private static bool IsOnNetwork(string path)
    {
        try
        {
            string full = Path.GetFullPath(path);
            DriveInfo? drive = DriveInfo
                .GetDrives()
                .Where(d => full.StartsWith(d.Name, StringComparison.Ordinal))
                .MaxBy(d => d.Name.Length);
            return drive is not null && NetworkFormats.Contains(drive.DriveFormat, StringComparer.OrdinalIgnoreCase);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }

    private static void RequirePlace(string path)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(path)) ?? ".";
        if (Directory.Exists(path))
        {
            throw ArchiveFaults.NotWritable(path, "it is a folder");
        }
        if (!Directory.Exists(folder))
        {
            throw ArchiveFaults.NotWritable(path, $"there is no folder {folder}");
        }
    }
}
