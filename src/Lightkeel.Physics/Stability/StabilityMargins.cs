using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability;

/// <summary>Finds how far a number of a design may move before the verdict on its stability changes.</summary>
/// <remarks>
/// From the present value outward in steps of 0.5 % that grow by 1.7; the first step across which the verdict changes is
/// narrowed to 1e-9 of the value on the signed <see cref="StabilityReport.Clearance"/> (to 1e-6 by halving where two kinds of
/// instability meet, which has no such sign). A change back and forth inside one step is not seen. Around 40
/// analyses per number. Pure: uses no state but the given function, which must be pure too.
/// </remarks>
public static class StabilityMargins
{
    private const double FirstStep = 0.005;
    private const double StepGrowth = 1.7;
    private const int MostSteps = 40;

    /// <summary>Computes margins and sensitivities of one number.</summary>
    /// <param name="number">The number and its range.</param>
    /// <param name="analyse">
    /// The stability at a value of the number. It may throw <see cref="PressureUnavailableException"/> where the forces cannot be
    /// computed: the search then stops there and says so.
    /// </param>
    /// <exception cref="ArgumentException">The range is empty or the present value outside it.</exception>
    /// <exception cref="PressureUnavailableException">The forces cannot be computed at the present value.</exception>
    public static StabilityMargin Find(DesignNumber number, Func<double, StabilityReport> analyse)
    {
        number.Check();
        MarginProbe probe = new(analyse);
        StabilityReport present =
            probe.At(number.Present).Report
            ?? throw new PressureUnavailableException(
                $"The stability at the present value of {number.Name} could not be computed: {probe.At(number.Present).Reason}"
            );
        IReadOnlyList<ModeSensitivity> slopes = ModeSlopes.Compute(number, present, probe);
        MarginSide down = Search(number, present, probe, number.Smallest, upward: false);
        MarginSide up = Search(number, present, probe, number.Largest, upward: true);
        return new(number, present.Verdict, down, up, slopes, probe.Count);
    }

    private static MarginSide Search(
        DesignNumber number,
        StabilityReport present,
        MarginProbe probe,
        double bound,
        bool upward
    )
    {
        double last = number.Present;
        foreach (double value in Outward(number, bound))
        {
            Outcome outcome = probe.At(value);
            if (outcome.Report is null)
            {
                return Barrier(number, present, probe, last, value);
            }
            if (Changed(present, outcome.Report))
            {
                return Narrow(number, present, probe, last, value);
            }
            last = value;
        }
        string side = upward ? "up" : "down";
        return new(
            null,
            0,
            null,
            last,
            last == number.Present
                ? $"{number.Name} stands at the end of its range: there is no way {side}."
                : $"The verdict stays {present.Verdict.Word()} {side} to the end of the range, {Number(bound)}."
        );
    }

    /// <summary>Values from the present one to the bound; towards zero the steps are even in ratio, away from it in distance.</summary>
    private static IEnumerable<double> Outward(DesignNumber number, double bound)
    {
        double present = number.Present;
        if (bound == present)
        {
            yield break;
        }
        double sign = Math.Sign(bound - present);
        bool towardsZero = present * bound > 0 && Math.Abs(bound) < Math.Abs(present);
        double unit = present != 0 ? Math.Abs(present) : 0.2 * Math.Abs(bound);
        double first = ModeSlopes.Step(number);
        if (first > 0 && first < Math.Abs(bound - present))
        {
            yield return present + sign * first;
        }
        double distance = FirstStep;
        for (int k = 0; k < MostSteps; k++, distance *= StepGrowth)
        {
            double value = towardsZero ? present / (1 + distance) : present + sign * unit * distance;
            // A step that would leave a sliver before the bound goes to the bound.
            if (sign * (bound - value) <= 0.2 * unit * distance * (towardsZero ? Math.Abs(value / present) : 1))
            {
                break;
            }
            yield return value;
        }
        yield return bound;
    }

    /// <summary>Whether a report differs from the present one; an undecided one differs when its clearance has changed sign.</summary>
    private static bool Changed(StabilityReport present, StabilityReport other)
    {
        if (other.Verdict == StabilityVerdict.Undecided && present.Verdict != StabilityVerdict.Undecided)
        {
            return Math.Sign(other.Clearance) != Math.Sign(present.Clearance);
        }
        return other.Verdict != present.Verdict;
    }

    private static MarginSide Barrier(
        DesignNumber number,
        StabilityReport present,
        MarginProbe probe,
        double good,
        double bad
    )
    {
        // Halvings place the end of what can be computed; they may find the change of verdict before it.
        for (int k = 0; k < 8 && Math.Abs(bad - good) > 1e-4 * Math.Abs(good); k++)
        {
            double middle = 0.5 * (good + bad);
            Outcome outcome = probe.At(middle);
            if (outcome.Report is null)
            {
                bad = middle;
            }
            else if (Changed(present, outcome.Report))
            {
                return Narrow(number, present, probe, good, middle);
            }
            else
            {
                good = middle;
            }
        }
        return new(
            null,
            0,
            null,
            good,
            $"The verdict stays {present.Verdict.Word()} to {Number(good)}; beyond about {Number(bad)} it is not computable: {probe.At(bad).Reason}"
        )
        {
            NotComputableBeyond = bad,
        };
    }

    private static MarginSide Narrow(
        DesignNumber number,
        StabilityReport present,
        MarginProbe probe,
        double same,
        double other
    )
    {
        bool signed =
            present.Verdict.Rides() != probe.At(other).Report!.Verdict.Rides()
            && HasOppositeSigns(probe.At(same).Report!.Clearance, probe.At(other).Report!.Clearance);
        double width = signed ? 1e-9 : 1e-6;
        Bracket bracket = new(same, other);
        (double? obstacle, bracket) = signed
            ? MarginRoot.Solve(probe, bracket, width)
            : Halve(present, probe, bracket, width);
        if (signed && obstacle is null)
        {
            (obstacle, bracket) = Halve(present, probe, bracket, width);
        }
        if (obstacle is { } unreachable)
        {
            // Something between the two cannot be computed (a trim that ceases to exist): the first such place is the end.
            return Barrier(number, present, probe, bracket.Same, unreachable);
        }
        StabilityVerdict becomes = Beyond(probe, bracket, present) ?? probe.At(other).Report!.Verdict;
        double at = 0.5 * (bracket.Same + bracket.Other);
        double share = number.Present != 0 ? 100 * (at / number.Present - 1) : double.NaN;
        string percent = double.IsFinite(share) ? $" ({(share < 0 ? "" : "+")}{Decision.Text(share)} %)" : "";
        return new(
            at,
            0.5 * Math.Abs(bracket.Other - bracket.Same),
            becomes,
            other,
            $"At {Number(at)}{percent} the verdict changes from {present.Verdict.Word()} to {becomes.Word()}."
        );
    }

    /// <summary>The first decided verdict beyond the change: right behind it the accuracy may not decide.</summary>
    private static StabilityVerdict? Beyond(MarginProbe probe, Bracket bracket, StabilityReport present) =>
        probe
            .Known(bracket.Other, bracket.Other > bracket.Same)
            .Where(v => v != StabilityVerdict.Undecided && v != present.Verdict)
            .Select(v => (StabilityVerdict?)v)
            .FirstOrDefault();

    private static bool HasOppositeSigns(double a, double b) => (a > 0 && b < 0) || (a < 0 && b > 0);

    private static (double? Obstacle, Bracket Bracket) Halve(
        StabilityReport present,
        MarginProbe probe,
        Bracket bracket,
        double width
    )
    {
        while (!bracket.IsNarrow(width))
        {
            double middle = 0.5 * (bracket.Same + bracket.Other);
            Outcome outcome = probe.At(middle);
            if (outcome.Report is null)
            {
                return (middle, bracket);
            }
            bracket = Changed(present, outcome.Report)
                ? bracket with
                {
                    Other = middle,
                }
                : bracket with
                {
                    Same = middle,
                };
        }
        return (null, bracket);
    }

    private static string Number(double value) =>
        value.ToString("G9", System.Globalization.CultureInfo.InvariantCulture);
}
