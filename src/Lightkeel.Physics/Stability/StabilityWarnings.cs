using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Stability;

/// <summary>What a reader of a verdict must know beside it.</summary>
public static class StabilityWarnings
{
    /// <summary>What linear analysis hides from any spinning craft, for reports that nothing backs.</summary>
    public const string SpinTrap =
        "Linear analysis about perfect alignment hides the trap of spin: an angular momentum that starts tilted from the "
        + "beam precesses, and the force averaged over the precession has a sideways part. Back this verdict with that "
        + "average and with nonlinear rides from misaligned starts.";

    internal static IReadOnlyList<string> For(LinearModel model, ModeFrame frame)
    {
        List<string> warnings = [];
        if (model.SpinRadiansPerSecond == 0)
        {
            return warnings;
        }
        warnings.Add(SpinTrap);
        Mat3 inertia = model.InertiaKilogramSquareMetres;
        double unbalance = double.Hypot(inertia.Row0.Z, inertia.Row1.Z);
        double stiffness = Math.Abs(inertia.Row2.Z - 0.5 * (inertia.Row0.X + inertia.Row1.Y));
        if (unbalance > 1e-12 * inertia.Row2.Z)
        {
            string cone =
                stiffness > unbalance
                    ? $"about {Decision.Text(unbalance / stiffness)} rad"
                    : "a large angle, because axial and transverse inertia are nearly equal";
            warnings.Add(
                $"The spin axis is not a principal axis: the craft wobbles at its spin rate by {cone}. The verdict is that of "
                    + "the balanced craft; the forced wobble must be ridden out in the nonlinear model."
            );
        }
        if (frame == ModeFrame.Body)
        {
            warnings.Add(
                $"Frequencies are those felt on the craft; an observer on the beam sees each at plus and minus the spin of {Decision.Text(Math.Abs(model.SpinRadiansPerSecond) / (2 * Math.PI))} Hz."
            );
        }
        if (frame == ModeFrame.Periodic)
        {
            warnings.Add("Frequencies of a periodic system are known up to whole multiples of the spin frequency.");
        }
        return warnings;
    }
}
