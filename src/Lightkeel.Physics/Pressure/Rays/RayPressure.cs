using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>
/// Light pressure by rays that are followed from bounce to bounce: bowls that light leaves only after several meetings,
/// parts that shade or light each other, films that pass light on. No chance is in it: rays are laid out by quadrature,
/// cut where the sequence of their bounces changes.
/// </summary>
/// <remarks>
/// The mirror's share and the passed share are followed exactly. Light scattered by Lambert's law and heat leave where they
/// arise; scattered light of more than <see cref="LargestStrayShare"/> from sides that see the craft is refused. Slopes by offset are exact
/// under the integral; slopes by tilt are extrapolated differences with an error estimate. Immutable; safe to share
/// between threads; an answer depends on the pose alone. Method and limits: docs/theory/rays.md.
/// </remarks>
public sealed class RayPressure : IPressureEngine
{
    /// <summary>Largest share of the light met that may be scattered toward the craft, which is let go with a caution.</summary>
    public const double LargestStrayShare = 0.025;

    /// <summary>Finest accuracy that may be asked.</summary>
    public const double FinestAccuracy = 1e-10;

    /// <summary>Rays that one force may take, unless said otherwise.</summary>
    public const long UsualRayBudget = 2_000_000;

    private static readonly double[] TiltSteps = [1e-2, 1.25e-3, 1.6e-4];
    private readonly Beam _beam;
    private readonly RayScene _scene;
    private readonly RayIrradiance _irradiance;
    private readonly long _budget;
    private readonly bool _isRound;

    /// <summary>Prepares the engine.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="accuracy">Requested relative accuracy of force and torque, 1e-10 … 1e-2.</param>
    /// <param name="rayBudget">Most rays for one force, about; 10 000 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is outside its range.</exception>
    public RayPressure(SailCraft craft, Beam beam, double accuracy = 1e-7, long rayBudget = UsualRayBudget)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentOutOfRangeException.ThrowIfLessThan(rayBudget, 10_000);
        Accuracy = Require.Between(accuracy, FinestAccuracy, 1e-2);
        (_beam, _scene, _budget) = (beam, new(craft), rayBudget);
        _irradiance = RayIrradiance.Of(beam.Profile);
        _isRound = craft.IsAxisymmetric && beam.Profile.IsAxisymmetric;
    }

    /// <inheritdoc/>
    public string Name => "rays";

    /// <inheritdoc/>
    public double Accuracy { get; }

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        (RayAnswer answer, Frame frame) = Integrate(pose, Accuracy, withSlopes: false, _budget);
        return frame.Reading(answer.Sum, 0, Vouched(answer, answer.Error.Value, "Force and torque"));
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        (RayAnswer answer, Frame frame) = Integrate(pose, Accuracy, withSlopes: true, _budget);
        double offsets = Vouched(answer, Math.Max(answer.Error.ByX, answer.Error.ByY), "Slopes by the offset");
        double force = Math.Max(frame.Reading(answer.Sum, 0, 0).ForceNewtons.Length, 1e-12 * frame.Unit);
        (PressureReading x, PressureReading y, double tilts) = Tilted(pose, force);
        Refuse(tilts, "Slopes by the tilt");
        double error = Math.Max(offsets, tilts);
        return new(
            frame.Reading(answer.Sum, 1, error),
            frame.Reading(answer.Sum, 2, error),
            x with
            {
                RelativeError = error,
            },
            y with
            {
                RelativeError = error,
            },
            error
        );
    }

    /// <summary>Power that leaves the craft, and power that was cut off at the limits, W, in the craft's rest frame.</summary>
    /// <param name="pose">The pose.</param>
    public (double LeavingWatts, double CutWatts) PowerBeyond(in CraftPose pose)
    {
        (RayAnswer answer, Frame frame) = Integrate(pose, Accuracy, withSlopes: false, _budget);
        double watts = frame.Unit * Illumination.LightSpeed;
        return (watts * answer.Sum.Leaving, watts * answer.Sum.Cut);
    }

    private (RayAnswer Answer, Frame Frame) Integrate(in CraftPose pose, double accuracy, bool withSlopes, long budget)
    {
        Require.Positive(pose.BeamScale);
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        RayFan fan = new(_scene, _irradiance, pose, light);
        double length = pose.BeamScale * _beam.Profile.FeatureLengthMetres;
        RayAnswer answer = RayIntegral.Of(fan, length, accuracy, withSlopes, budget);
        double unit = _beam.PowerWatts * light.IrradianceFactor / Illumination.LightSpeed;
        return (answer, new(pose.BeamFromBody, unit));
    }

    // Light cut off could have pushed by twice its momentum.
    private double Vouched(in RayAnswer answer, double error, string what)
    {
        (Vec3 force, _, double intercepted, _) = answer.Sum.Block(0);
        if (answer.Sum.Stray > LargestStrayShare * intercepted)
        {
            throw new PressureUnavailableException(
                FormattableString.Invariant(
                    $"{answer.Sum.Stray / intercepted:P1} of the light met is scattered by Lambert's law from sides that see the craft; rays follow mirrored and passed light, and let go at most {LargestStrayShare:P1} of scattered light. Give the concave or facing sides a smaller diffuse share."
                )
            );
        }
        double cut = 2 * answer.Sum.Cut / Math.Max(force.Length, 1e-12);
        Refuse(error + cut, what);
        return error + cut;
    }

    private void Refuse(double error, string what)
    {
        if (!(error <= Accuracy))
        {
            throw new PressureUnavailableException(
                FormattableString.Invariant(
                    $"{what} could be found by rays to a relative accuracy of {error:G2} only; {Accuracy:G2} was asked. Ask for less (--accuracy), or allow more rays than {_budget}."
                )
            );
        }
    }

    private (PressureReading X, PressureReading Y, double Error) Tilted(in CraftPose pose, double force)
    {
        (PressureReading X, PressureReading Y, double Error) best = (default, default, double.PositiveInfinity);
        foreach (double step in TiltSteps)
        {
            bool isOnAxis = _isRound && IsOnAxis(pose);
            RayTilt x = Slope(pose, Vec3.UnitX, step, isOnAxis);
            RayTilt y = isOnAxis ? x.QuarterTurned() : Slope(pose, Vec3.UnitY, step, false);
            double size = Math.Max(Math.Max(x.Size, y.Size), 1e-2 * force);
            double error = Math.Max(x.Error, y.Error) / size;
            if (error < best.Error)
            {
                best = (x.Slope, y.Slope, error);
            }
            // Smaller steps mend curvature, not the noise of the forces.
            if (best.Error <= Accuracy || Math.Max(x.Noise, y.Noise) > 0.5 * Math.Max(x.Error, y.Error))
            {
                break;
            }
        }
        return best;
    }

    private static bool IsOnAxis(in CraftPose pose) =>
        pose is { OffsetXMetres: 0, OffsetYMetres: 0, VelocityMetresPerSecond: { X: 0, Y: 0 } }
        && pose.BeamFromBody.Column2 == Vec3.UnitZ;

    // On the axis of a round scene a tilt about x and its opposite are mirror images of each other, in x and in y.
    private RayTilt Slope(CraftPose pose, Vec3 axis, double step, bool isMirrored)
    {
        double accuracy = Math.Max(1e-13, 0.2 * Accuracy * step);
        return RayTilt.Of(
            angle =>
            {
                CraftPose turned = pose with { BeamFromBody = Mat3.Rotation(axis, angle) * pose.BeamFromBody };
                (RayAnswer answer, Frame frame) = Integrate(turned, accuracy, withSlopes: false, _budget / 12);
                return frame.Reading(answer.Sum, 0, answer.Error.Value);
            },
            step,
            _scene.ReachMetres,
            isMirrored
        );
    }

    /// <summary>From sums per watt in body axes to readings in beam axes.</summary>
    /// <param name="BeamFromBody">Attitude.</param>
    /// <param name="Unit">Power of the beam as the craft sees it over c, N.</param>
    private readonly record struct Frame(Mat3 BeamFromBody, double Unit)
    {
        public PressureReading Reading(in RaySum sum, int block, double error)
        {
            (Vec3 force, Vec3 torque, double intercepted, double absorbed) = sum.Block(block);
            double watts = Unit * Illumination.LightSpeed;
            return new(
                Unit * (BeamFromBody * force),
                Unit * (BeamFromBody * torque),
                watts * intercepted,
                watts * absorbed,
                error
            );
        }
    }
}
