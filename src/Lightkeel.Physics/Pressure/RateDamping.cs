using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// First derivatives of force and torque with respect to the velocity and the rate of turn of a craft: the damping that
/// aberration and the first-order Doppler shift give.
/// </summary>
/// <remarks>
/// In the rest frame of the centre of mass an element at p moves with δv = v + w × p. In its own frame the irradiance
/// changes by −2 b·δv/c of itself and the light direction by −(δv − (b·δv) b)/c; the element's force law is
/// differentiated along both. For a perfect mirror the sum is −(4/c²) ∫ I μ (n·δv) n dA: only motion along the normal
/// counts, and the whole 6×6 matrix is symmetric and never positive. Derivation, validity and sources:
/// docs/theory/motion.md. Heat is taken to leave from where it was absorbed. Immutable; safe to share between threads.
/// </remarks>
/// <param name="ForceByVelocity">∂F/∂v, beam axes, N s/m.</param>
/// <param name="TorqueByVelocity">∂T/∂v, beam axes, N s.</param>
/// <param name="ForceByRate">∂F/∂w, beam axes, N s/rad.</param>
/// <param name="TorqueByRate">∂T/∂w, beam axes, N m s/rad.</param>
/// <param name="RelativeError">
/// Estimated error: of forces by velocity relative to their largest entry, elsewhere to that entry times the craft's
/// reach once (torque by velocity, force by rate) or twice (torque by rate).
/// </param>
public sealed record RateDamping(
    Mat3 ForceByVelocity,
    Mat3 TorqueByVelocity,
    Mat3 ForceByRate,
    Mat3 TorqueByRate,
    double RelativeError
)
{
    private static readonly (int Rings, int Azimuths)[] Ladder = [(8, 24), (12, 40), (20, 64), (32, 112), (48, 176)];

    /// <summary>No damping.</summary>
    public static RateDamping None => new(default, default, default, default, 0);

    /// <summary>
    /// D of the linear lateral model, 4×4: force and torque are −D (ẋ, ẏ, tilt rate x, tilt rate y); N s/m, N s/rad, N s,
    /// N m s/rad.
    /// </summary>
    public double[][] LateralMatrix() =>
        [
            [-ForceByVelocity.Row0.X, -ForceByVelocity.Row0.Y, -ForceByRate.Row0.X, -ForceByRate.Row0.Y],
            [-ForceByVelocity.Row1.X, -ForceByVelocity.Row1.Y, -ForceByRate.Row1.X, -ForceByRate.Row1.Y],
            [-TorqueByVelocity.Row0.X, -TorqueByVelocity.Row0.Y, -TorqueByRate.Row0.X, -TorqueByRate.Row0.Y],
            [-TorqueByVelocity.Row1.X, -TorqueByVelocity.Row1.Y, -TorqueByRate.Row1.X, -TorqueByRate.Row1.Y],
        ];

    /// <summary>Computes the derivatives in a pose by plain double-precision quadrature.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="pose">The pose; its velocity sets aberration and Doppler shift of the light that meets the craft.</param>
    /// <param name="accuracy">Accuracy asked, in the sense of <see cref="RelativeError"/>, 1e-10 … 0.1.</param>
    /// <exception cref="PressureUnavailableException">The pose is not single-bounce, or the accuracy was not reached.</exception>
    public static RateDamping At(SailCraft craft, Beam beam, in CraftPose pose, double accuracy = 1e-6)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        Require.Between(accuracy, 1e-10, 0.1);
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        RegimeVerdict verdict = LightRegime.Assess(craft).For(pose.BeamFromBody.Transposed * light.Direction);
        if (!verdict.IsSingleBounce)
        {
            throw new PressureUnavailableException(verdict.Reason);
        }
        RateDampingSums sums = new(craft, beam, pose, light);
        RateDamping coarse = sums.With(Ladder[0].Rings, Ladder[0].Azimuths);
        double difference = double.PositiveInfinity;
        for (int i = 1; i < Ladder.Length; i++)
        {
            RateDamping fine = sums.With(Ladder[i].Rings, Ladder[i].Azimuths);
            difference = sums.Difference(fine, coarse);
            if (difference <= accuracy)
            {
                return fine with { RelativeError = difference };
            }
            coarse = fine;
        }
        throw new PressureUnavailableException(
            FormattableString.Invariant(
                $"The damping by rotation converged to a relative accuracy of {difference:G2} only; {accuracy:G2} was asked. Ask for less, or give the beam a smoother profile."
            )
        );
    }
}
