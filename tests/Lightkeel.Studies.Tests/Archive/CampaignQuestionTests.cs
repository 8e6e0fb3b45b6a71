using System.Globalization;
using Lightkeel.Studies.Archive;
using Xunit;

namespace Lightkeel.Studies.Tests.Archive;

/// <summary>Keys: the same question has the same key, any other question another.</summary>
public sealed class CampaignQuestionTests
{
    [Fact]
    public void EachMember_ChangesTheKey()
    {
        CampaignQuestion q = TallyCampaign.QuestionOf(1);
        CampaignQuestion[] others =
        [
            q with
            {
                Study = "tall",
            },
            q with
            {
                ResultVersion = 2,
            },
            q with
            {
                DesignSha256 = new('1', 64),
            },
            q with
            {
                SideFiles = [("beam.csv", new('0', 64))],
            },
            q with
            {
                Settings = [("power", "3")],
            },
            q with
            {
                Settings = [("power", "2"), ("more", "")],
            },
            q with
            {
                Seed = 2,
            },
            q with
            {
                Accuracy = Math.BitIncrement(1e-8),
            },
            q with
            {
                Layout = new(RowColumn.Number("value_m")),
            },
        ];
        string[] keys = [q.Key, .. others.Select(o => o.Key)];
        Assert.Equal(keys.Length, keys.Distinct().Count());
        Assert.Equal(q.Key, TallyCampaign.QuestionOf(1).Key);
    }

    [Fact]
    public void Key_IsTheSha256OfTheJson()
    {
        // sha256sum of GNU coreutils 9.1 on this very text, without a line feed.
        CampaignQuestion q = TallyCampaign.QuestionOf(1) with
        {
            Layout = new(RowColumn.Number("value_m")),
        };
        Version version = typeof(CampaignQuestion).Assembly.GetName().Version!;
        string json = q.ToJson()
            .Replace(
                string.Create(CultureInfo.InvariantCulture, $"\"results\":\"{version.Major}.{version.Minor}\""),
                "\"results\":\"0.1\"",
                StringComparison.Ordinal
            );
        Assert.Equal(
            "{\"results\":\"0.1\",\"study\":\"tally\",\"result_version\":1,\"design_sha256\":\"0000000000000000000000000000000000000000000000000000000000000000\",\"side_files\":{},\"settings\":{\"power\":\"2\"},\"seed\":1,\"accuracy\":1E-08,\"layout\":\"value_m:number\"}",
            json
        );
        Assert.SkipUnless(json == q.ToJson(), "The sum is that of version 0.1.");
        Assert.Equal("73b3bff6c307afba7c6b6b020b376f74d16391122c8f93d154389706e1ac9b7e", q.Key);
    }

    [Fact]
    public void Layout_ComesBackFromItsText_AndValuesFromTheirRow()
    {
        RowLayout layout = TallyCampaign.Layout;
        Assert.Equal(layout, RowLayout.Parse(layout.ToText()));
        Assert.Equal(8 + 8 + 1 + 12 + 24, layout.Bytes);
        byte[] row = new byte[layout.Bytes];
        layout.Put(row, 0, -0.1);
        layout.Put(row, 1, long.MinValue);
        layout.PutWord(row, 2, 1);
        layout.Put(row, 3, [1f, float.PositiveInfinity, -0f]);
        layout.Put(row, 4, "Übung");
        Assert.Equal(-0.1, layout.Number(row, 0));
        Assert.Equal(long.MinValue, layout.Integer(row, 1));
        Assert.Equal(1, layout.Word(row, 2));
        Assert.Equal(float.PositiveInfinity, layout.SeriesValue(row, 3, 1));
        Assert.Equal("Übung", layout.Text(row, 4));
        Assert.Throws<ArgumentException>(() => layout.Put(row, 4, new string('x', 25)));
        Assert.Throws<ArgumentException>(() => layout.Put(row, 0, 1L));
        Assert.Throws<FormatException>(() => RowLayout.Parse("a:number;a:number"));
    }
}
