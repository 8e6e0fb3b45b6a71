using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>An interval across which the verdict changes.</summary>
/// <param name="Same">End with the present verdict.</param>
/// <param name="Other">End with another.</param>
internal readonly record struct Bracket(double Same, double Other)
{
    public bool IsNarrow(double relative) =>
        Math.Abs(Other - Same) <= relative * Math.Max(Math.Abs(Same), Math.Abs(Other)) + 1e-300;
}

/// <summary>A report, or why there is none.</summary>
internal readonly record struct Outcome(StabilityReport? Report, string? Reason);

/// <summary>Runs the analysis at most once per value.</summary>
internal sealed class MarginProbe(Func<double, StabilityReport> analyse)
{
    private readonly Dictionary<double, Outcome> _known = [];

    public int Count => _known.Count;

    public Outcome At(double value)
    {
        if (!_known.TryGetValue(value, out Outcome outcome))
        {
            try
            {
                outcome = new(analyse(value), null);
            }
            catch (PressureUnavailableException unavailable)
            {
                outcome = new(null, unavailable.Message);
            }
            _known[value] = outcome;
        }
        return outcome;
    }

    /// <summary>Verdicts already known from a value outward, nearest first.</summary>
    public IEnumerable<StabilityVerdict> Known(double from, bool upward) =>
        _known
            .Where(k => k.Value.Report is not null && (upward ? k.Key >= from : k.Key <= from))
            .OrderBy(k => Math.Abs(k.Key - from))
            .Select(k => k.Value.Report!.Verdict);
}
