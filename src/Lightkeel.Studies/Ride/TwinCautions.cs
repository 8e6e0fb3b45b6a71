using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Ride;

/// <summary>What the twins of an ensemble say, in words.</summary>
internal static class TwinCautions
{
    /// <summary>Twins whose endings differ, with what that means for the held fraction.</summary>
    public static IEnumerable<(string Code, string Text, EndingTwins Twins)> That(RideEnsembleResult r)
    {
        if (r.StepTwins is { Changed: > 0 } steps)
        {
            yield return ("ending-not-converged", Text(r, steps, "finer steps", "--tolerance or --step"), steps);
        }
        if (r.ForceTwins is { Changed: > 0 } forces)
        {
            yield return (
                "ending-depends-on-forces",
                Text(r, forces, "forces that differ by less than their error", "--accuracy"),
                forces
            );
        }
    }

    /// <summary>Rows of the summary.</summary>
    public static IEnumerable<SummaryRow> Rows(RideEnsembleResult r)
    {
        foreach (
            (EndingTwins? twins, string with) in new[] { (r.StepTwins, "finer steps"), (r.ForceTwins, "other forces") }
        )
        {
            if (twins is { } known)
            {
                yield return new(
                    "endings changed by " + with,
                    FormattableString.Invariant($"{known.Changed} of {known.Rides}"),
                    "",
                    "rides flown again"
                );
            }
        }
    }

    private static string Text(RideEnsembleResult r, EndingTwins t, string with, string option)
    {
        string what = FormattableString.Invariant(
            $"With {with} {t.Changed} of {t.Rides} rides end otherwise ({t.HeldToLost} held became lost, {t.LostToHeld} lost became held): such rides are too near to a limit, or too sensitive, to be told one by one."
        );
        string shift = FormattableString.Invariant(
            $" The held fraction of these moves by {t.ShiftFraction:+0.####;-0.####;0}"
        );
        string range =
            t.Rides == r.Rides
                ? ""
                : FormattableString.Invariant(
                    $" (that of all rides, at 95 %, by {t.ShiftInterval95[0]:+0.####;-0.####;0} to {t.ShiftInterval95[1]:+0.####;-0.####;0})"
                );
        double moved = r.HeldFraction + t.ShiftFraction;
        bool stays = moved >= r.Interval95[0] && moved <= r.Interval95[1];
        string verdict =
            stays ? ", within its interval: it is good to that, single rides are not."
            : t.HeldFractionStands
                ? ", by more than its interval, but no more than the chance of so few changes explains."
            : FormattableString.Invariant(
                $", out of its interval ({r.Interval95[0]:0.####} to {r.Interval95[1]:0.####}): it cannot be vouched for. Ask for a smaller {option}."
            );
        return what + shift + range + verdict;
    }
}
