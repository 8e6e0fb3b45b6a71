using System.Globalization;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Archive;

/// <summary>Items of a campaign as a table for export: a row each, numbers that are not finite left empty.</summary>
internal static class ItemTable
{
    public static ResultTable Of(CampaignRecord campaign, IPieceStore store, ItemCoverage coverage, bool withSeries)
    {
        RowLayout layout = RowLayout.Parse(campaign.Layout);
        List<long> numbers = [];
        List<Column> columns = [.. layout.Columns.SelectMany((c, i) => Column.Of(layout, i, withSeries))];
        foreach ((ItemRange stored, ItemRange part) in coverage.Parts())
        {
            ReadOnlySpan<byte> rows = store.Get(stored).Span;
            for (long item = part.First; item < part.End; item++)
            {
                ReadOnlySpan<byte> row = rows.Slice((int)(item - stored.First) * layout.Bytes, layout.Bytes);
                numbers.Add(item);
                foreach (Column column in columns)
                {
                    column.Add(row);
                }
            }
        }
        return new(
            campaign.Study,
            campaign.Title.Length > 0 ? campaign.Title : campaign.Study,
            [TableColumn.Integers("item", numbers), .. columns.Select(c => c.ToTable())]
        );
    }

    private abstract class Column
    {
        public abstract void Add(ReadOnlySpan<byte> row);

        public abstract TableColumn ToTable();

        public static IEnumerable<Column> Of(RowLayout layout, int i, bool withSeries) =>
            layout.Columns[i] switch
            {
                { Kind: RowColumnKind.Series } c => withSeries
                    ? Enumerable.Range(0, c.Count).Select(k => new Values(Name(c, k), r => layout.SeriesValue(r, i, k)))
                    : [],
                { Kind: RowColumnKind.Number } c => [new Values(c.Header, r => layout.Number(r, i))],
                { Kind: RowColumnKind.Integer } c => [new Whole(c.Header, r => layout.Integer(r, i))],
                { Kind: RowColumnKind.Word } c => [new Words(c.Header, r => c.Words[layout.Word(r, i)])],
                { } c => [new Words(c.Header, r => layout.Text(r, i))],
            };

        private static string Name(RowColumn column, int index) =>
            string.Create(CultureInfo.InvariantCulture, $"{index:000}_{column.Header}");
    }

    private delegate T Reading<out T>(ReadOnlySpan<byte> row);

    private sealed class Values(string header, Reading<double> read) : Column
    {
        private readonly List<double?> _values = [];

        public override void Add(ReadOnlySpan<byte> row)
        {
            double value = read(row);
            _values.Add(double.IsFinite(value) ? value : null);
        }

        public override TableColumn ToTable() => TableColumn.Numbers(header, _values);
    }

    private sealed class Whole(string header, Reading<long> read) : Column
    {
        private readonly List<long> _values = [];

        public override void Add(ReadOnlySpan<byte> row) => _values.Add(read(row));

        public override TableColumn ToTable() => TableColumn.Integers(header, _values);
    }

    private sealed class Words(string header, Reading<string> read) : Column
    {
        private readonly List<string?> _values = [];

        public override void Add(ReadOnlySpan<byte> row) => _values.Add(read(row));

        public override TableColumn ToTable() => TableColumn.Texts(header, _values);
    }
}
