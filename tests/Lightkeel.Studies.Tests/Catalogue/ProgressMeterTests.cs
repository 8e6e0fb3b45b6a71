using Lightkeel.Studies.Catalogue;
using Xunit;

namespace Lightkeel.Studies.Tests.Catalogue;

public sealed class ProgressMeterTests
{
    private readonly HandClock _clock = new();
    private readonly List<ProgressState> _shown = [];

    [Fact]
    public void SteadyWork_HasItsRateAndTimeLeft()
    {
        ProgressMeter meter = new(_shown.Add, _clock, TimeSpan.FromSeconds(1));
        for (int second = 0; second <= 10; second++)
        {
            meter.Report("rides", 5 * second, 100);
            _clock.Advance(TimeSpan.FromSeconds(1));
        }
        Assert.Equal(11, _shown.Count);
        Assert.Equal(5, _shown[^1].RatePerSecond, 12);
        Assert.Equal(10, _shown[^1].TimeLeft!.Value.TotalSeconds, 9);
    }

    [Fact]
    public void ManyReports_AreThinned_ButFirstAndLastPass()
    {
        ProgressMeter meter = new(_shown.Add, _clock, TimeSpan.FromSeconds(1));
        for (int done = 0; done <= 1000; done++)
        {
            meter.Report("rides", done, 1000);
        }
        Assert.Equal([0L, 1000L], _shown.Select(state => state.Done));
        Assert.True(_shown[^1].IsComplete);
    }

    [Fact]
    public void ReportsFromManyThreads_NeverGoBack()
    {
        ProgressMeter meter = new(_shown.Add, TimeProvider.System, TimeSpan.Zero);
        Parallel.For(0, 1000, done => meter.Report("rides", done, 1000));
        Assert.Equal(_shown.Select(state => state.Done).Order(), _shown.Select(state => state.Done));
    }

    [Fact]
    public void NewStage_BeginsAfresh()
    {
        ProgressMeter meter = new(_shown.Add, _clock, TimeSpan.FromSeconds(1));
        meter.Report("search", 10, 10);
        meter.Report("rides", 0, 5);
        Assert.Equal(["search", "rides"], _shown.Select(state => state.Stage));
        Assert.Null(_shown[^1].TimeLeft);
    }

    private sealed class HandClock : TimeProvider
    {
        private long _ticks;

        public override long GetTimestamp() => _ticks;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public void Advance(TimeSpan time) => _ticks += time.Ticks;
    }
}
