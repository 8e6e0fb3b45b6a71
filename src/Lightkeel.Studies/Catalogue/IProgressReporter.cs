namespace Lightkeel.Studies.Catalogue;

/// <summary>Where a run tells how far it is. May be called from any thread.</summary>
public interface IProgressReporter
{
    /// <summary>Tells how far a stage is.</summary>
    /// <param name="stage">What is being done, such as "rides".</param>
    /// <param name="done">Pieces of work done.</param>
    /// <param name="total">All pieces; 0 when not known.</param>
    void Report(string stage, long done, long total);

    /// <summary>Tells that a piece of work was done without a usable result.</summary>
    /// <param name="stage">What is being done.</param>
    /// <param name="reason">Why, in a word.</param>
    void ReportFailure(string stage, string reason) { }

    /// <summary>Tells what has come of the stage so far.</summary>
    /// <param name="stage">What is being done.</param>
    /// <param name="note">A few words, such as "front 24".</param>
    void ReportNote(string stage, string note) { }
}

/// <summary>Tells nobody.</summary>
public sealed class SilentProgress : IProgressReporter
{
    private SilentProgress() { }

    /// <summary>The only instance.</summary>
    public static SilentProgress Instance { get; } = new();

    /// <inheritdoc/>
    public void Report(string stage, long done, long total) { }
}
