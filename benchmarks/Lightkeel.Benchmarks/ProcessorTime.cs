using System.Runtime.InteropServices;

namespace Lightkeel.Benchmarks;

/// <summary>Processor time of the process, by the clock that Python's <c>process_time</c> reads: other work on the machine does not count.</summary>
internal static class ProcessorTime
{
    private const int ProcessClock = 2;

    /// <summary>Processor time since the start, s.</summary>
    public static double Seconds =>
        ReadClock(ProcessClock, out Reading now) == 0
            ? now.Seconds + 1e-9 * now.Nanoseconds
            : throw new InvalidOperationException(
                "The clock of the processor time cannot be read: the benchmarks need Linux."
            );

    [DllImport("libc", EntryPoint = "clock_gettime")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int ReadClock(int clock, out Reading reading);

    private struct Reading
    {
        public long Seconds;
        public long Nanoseconds;
    }
}
