using System.Globalization;
using System.Text;
using System.Text.Json;
using Lightkeel.Studies.Archive;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Campaigns of an archive as text and as JSON.</summary>
internal static class ArchiveListing
{
    /// <summary>One line.</summary>
    public static string Line(CampaignEntry c) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{c.Record.Key[..12]}  {c.Record.Study}  {c.Coverage.Present} of {c.Record.Items} {c.Record.Stage}  {c.Bytes / 1e6:0.###} MB  {(c.Runs.Count > 0 ? c.Runs[^1].StartedUtc : "")}  {c.Record.Title}"
        );

    /// <summary>Everything that is known of it.</summary>
    public static string Page(CampaignEntry c)
    {
        StringBuilder page = new();
        void Row(string label, string value) => page.Append("  ").Append(label.PadRight(10)).Append(value).Append('\n');
        CultureInfo plain = CultureInfo.InvariantCulture;
        Row("key", c.Record.Key);
        Row("study", c.Record.Study);
        Row("design", c.Record.Title);
        Row("items", string.Create(plain, $"{c.Coverage.Present} of {c.Record.Items} {c.Record.Stage}"));
        Row("pieces", string.Create(plain, $"{c.PieceCount}, {c.Bytes} bytes"));
        foreach (Provenance run in c.Runs)
        {
            Row("run", string.Create(plain, $"{run.StartedUtc}  {run.Machine}  {run.Tool}  {run.Threads} threads"));
        }
        page.Append("\nQuestion\n  ").Append(c.Record.Question).Append("\n\nDesign\n");
        foreach (string line in c.Record.Design.Split('\n'))
        {
            page.Append("  ").Append(line.TrimEnd('\r')).Append('\n');
        }
        return page.ToString();
    }

    /// <summary>The line as JSON members.</summary>
    public static void Write(Utf8JsonWriter json, CampaignEntry c)
    {
        json.WriteString("key"u8, c.Record.Key);
        json.WriteString("study"u8, c.Record.Study);
        json.WriteString("title"u8, c.Record.Title);
        json.WriteNumber("items"u8, c.Record.Items);
        json.WriteNumber("present"u8, c.Coverage.Present);
        json.WriteBoolean("complete"u8, c.Coverage.IsComplete);
        json.WriteNumber("stored"u8, c.StoredItems);
        json.WriteNumber("pieces"u8, c.PieceCount);
        json.WriteNumber("bytes"u8, c.Bytes);
    }

    /// <summary>The rest of the page as JSON members.</summary>
    public static void WriteDetails(Utf8JsonWriter json, CampaignEntry c)
    {
        json.WritePropertyName("question"u8);
        json.WriteRawValue(c.Record.Question);
        json.WriteString("design"u8, c.Record.Design);
        json.WriteStartArray("runs"u8);
        foreach (Provenance run in c.Runs)
        {
            json.WriteStartObject();
            json.WriteString("started"u8, run.StartedUtc);
            json.WriteString("machine"u8, run.Machine);
            json.WriteString("tool"u8, run.Tool);
            json.WriteNumber("threads"u8, run.Threads);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }
}
