using Microsoft.Data.Sqlite;

namespace Lightkeel.Studies.Archive;

/// <summary>What SQLite reports, as sentences for people.</summary>
internal static class ArchiveFaults
{
    // Primary result codes of SQLite: https://sqlite.org/rescode.html
    private const int Permission = 3;
    private const int Busy = 5;
    private const int Locked = 6;
    private const int ReadOnly = 8;
    private const int InputOutput = 10;
    private const int Corrupt = 11;
    private const int Full = 13;
    private const int CannotOpen = 14;
    private const int NotADatabase = 26;

    // The index of the write-ahead log could not be lengthened: no room on the disk.
    private const int NoRoomForIndex = InputOutput | (19 << 8);

    public const string Damaged =
        "nothing was repaired or thrown away: put a copy of it in its place, or move it away and compute again";

    public static ArchiveException Of(string place, SqliteException e) =>
        e.SqliteErrorCode switch
        {
            Busy or Locked => new(
                ArchiveFaultKind.Locked,
                place,
                "another process holds it and did not let go in time",
                "wait for that process, or name another file with --archive",
                e
            ),
            Full => IsFull(place, e),
            InputOutput when e.SqliteExtendedErrorCode == NoRoomForIndex => IsFull(place, e),
            ReadOnly or CannotOpen or Permission => NotWritable(place, Plain(e), e),
            Corrupt => new(ArchiveFaultKind.Unusable, place, "it is damaged (" + Plain(e) + ")", Damaged, e),
            NotADatabase => new(
                ArchiveFaultKind.Unusable,
                place,
                "it is no archive of Lightkeel, or its beginning is damaged",
                "nothing was changed: name another file with --archive",
                e
            ),
            _ => new(
                ArchiveFaultKind.NotWritable,
                place,
                "reading or writing failed (" + Plain(e) + ")",
                "look after the disk, or name a file elsewhere with --archive",
                e
            ),
        };

    public static ArchiveException NotWritable(string place, string why, Exception? cause = null) =>
        new(
            ArchiveFaultKind.NotWritable,
            place,
            $"it cannot be written ({why})",
            "name a file that you may write with --archive, or compute without one with --no-archive",
            cause
        );

    public static ArchiveException DamagedPiece(string place, ItemRange range) =>
        new(ArchiveFaultKind.Unusable, place, $"the piece of {range} is damaged (its checksum differs)", Damaged);

    public static ArchiveException Contradiction(string place, ItemRange range) =>
        new(
            ArchiveFaultKind.Unusable,
            place,
            $"{range} were computed twice with different results",
            "the two runs are of different builds or machines that do not agree: find out which, and give each its own archive"
        );

    private static ArchiveException IsFull(string place, SqliteException e) =>
        new(
            ArchiveFaultKind.Full,
            place,
            "the disk is full",
            "what was stored before is kept: make room and run the same command again to go on",
            e
        );

    // "SQLite Error 14: 'unable to open database file'." without its frame.
    private static string Plain(SqliteException e)
    {
        int from = e.Message.IndexOf('\'', StringComparison.Ordinal);
        int to = e.Message.LastIndexOf('\'');
        return to > from ? e.Message[(from + 1)..to] : e.Message;
    }
}
