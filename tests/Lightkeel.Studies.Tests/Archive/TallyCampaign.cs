using Lightkeel.Studies.Archive;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>An invented campaign whose items cost nothing and differ from one another.</summary>
internal sealed class TallyCampaign
{
    public static readonly RowLayout Layout = new(
        RowColumn.Number("value_m"),
        RowColumn.Integer("square"),
        RowColumn.Word("parity", "even", "odd"),
        RowColumn.Series("third", 3),
        RowColumn.Text("name", 24)
    );

    private int _computed;

    public TallyCampaign(long items, int block = 4, ulong seed = 1)
    {
        Plan = new(QuestionOf(seed), items, block) { Stage = "tallies", Title = "Tally" };
    }

    public CampaignPlan Plan { get; init; }

    /// <summary>Called before each item.</summary>
    public Action<long> Before { get; init; } = _ => { };

    /// <summary>How many items were computed.</summary>
    public int Computed => _computed;

    public static CampaignQuestion QuestionOf(ulong seed) =>
        new()
        {
            Study = "tally",
            ResultVersion = 1,
            DesignSha256 = new('0', 64),
            Settings = [("power", "2")],
            Seed = seed,
            Accuracy = 1e-8,
            Layout = Layout,
        };

    public CampaignResults Run(CampaignHome home, int threads = 2, CancellationToken cancellation = default) =>
        CampaignRunner.Run(new(Plan, Write), home, new(threads, cancellation));

    /// <summary>All rows behind one another.</summary>
    public static byte[] BytesOf(CampaignResults results) => [.. results.Pieces().SelectMany(p => p.Rows.ToArray())];

    public byte[] Expected()
    {
        byte[] rows = new byte[Plan.Items * Layout.Bytes];
        for (int i = 0; i < Plan.Items; i++)
        {
            Fill(Plan.Question.Seed, i, rows.AsSpan(i * Layout.Bytes, Layout.Bytes));
        }
        return rows;
    }

    private void Write(long item, Span<byte> row)
    {
        Before(item);
        Fill(Plan.Question.Seed, item, row);
        Interlocked.Increment(ref _computed);
    }

    private static void Fill(ulong seed, long item, Span<byte> row)
    {
        Layout.Put(row, 0, (double)seed / (item + 1));
        Layout.Put(row, 1, item * item);
        Layout.PutWord(row, 2, (int)(item % 2));
        Layout.Put(row, 3, [item, item / 3f, float.NaN]);
        Layout.Put(row, 4, FormattableString.Invariant($"item {item}"));
    }
}

/// <summary>A folder of its own for a test.</summary>
internal sealed class ArchiveFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("lightkeel-archive-").FullName;

    public string Archive => In("a.sqlite");

    public string In(string name) => System.IO.Path.Combine(Path, name);

    public ArchiveHome Home(ArchiveSettings? settings = null) => new(Archive, Provenance.Unknown, settings);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
