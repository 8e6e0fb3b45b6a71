namespace Lightkeel.Physics.Stability;

/// <summary>The conditions of one plane (x, tilt_y) of an axisymmetric craft, in words and numbers.</summary>
/// <remarks>
/// With a = kxx/m, b = kxt/m, c = ktx/I1, d = ktt/I1 the squares of the roots without spin are h ± √Δ, h = (a + d)/2,
/// Δ = ((a − d)/2)² + bc. The craft rides exactly when a + d &lt; 0, ad − bc &gt; 0 and Δ &gt; 0.
/// </remarks>
internal static class PlaneExplanation
{
    public static IEnumerable<string> Describe(StabilityReport report)
    {
        LinearModel model = report.Model;
        double[][] k = model.Jacobian;
        (double kxx, double kxt, double ktx, double ktt) = (k[0][0], k[0][3], k[3][0], k[3][3]);
        bool tiltIsFree = report.FreeCoordinates.Count == 2;
        yield return OffsetSentence(kxx);
        if (tiltIsFree)
        {
            yield break;
        }
        yield return TiltSentence(ktt);
        yield return CouplingSentence(kxt, ktx);
        double inertia = 0.5 * (model.InertiaKilogramSquareMetres.Row0.X + model.InertiaKilogramSquareMetres.Row1.Y);
        double m = model.MassKilograms;
        double trace = kxx / m + ktt / inertia;
        double determinant = (kxx * ktt - kxt * ktx) / (m * inertia);
        double half = 0.5 * (kxx / m - ktt / inertia);
        double discriminant = half * half + kxt * ktx / (m * inertia);
        yield return Conditions(trace, determinant, discriminant, model.SpinRadiansPerSecond != 0);
        if (model.SpinRadiansPerSecond == 0)
        {
            foreach (string sentence in Failures(kxx, ktt, kxt * ktx, trace, determinant, discriminant))
            {
                yield return sentence;
            }
        }
    }

    private static string OffsetSentence(double kxx) =>
        kxx switch
        {
            < 0 => $"The offset itself pushes it back (dFx/dx = {Decision.Text(kxx)} N/m).",
            > 0 => $"The offset itself pushes it further out (dFx/dx = +{Decision.Text(kxx)} N/m).",
            _ => "The offset itself makes no sideways force (dFx/dx = 0).",
        };

    private static string TiltSentence(double ktt) =>
        ktt switch
        {
            < 0 => $"A tilt is turned back (dTy/dtilt_y = {Decision.Text(ktt)} N m/rad).",
            > 0 => $"A tilt is turned further over (dTy/dtilt_y = +{Decision.Text(ktt)} N m/rad).",
            _ => "A tilt by itself makes no torque (dTy/dtilt_y = 0).",
        };

    private static string CouplingSentence(double kxt, double ktx)
    {
        string numbers = $"dFx/dtilt_y = {Decision.Text(kxt)} N/rad, dTy/dx = {Decision.Text(ktx)} N";
        return (kxt * ktx) switch
        {
            > 0 =>
                $"Offset and tilt help each other on ({numbers}, same sign): this pulls the two squared rates apart and can "
                    + "only lead to divergence.",
            < 0 =>
                $"Offset and tilt chase each other ({numbers}, opposite signs): this draws the two squared rates together, and "
                    + "where they meet the swing feeds on the beam (flutter).",
            _ => $"Offset and tilt are coupled one way at most ({numbers}): each keeps its own rate.",
        };
    }

    private static string Conditions(double trace, double determinant, double discriminant, bool spinning)
    {
        string lead = spinning ? "Without its spin, M⁻¹K of one plane would have" : "In one plane M⁻¹K has";
        return $"{lead} trace {Decision.Text(trace)} 1/s² (needs < 0: {YesNo(trace < 0)}), determinant {Decision.Text(determinant)} 1/s⁴ "
            + $"(needs > 0: {YesNo(determinant > 0)}) and discriminant {Decision.Text(discriminant)} 1/s⁴ (needs > 0: {YesNo(discriminant > 0)}).";
    }

    private static string YesNo(bool holds) => holds ? "holds" : "fails";

    private static IEnumerable<string> Failures(
        double kxx,
        double ktt,
        double product,
        double trace,
        double determinant,
        double discriminant
    )
    {
        if (discriminant < 0)
        {
            yield return "The discriminant fails: the chase between offset and tilt is stronger than the difference of their own rates "
                + "can resist. Smaller coupling, or rates further apart, would cure the flutter.";
        }
        if (determinant < 0)
        {
            yield return kxx * ktt > 0 && product > 0
                ? "The determinant fails: offset and tilt are each pushed the same way, but their coupling "
                    + $"({Decision.Text(product)} N²/rad) outweighs the product of their own stiffnesses ({Decision.Text(kxx * ktt)} N²/rad)."
                : "The determinant fails: one combination of offset and tilt is pushed away.";
        }
        if (trace > 0 && discriminant > 0 && determinant > 0)
        {
            yield return "The trace fails with a positive determinant: both combinations of offset and tilt are pushed away.";
        }
        if (discriminant > 0 && product < 0)
        {
            yield return "The discriminant holds: the rates of offset and tilt lie far enough apart for the chase to do no harm.";
        }
        if (trace < 0 && determinant > 0 && discriminant > 0 && (kxx > 0 || ktt > 0))
        {
            yield return (kxx > 0 ? "The offset alone would run away" : "The tilt alone would fall over")
                + "; its coupling with the other holds it.";
        }
    }
}
