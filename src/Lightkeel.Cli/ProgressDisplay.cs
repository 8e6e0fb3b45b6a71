using System.Globalization;
using System.Text.Json;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Cli;

/// <summary>Shows progress on standard error: a line that renews itself, plain lines, JSON lines, or nothing.</summary>
internal sealed class ProgressDisplay : IDisposable
{
    private static readonly TimeSpan Often = TimeSpan.FromSeconds(0.2);
    private static readonly TimeSpan Seldom = TimeSpan.FromSeconds(5);
    private readonly TextWriter _writer;
    private readonly bool _renews;
    private int _shownWidth;

    private ProgressDisplay(TextWriter writer, bool renews) => (_writer, _renews) = (writer, renews);

    public IProgressReporter Reporter { get; private set; } = SilentProgress.Instance;

    public static ProgressDisplay Choose(StudySettings settings, HostConsole console)
    {
        string kind = settings.Quiet ? "none" : settings.Progress ?? (console.ErrorIsTerminal ? "text" : "none");
        ProgressDisplay display = new(console.Error, kind == "text" && console.ErrorIsTerminal);
        return kind switch
        {
            "json" => display.With(display.ShowJson, Often),
            "text" when display._renews => display.With(display.ShowRenewed, Often),
            "text" => display.With(state => display._writer.WriteLine(Describe(state)), Seldom),
            _ => display,
        };
    }

    /// <summary>Takes the renewed line away.</summary>
    public void Dispose()
    {
        if (_shownWidth > 0)
        {
            _writer.Write("\r" + new string(' ', _shownWidth) + "\r");
        }
    }

    internal static string Describe(ProgressState state)
    {
        CultureInfo plain = CultureInfo.InvariantCulture;
        string amount =
            state.Total > 0
                ? string.Create(plain, $"{state.Done}/{state.Total} ({100.0 * state.Done / state.Total:0} %)")
                : state.Done.ToString(plain);
        string rate = state.RatePerSecond > 0 ? string.Create(plain, $", {state.RatePerSecond:G3}/s") : "";
        string left = state is { IsComplete: false, TimeLeft: TimeSpan time } ? $", {Write(time)} left" : "";
        string failed =
            state.Failures.Count > 0
                ? "; without result: " + string.Join(", ", state.Failures.Select(f => $"{f.Value} {f.Key}"))
                : "";
        string note = state.Note is { } told ? $"; {told}" : "";
        return $"{state.Stage}: {amount}{rate}{left}{note}{failed}";
    }

    private ProgressDisplay With(Action<ProgressState> show, TimeSpan interval)
    {
        Reporter = new ProgressMeter(show, TimeProvider.System, interval);
        return this;
    }

    private void ShowRenewed(ProgressState state)
    {
        string line = Describe(state);
        _writer.Write("\r" + line.PadRight(_shownWidth));
        _shownWidth = line.Length;
    }

    private void ShowJson(ProgressState state)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream))
        {
            json.WriteStartObject();
            json.WriteStartObject("progress"u8);
            json.WriteString("stage"u8, state.Stage);
            json.WriteNumber("done"u8, state.Done);
            json.WriteNumber("total"u8, state.Total);
            json.WriteNumber("rate_1_s"u8, state.RatePerSecond);
            if (state.TimeLeft is TimeSpan left)
            {
                json.WriteNumber("left_s"u8, left.TotalSeconds);
            }
            if (state.Note is { } note)
            {
                json.WriteString("note"u8, note);
            }
            json.WriteStartObject("failures"u8);
            foreach ((string reason, long count) in state.Failures.OrderBy(f => f.Key, StringComparer.Ordinal))
            {
                json.WriteNumber(reason, count);
            }
            json.WriteEndObject();
            json.WriteEndObject();
            json.WriteEndObject();
        }
        _writer.WriteLine(System.Text.Encoding.UTF8.GetString(stream.ToArray()));
    }

    private static string Write(TimeSpan time) =>
        time.TotalSeconds < 100 ? string.Create(CultureInfo.InvariantCulture, $"{time.TotalSeconds:0} s")
        : time.TotalMinutes < 100 ? string.Create(CultureInfo.InvariantCulture, $"{time.TotalMinutes:0} min")
        : string.Create(CultureInfo.InvariantCulture, $"{time.TotalHours:0.0} h");
}
