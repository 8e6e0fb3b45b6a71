using System.Collections.Frozen;

namespace Lightkeel.Studies.Catalogue;

/// <summary>How far a stage of a run is.</summary>
/// <param name="Stage">What is being done.</param>
/// <param name="Done">Pieces of work done.</param>
/// <param name="Total">All pieces; 0 when not known.</param>
/// <param name="RatePerSecond">Pieces per second over the last stretch; 0 while not known.</param>
/// <param name="TimeLeft">Estimated time left; null while not known.</param>
public readonly record struct ProgressState(
    string Stage,
    long Done,
    long Total,
    double RatePerSecond,
    TimeSpan? TimeLeft
)
{
    /// <summary>Pieces of this stage without a usable result, by reason; empty when there are none.</summary>
    public IReadOnlyDictionary<string, long> Failures { get; init; } = FrozenDictionary<string, long>.Empty;

    /// <summary>What has come of the stage so far; null for nothing to tell.</summary>
    public string? Note { get; init; }

    /// <summary>True when all pieces of the stage are done.</summary>
    public bool IsComplete => Total > 0 && Done >= Total;
}

/// <summary>Adds rate and time left to reports and passes on no more than a few each second.</summary>
/// <remarks>
/// The rate is smoothed exponentially over about ten seconds, so that it follows work of changing cost. Safe to call from
/// many threads. A stage's first and last report always pass.
/// </remarks>
public sealed class ProgressMeter : IProgressReporter
{
    private const double SmoothingSeconds = 10;
    private readonly Lock _lock = new();
    private readonly Action<ProgressState> _show;
    private readonly TimeProvider _time;
    private readonly TimeSpan _interval;
    private readonly SortedDictionary<string, long> _failures = new(StringComparer.Ordinal);
    private string? _stage;
    private long _shownAt;
    private long _done;
    private double _rate;
    private string? _note;

    /// <summary>Creates a meter.</summary>
    /// <param name="show">Called with each state that passes, never from two threads at once.</param>
    /// <param name="time">The clock.</param>
    /// <param name="interval">Least time between two states of a stage.</param>
    public ProgressMeter(Action<ProgressState> show, TimeProvider time, TimeSpan interval) =>
        (_show, _time, _interval) = (show, time, interval);

    /// <inheritdoc/>
    public void Report(string stage, long done, long total)
    {
        lock (_lock)
        {
            long now = _time.GetTimestamp();
            if (stage != _stage)
            {
                (_stage, _shownAt, _done, _rate) = (stage, now, done, 0);
                _failures.Clear();
                _note = null;
                _show(new(stage, done, total, 0, null));
                return;
            }
            TimeSpan passed = _time.GetElapsedTime(_shownAt, now);
            bool last = total > 0 && done >= total && _done < total;
            if (done < _done || (passed < _interval && !last))
            {
                return;
            }
            Advance(done, passed.TotalSeconds);
            _shownAt = now;
            TimeSpan? left =
                total > 0 && _rate > 0 ? TimeSpan.FromSeconds(Math.Min((total - done) / _rate, 1e9)) : null;
            _show(new(stage, done, total, _rate, left) { Failures = _failures.ToFrozenDictionary(), Note = _note });
        }
    }

    /// <inheritdoc/>
    public void ReportFailure(string stage, string reason)
    {
        lock (_lock)
        {
            if (stage == _stage)
            {
                _failures[reason] = _failures.GetValueOrDefault(reason) + 1;
            }
        }
    }

    /// <inheritdoc/>
    public void ReportNote(string stage, string note)
    {
        lock (_lock)
        {
            _note = stage == _stage ? note : _note;
        }
    }

    private void Advance(long done, double seconds)
    {
        if (seconds > 0)
        {
            double now = (done - _done) / seconds;
            double weight = 1 - Math.Exp(-seconds / SmoothingSeconds);
            _rate = _rate == 0 ? now : _rate + weight * (now - _rate);
        }
        _done = done;
    }
}
