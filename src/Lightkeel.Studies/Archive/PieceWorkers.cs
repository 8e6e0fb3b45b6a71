using System.Collections.Concurrent;
using System.Diagnostics;

namespace Lightkeel.Studies.Archive;

/// <summary>Threads that compute the missing pieces of a campaign and hand them to whoever stores them.</summary>
/// <remarks>
/// A piece is handed over when its block is done, and before that when it has taken longer than a tenth of the time since the
/// run began: the first item at once, then ever longer pieces. So a kill loses a tenth of the run and no more than
/// <see cref="LongestPiece"/> a thread, and the number of pieces grows with the logarithm of the time.
/// </remarks>
internal sealed class PieceWorkers : IDisposable
{
    private const double ShareAtRisk = 0.1;
    private static readonly TimeSpan ShortestPiece = TimeSpan.FromMilliseconds(10);
    private static readonly TimeSpan LongestPiece = TimeSpan.FromSeconds(2);
    private readonly Campaign _campaign;
    private readonly CampaignCrew _crew;
    private readonly ItemRange[] _missing;
    private readonly long _wanted;
    private readonly BlockingCollection<Piece> _finished;
    private readonly StoredElsewhere _storedByOthers;
    private readonly Stopwatch _watch = Stopwatch.StartNew();
    private readonly CancellationTokenSource _abandoned = new();
    private readonly Lock _faults = new();
    private (long Item, Exception Fault)? _fault;
    private long _done;
    private int _next = -1;
    private int _working;

    public PieceWorkers(Campaign campaign, CampaignCrew crew, ItemRange[] missing, long done, long wanted)
    {
        (_campaign, _crew, _missing, _done, _wanted) = (campaign, crew, missing, done, wanted);
        // As many finished pieces may wait for the disk as keep the threads busy over a slow write.
        _finished = new(64 + 4 * crew.Threads);
        _storedByOthers = new(campaign.Plan.Block);
    }

    /// <summary>Computed pieces, until there are no more.</summary>
    public BlockingCollection<Piece> Finished => _finished;

    /// <summary>The fault of the lowest item that had one.</summary>
    public Exception? Fault => _fault?.Fault;

    private bool IsStopping =>
        _fault is not null || _abandoned.IsCancellationRequested || _crew.Cancellation.IsCancellationRequested;

    /// <summary>Starts the threads.</summary>
    public IReadOnlyList<Thread> Start()
    {
        _working = Math.Min(_crew.Threads, _missing.Length);
        List<Thread> threads = [];
        for (int i = 0; i < _working; i++)
        {
            Thread thread = new(WorkThrough) { IsBackground = true, Name = $"lightkeel {_campaign.Plan.Stage}" };
            threads.Add(thread);
        }
        threads.ForEach(t => t.Start());
        return threads;
    }

    /// <summary>Leaves out what another process has stored meanwhile.</summary>
    public void LeaveOut(IReadOnlyList<ItemRange> stored) => _storedByOthers.Add(stored);

    /// <summary>Stops without keeping what is not stored yet.</summary>
    public void Abandon() => _abandoned.Cancel();

    public void Dispose()
    {
        _finished.Dispose();
        _abandoned.Dispose();
    }

    private void WorkThrough()
    {
        try
        {
            while (!IsStopping && Interlocked.Increment(ref _next) is int i && i < _missing.Length)
            {
                if (_storedByOthers.Covers(_missing[i]))
                {
                    Advance(_missing[i].Count);
                }
                else
                {
                    Compute(_missing[i]);
                }
            }
        }
        catch (OperationCanceledException) when (_abandoned.IsCancellationRequested)
        {
            // Nobody stores any more.
        }
        finally
        {
            if (Interlocked.Decrement(ref _working) == 0)
            {
                _finished.CompleteAdding();
            }
        }
    }

    private void Compute(ItemRange range)
    {
        while (range.Count > 0 && !IsStopping)
        {
            int count = Piece(range);
            range = new(range.First + count, range.Count - count);
            if (count == 0)
            {
                return;
            }
        }
    }

    // Computes the first items of a range and hands them over; one that is stopped in the middle is kept as far as it came.
    private int Piece(ItemRange range)
    {
        int bytes = _campaign.Plan.Question.Layout.Bytes;
        byte[] rows = new byte[range.Count * bytes];
        TimeSpan begun = _watch.Elapsed;
        int count = 0;
        while (count < range.Count && !IsStopping)
        {
            Span<byte> row = rows.AsSpan(count * bytes, bytes);
            if (!TryCompute(range.First + count, row))
            {
                break;
            }
            count++;
            if (_campaign.Failure(row) is { } reason)
            {
                _crew.Failed(reason);
            }
            Advance(1);
            if (IsDue(begun))
            {
                break;
            }
        }
        if (count > 0)
        {
            byte[] whole = count == range.Count ? rows : rows[..(count * bytes)];
            _finished.Add(new(range with { Count = count }, whole), _abandoned.Token);
        }
        return count;
    }

    private bool IsDue(TimeSpan begun)
    {
        TimeSpan now = _watch.Elapsed;
        TimeSpan took = now - begun;
        return took >= LongestPiece || (took >= ShortestPiece && took >= ShareAtRisk * now);
    }

    private bool TryCompute(long item, Span<byte> row)
    {
#pragma warning disable CA1031 // What is wrong with an item stops all threads and is thrown again by the runner.
        try
        {
            _campaign.Work(item, row);
            return true;
        }
        catch (Exception e)
        {
            lock (_faults)
            {
                if (_fault is null || item < _fault.Value.Item)
                {
                    _fault = (item, e);
                }
            }
            return false;
        }
#pragma warning restore CA1031
    }

    private void Advance(int count) => _crew.Report(Interlocked.Add(ref _done, count), _wanted);
}
