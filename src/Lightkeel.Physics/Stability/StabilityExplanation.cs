namespace Lightkeel.Physics.Stability;

/// <summary>Says in plain words why a craft rides or not: which term decides, with numbers.</summary>
/// <remarks>
/// The term that decides is found by trying: each term of the Jacobian is removed and turned round in sign, and the model
/// is analysed again. An axisymmetric Jacobian has four terms (offset and tilt, force and torque), any other has sixteen.
/// </remarks>
public static class StabilityExplanation
{
    /// <summary>The explanation, one sentence per item, in reading order.</summary>
    public static IReadOnlyList<string> Explain(StabilityReport report)
    {
        List<string> sentences = [Headline(report)];
        if (report.EFoldingSeconds is null || report.Verdict == StabilityVerdict.Undecided)
        {
            sentences.Add(report.Reason);
        }
        sentences.AddRange(UndecidedHelp(report));
        bool axisymmetric = StiffnessTerm.IsAxisymmetric(report.Model);
        sentences.AddRange(axisymmetric ? PlaneExplanation.Describe(report) : GeneralTerms(report));
        sentences.AddRange(DecidingTerms(report, axisymmetric));
        sentences.AddRange(Spin(report));
        sentences.AddRange(report.FreeCoordinates.Select(f => f.Sentence));
        sentences.AddRange(report.Warnings);
        return sentences;
    }

    private static string Headline(StabilityReport report)
    {
        string frequencies = string.Join(
            ", ",
            report.Modes.Where(m => m.FrequencyHertz > 0).Select(m => Decision.Text(m.FrequencyHertz)).Distinct()
        );
        string swings = frequencies.Length > 0 ? $" at {frequencies} Hz" : "";
        string folding = report.EFoldingSeconds is { } t ? Decision.Text(t) : "";
        StabilityMode first = report.Modes[0];
        return report.Verdict switch
        {
            StabilityVerdict.NeutrallyStable => $"The craft rides (neutrally stable): it swings{swings} without end.",
            StabilityVerdict.Damped => $"The craft rides (damped): its motions{swings} die away.",
            StabilityVerdict.Divergent when folding.Length > 0 =>
                $"The craft does not ride (divergent): a disturbance grows by e in {folding} s without swinging back.",
            StabilityVerdict.Divergent => "The craft does not ride (divergent with growth rate zero): it drifts off.",
            StabilityVerdict.Flutter =>
                $"The craft does not ride (flutter): it swings at {Decision.Text(first.FrequencyHertz)} Hz and the swing grows by e in {folding} s.",
            _ => "Whether the craft rides is undecided at the stated accuracy of the forces.",
        };
    }

    private static IEnumerable<string> UndecidedHelp(StabilityReport report)
    {
        if (report.Verdict != StabilityVerdict.Undecided)
        {
            yield break;
        }
        string now = Decision.Text(report.Model.RelativeError);
        yield return report.DecidingRelativeError is { } needed
            ? $"Forces with a relative error below {Decision.Text(needed)} (now {now}) would decide it."
            : $"A smaller error of the forces (now {now}) may not decide it: the design sits on the boundary itself. "
                + "Move it off the boundary and look at the margins.";
        if (report.GrowthErrorPerSecond > 0)
        {
            yield return $"A growth of up to {Decision.Text(report.GrowthErrorPerSecond)} 1/s cannot be excluded.";
        }
    }

    private static IEnumerable<string> GeneralTerms(StabilityReport report)
    {
        double[][] k = report.Model.Jacobian;
        yield return $"Offset is answered with dFx/dx = {Decision.Text(k[0][0])} N/m and dFy/dy = {Decision.Text(k[1][1])} N/m; "
            + $"tilt is answered with dTx/dtilt_x = {Decision.Text(k[2][2])} and dTy/dtilt_y = {Decision.Text(k[3][3])} N m/rad "
            + "(negative means pushed back).";
        double skew = StiffnessTerm.CirculatoryShare(report.Model);
        yield return skew > 1e-9
            ? $"The Jacobian is not symmetric ({Decision.Text(100 * skew)} % of its size, offsets measured in radii of gyration), "
                + "so the light can feed energy into a closed loop of offset and tilt: flutter is possible besides divergence."
            : "The Jacobian is symmetric, so the light acts like a potential: without spin only divergence is possible, not flutter.";
    }

    private static IEnumerable<string> DecidingTerms(StabilityReport report, bool axisymmetric)
    {
        if (report.Verdict == StabilityVerdict.Undecided)
        {
            return [];
        }
        IReadOnlyList<StiffnessTerm> terms = axisymmetric
            ? StiffnessTerm.AxisymmetricTerms(report.Model)
            : StiffnessTerm.AllTerms(report.Model);
        bool rides = report.Verdict.Rides();
        LinearModel model = Remembering(report.Model);
        List<string> flips = [];
        foreach (StiffnessTerm term in terms.Where(t => t.Value != 0))
        {
            StabilityVerdict without = VerdictOf(model, term, 0);
            StabilityVerdict reversed = VerdictOf(model, term, -1);
            bool removalFlips = without != StabilityVerdict.Undecided && without.Rides() != rides;
            bool reversalFlips = reversed != StabilityVerdict.Undecided && reversed.Rides() != rides;
            if (removalFlips || reversalFlips)
            {
                flips.Add(Flip(term, removalFlips ? without : null, reversalFlips ? reversed : null));
            }
        }
        bool drifts = report.Verdict == StabilityVerdict.Divergent && report.EFoldingSeconds is null;
        if (flips.Count == 0 && drifts)
        {
            return ["What it lacks is a restoring force: no change of the terms that are there makes it ride."];
        }
        if (flips.Count == 0)
        {
            return rides
                ?
                [
                    "No single term of the Jacobian decides alone: removing or reversing any one of them leaves it riding.",
                ]
                :
                [
                    "No single term of the Jacobian is to blame alone: removing or reversing any one of them does not make it ride.",
                ];
        }
        string lead = rides
            ? "It rides only as long as these terms stay: "
            : "Any one of these changes would make it ride: ";
        return [lead + string.Join("; ", flips) + "."];
    }

    /// <summary>The model with a Jacobian over the spin angle that is computed once per angle, not once per trial.</summary>
    private static LinearModel Remembering(LinearModel model)
    {
        if (model.JacobianAtSpinAngle is not { } original)
        {
            return model;
        }
        Dictionary<double, double[][]> known = [];
        return model with
        {
            JacobianAtSpinAngle = angle =>
            {
                if (!known.TryGetValue(angle, out double[][]? jacobian))
                {
                    jacobian = original(angle);
                    known[angle] = jacobian;
                }
                return jacobian;
            },
        };
    }

    private static StabilityVerdict VerdictOf(LinearModel model, StiffnessTerm term, double factor) =>
        StabilityAnalysis.Analyse(term.Scaled(model, factor)).Verdict;

    private static string Flip(StiffnessTerm term, StabilityVerdict? without, StabilityVerdict? reversed)
    {
        string name = $"{term.Name} = {Decision.Text(term.Value)} {term.Unit}";
        return (without, reversed) switch
        {
            ({ } a, { } b) when a == b => $"{name} (removed or reversed: {a.Word()})",
            ({ } a, { } b) => $"{name} (removed: {a.Word()}, reversed: {b.Word()})",
            ({ } a, null) => $"{name} (removed: {a.Word()})",
            (null, { } b) => $"{name} (reversed: {b.Word()})",
            _ => name,
        };
    }

    private static IEnumerable<string> Spin(StabilityReport report)
    {
        LinearModel model = report.Model;
        if (model.SpinRadiansPerSecond == 0)
        {
            yield break;
        }
        StabilityReport still = StabilityAnalysis.Analyse(
            model with
            {
                SpinRadiansPerSecond = 0,
                JacobianAtSpinAngle = null,
            }
        );
        string hertz = Decision.Text(Math.Abs(model.SpinRadiansPerSecond) / (2 * Math.PI));
        string without =
            still.GrowthPerSecond > 0
                ? $"{still.Verdict.Word()} with e-folding in {Decision.Text(1 / still.GrowthPerSecond)} s"
                : still.Verdict.Word();
        bool helps = report.Verdict.Rides() && !still.Verdict.Rides();
        bool harms = !report.Verdict.Rides() && still.Verdict.Rides();
        string effect = (helps, harms) switch
        {
            (true, _) => "the spin is what holds it",
            (_, true) => "the spin is what upsets it",
            _ when report.Verdict.Rides() => "the spin changes the frequencies, not that it rides",
            _ => "the spin changes how it leaves, not that it leaves",
        };
        yield return $"It spins at {hertz} Hz; without spin the verdict would be {without}: {effect}.";
    }
}
