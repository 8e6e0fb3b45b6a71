namespace Lightkeel.Physics.Stability;

/// <summary>Linear stability of beam riding about a trim.</summary>
/// <remarks>
/// Which equations are used:
/// <list type="bullet">
/// <item>no spin, no damping: λ² from the eigenvalues of M⁻¹K, pairs in closed form;</item>
/// <item>spin, axisymmetric Jacobian and inertia: the quartic of <c>x + iy</c> and the lean of the axis;</item>
/// <item>spin of an axisymmetric craft in any beam, or damping: eigenvalues in beam axes;</item>
/// <item>spin of any craft in an axisymmetric beam: eigenvalues in axes that turn with the craft (growth is the same as in
/// beam axes, frequencies are shifted by the spin);</item>
/// <item>otherwise: Floquet multipliers over one turn.</item>
/// </list>
/// How the verdict is reached: the fastest motion that surely grows decides, real root: divergent, complex pair: flutter.
/// A missing restoring force lets the craft drift off at constant speed: divergent with growth rate zero when the
/// force is missing to rounding, undecided when it is only below the stated error. Roots on the imaginary axis that meet
/// within the stated error are undecided, because a defective pair grows in proportion to time. Roots that structure does
/// not hold on the axis count as neutral while the growth left possible by the stated error is below
/// <see cref="NegligibleGrowth"/> of the fastest root. Source of the conditions for circulatory and gyroscopic systems:
/// <i>Nonconservative Stability Problems of Modern Physics</i> (De Gruyter, 2013), ch. 1–2. Pure functions.
/// </remarks>
public static class StabilityAnalysis
{
    /// <summary>Growth rate over angular frequency below which an unresolved growth is called neutral: e-folding over 160 000 swings.</summary>
    public const double NegligibleGrowth = 1e-6;

    /// <summary>Analyses one model.</summary>
    /// <exception cref="ArgumentException">The model has an unphysical value, or lacks what its spin needs.</exception>
    /// <exception cref="ArithmeticException">The eigenvalues could not be computed.</exception>
    public static StabilityReport Analyse(LinearModel model)
    {
        LateralStiffness stiffness = new(model.Checked());
        (Spectrum spectrum, ModeFrame frame) = Solve(model, stiffness);
        Decision decision = Decision.Make(model, stiffness, spectrum);
        return new StabilityReport
        {
            Model = model,
            Verdict = decision.Verdict,
            Reason = decision.Reason,
            GrowthPerSecond = decision.Growth,
            GrowthErrorPerSecond = decision.GrowthError,
            Modes = DistinctModes.From(spectrum.Roots, model.GyrationRadiusMetres),
            Frame = frame,
            FreeCoordinates = stiffness.Free,
            Clearance = stiffness.Drift is null ? spectrum.Clearance : 0,
            Indicators = spectrum.Indicators,
            DecidingRelativeError = decision.DecidingRelativeError,
            Method = spectrum.Method,
            Warnings = StabilityWarnings.For(model, frame),
        };
    }

    private static (Spectrum Spectrum, ModeFrame Frame) Solve(LinearModel model, LateralStiffness stiffness)
    {
        bool spinning = model.SpinRadiansPerSecond != 0;
        bool roundInertia = InertiaIsRound(model) || stiffness.Active.Length == 2;
        if (!spinning && model.Damping is null)
        {
            return (SecondOrderSpectrum.Compute(model, stiffness), ModeFrame.Beam);
        }
        bool fixedInBeam = !spinning || (roundInertia && model.CraftIsAxisymmetric);
        bool bothRound = roundInertia && model.CraftIsAxisymmetric && model.BeamIsAxisymmetric;
        if (fixedInBeam && model.Damping is null && stiffness.Active.Length == 2)
        {
            return (SecondOrderSpectrum.Compute(model, stiffness), ModeFrame.Beam);
        }
        if (bothRound && model.Damping is null && SpinSpectrum.ComplexStiffness(stiffness) is { } k)
        {
            return (SpinSpectrum.Compute(model, stiffness, k), ModeFrame.Beam);
        }
        if (fixedInBeam)
        {
            return (InBeamAxes(model, stiffness), ModeFrame.Beam);
        }
        if (model.Damping is not null)
        {
            throw new ArgumentException(
                "Damping together with spin needs a craft that is axisymmetric in surfaces and inertia; leave the damping out or the spin.",
                nameof(model)
            );
        }
        if (model.BeamIsAxisymmetric)
        {
            return (InBodyAxes(model, stiffness), ModeFrame.Body);
        }
        if (!model.CraftIsAxisymmetric && model.JacobianAtSpinAngle is null)
        {
            throw new ArgumentException(
                "A spinning craft without symmetry in a beam without symmetry needs its Jacobian as a function of spin angle.",
                nameof(model)
            );
        }
        return (FloquetSpectrum.Compute(model, stiffness), ModeFrame.Periodic);
    }

    private static bool InertiaIsRound(LinearModel model)
    {
        var (a, b) = (model.InertiaKilogramSquareMetres.Row0, model.InertiaKilogramSquareMetres.Row1);
        double tolerance = 1e-9 * (a.X + b.Y);
        return Math.Abs(a.X - b.Y) <= tolerance && Math.Abs(a.Y) <= tolerance;
    }

    private static Spectrum InBeamAxes(LinearModel model, LateralStiffness stiffness)
    {
        FirstOrderSystem system = new(model, stiffness);
        (double[,] a, double[,] e) = system.InBeamAxes(stiffness);
        return Eigen(model, system, a, e, "eigenvalues of the first-order system in beam axes");
    }

    private static Spectrum InBodyAxes(LinearModel model, LateralStiffness stiffness)
    {
        FirstOrderSystem system = new(model, stiffness);
        (double[,] a, double[,] e) = system.InBodyAxes(stiffness.Entries, stiffness.Errors);
        return Eigen(model, system, a, e, "eigenvalues of the first-order system in axes that turn with the craft");
    }

    private static Spectrum Eigen(LinearModel model, FirstOrderSystem system, double[,] a, double[,] e, string method)
    {
        EigenPair[] pairs = EigenPair.AllOf(a);
        double[] shifts = Spectrum.Shifts(pairs, a, e);
        bool dissipative = model.Damping is not null;
        return FirstOrderSpectrum.Read(
            pairs,
            shifts,
            system.Shape,
            system.RatePerSecond,
            model.RelativeError,
            dissipative,
            method
        );
    }
}
