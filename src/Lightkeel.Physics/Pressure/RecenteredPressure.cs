using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Light pressure of a craft from the answers for the same surfaces about another centre of mass: light does not see where
/// the mass is, so only the place about which a pose turns and a torque is taken changes.
/// </summary>
/// <remarks>
/// With d the old centre seen from the new one (body axes), the old centre stands at offset + R d, and
/// <code>
/// F'  = F                              T'  = T + R d × F
/// F'θ = Fθ + (e × R d)·∇F              T'θ = Tθ + (e × R d)·∇T + (e × R d) × F + R d × F'θ
/// </code>
/// for a further turn about e, ∇ by the offsets: exact at any pose. For a craft that moves across the beam, R d and e × R d stand for
/// where they meet the profile (see <see cref="Illumination.ProfileX"/>) wherever they add to an offset. The vouched error is carried through the same sums. Immutable;
/// safe to share between threads.
/// </remarks>
internal sealed class RecenteredPressure(
    IPressureEngine about,
    Vec3 oldFromNewMetres,
    double oldReachMetres,
    double newReachMetres
) : IPressureEngine
{
    // What rounding leaves in a sum over hundreds of nodes; an engine may vouch for less, but the sums here can lose digits.
    private const double Rounding = 1e-14;

    /// <inheritdoc/>
    public string Name => about.Name;

    /// <inheritdoc/>
    public double Accuracy => about.Accuracy;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        Vec3 arm = pose.BeamFromBody * oldFromNewMetres;
        PressureReading old = about.Evaluate(Moved(pose, Across(pose, arm)));
        double growth = (oldReachMetres + arm.Length) / newReachMetres;
        return old with
        {
            TorqueNewtonMetres = old.TorqueNewtonMetres + Vec3.Cross(arm, old.ForceNewtons),
            RelativeError = Math.Max(old.RelativeError, Rounding) * Math.Max(1, growth),
        };
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        Vec3 arm = pose.BeamFromBody * oldFromNewMetres;
        CraftPose moved = Moved(pose, Across(pose, arm));
        PressureDerivatives old = about.Differentiate(moved);
        Vec3 force = about.Evaluate(moved).ForceNewtons;
        PressureReading x = Displaced(old.ByOffsetX, arm);
        PressureReading y = Displaced(old.ByOffsetY, arm);
        Vec3 aboutX = Vec3.Cross(Vec3.UnitX, arm);
        Vec3 aboutY = Vec3.Cross(Vec3.UnitY, arm);
        PressureReading tiltX = Turned(old, old.ByTiltX, (aboutX, Across(pose, aboutX)), arm, force);
        PressureReading tiltY = Turned(old, old.ByTiltY, (aboutY, Across(pose, aboutY)), arm, force);
        double error = Math.Max(old.RelativeError, Rounding) * Growth(old, arm.Length, (x, y), (tiltX, tiltY));
        return new(x, y, tiltX, tiltY, error);
    }

    private static CraftPose Moved(in CraftPose pose, Vec3 across) =>
        pose with
        {
            OffsetXMetres = pose.OffsetXMetres + across.X,
            OffsetYMetres = pose.OffsetYMetres + across.Y,
        };

    // Where a point at an arm from the centre of mass meets the profile: beside it, but for a craft that moves across the beam.
    private static Vec3 Across(in CraftPose pose, Vec3 arm)
    {
        if (pose.VelocityMetresPerSecond is { X: 0, Y: 0 })
        {
            return arm;
        }
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        return new(Vec3.Dot(light.ProfileX, arm), Vec3.Dot(light.ProfileY, arm), 0);
    }

    private static PressureReading Displaced(in PressureReading by, Vec3 arm) =>
        by with
        {
            TorqueNewtonMetres = by.TorqueNewtonMetres + Vec3.Cross(arm, by.ForceNewtons),
        };

    private static PressureReading Turned(
        PressureDerivatives old,
        in PressureReading byTilt,
        (Vec3 Arm, Vec3 Across) swing,
        Vec3 arm,
        Vec3 force
    )
    {
        (PressureReading x, PressureReading y) = (old.ByOffsetX, old.ByOffsetY);
        Vec3 turnedForce = byTilt.ForceNewtons + swing.Across.X * x.ForceNewtons + swing.Across.Y * y.ForceNewtons;
        Vec3 turnedTorque =
            byTilt.TorqueNewtonMetres + swing.Across.X * x.TorqueNewtonMetres + swing.Across.Y * y.TorqueNewtonMetres;
        return new(
            turnedForce,
            turnedTorque + Vec3.Cross(swing.Arm, force) + Vec3.Cross(arm, turnedForce),
            byTilt.InterceptedWatts + swing.Across.X * x.InterceptedWatts + swing.Across.Y * y.InterceptedWatts,
            byTilt.AbsorbedWatts + swing.Across.X * x.AbsorbedWatts + swing.Across.Y * y.AbsorbedWatts,
            byTilt.RelativeError
        );
    }

    // How much larger the vouched error is against the new answers: errors of the old ones, carried through the sums above.
    private double Growth(
        PressureDerivatives old,
        double arm,
        (PressureReading X, PressureReading Y) offset,
        (PressureReading X, PressureReading Y) tilt
    )
    {
        double oldOffset = Size(old.ByOffsetX, old.ByOffsetY, oldReachMetres);
        double oldTilt = Size(old.ByTiltX, old.ByTiltY, oldReachMetres);
        double newOffset = Math.Max(Size(offset.X, offset.Y, newReachMetres), double.Epsilon);
        double newTilt = Math.Max(Size(tilt.X, tilt.Y, newReachMetres), double.Epsilon);
        double reach = Math.Max(1, (oldReachMetres + arm) / newReachMetres);
        double byOffset = oldOffset * reach / newOffset;
        double byTilt = (oldTilt + arm * oldOffset) * reach / newTilt;
        return Math.Max(1, Math.Max(byOffset, byTilt));
    }

    private static double Size(in PressureReading a, in PressureReading b, double reach) =>
        Math.Max(
            Math.Max(a.ForceNewtons.Length, b.ForceNewtons.Length),
            Math.Max(a.TorqueNewtonMetres.Length, b.TorqueNewtonMetres.Length) / reach
        );
}
