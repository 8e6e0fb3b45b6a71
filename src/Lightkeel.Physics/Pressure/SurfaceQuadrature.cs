using System.Runtime.Intrinsics;
using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>How many doubles the kernel works on side by side.</summary>
public enum LaneWidth
{
    /// <summary>The widest that this processor has in hardware.</summary>
    Widest,

    /// <summary>One at a time.</summary>
    One,

    /// <summary>Four (256-bit vectors).</summary>
    Four,

    /// <summary>Eight (512-bit vectors).</summary>
    Eight,
}

/// <summary>
/// Light pressure by quadrature over the lit surfaces: spectral where a surface is wholly lit, adaptive along the
/// terminator where it is not, to a requested relative accuracy with a vouched error.
/// </summary>
/// <remarks>
/// Valid where light meets each element once: see <see cref="LightRegime"/>, which is asked before each answer.
/// Immutable; safe to share between threads; an answer depends on the pose alone, not on earlier calls.
/// Equations: see the element force at <see cref="Optics.OpticalCoefficients"/>.
/// </remarks>
public sealed class SurfaceQuadrature : IPressureEngine
{
    private readonly IQuadratureCore _core;
    private readonly LightRegime _regime;

    /// <summary>Prepares the engine.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="accuracy">Requested relative accuracy of force and torque, 1e-13 … 1e-2.</param>
    /// <param name="width">Vector width; all widths agree to rounding.</param>
    /// <exception cref="ArgumentOutOfRangeException">The accuracy is outside its range.</exception>
    public SurfaceQuadrature(SailCraft craft, Beam beam, double accuracy = 1e-10, LaneWidth width = LaneWidth.Widest)
    {
        Accuracy = Require.Between(accuracy, 1e-13, 1e-2);
        _regime = LightRegime.Assess(craft);
        _core = beam.Profile.Accept(new CoreBuilder(craft, beam, accuracy, width));
    }

    /// <inheritdoc/>
    public string Name => "surface quadrature";

    /// <inheritdoc/>
    public double Accuracy { get; }

    /// <summary>True when light meets the untilted craft once only, so that this engine has an answer there.</summary>
    public bool HoldsUntilted => _regime.For(Vec3.UnitZ).IsSingleBounce;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        Illumination light = Lit(pose);
        return _core.Evaluate(pose, light);
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        Illumination light = Lit(pose);
        PressureReading x = _core.Derivative(pose, light, PoseDirection.OffsetX);
        PressureReading y = _core.Derivative(pose, light, PoseDirection.OffsetY);
        PressureReading tiltX = _core.Derivative(pose, light, PoseDirection.TiltX);
        PressureReading tiltY = _core.Derivative(pose, light, PoseDirection.TiltY);
        double error = Math.Max(
            Math.Max(x.RelativeError, y.RelativeError),
            Math.Max(tiltX.RelativeError, tiltY.RelativeError)
        );
        return new(x, y, tiltX, tiltY, error);
    }

    private Illumination Lit(in CraftPose pose)
    {
        Require.Positive(pose.BeamScale);
        Illumination light = Illumination.SeenFrom(pose.VelocityMetresPerSecond);
        RegimeVerdict verdict = _regime.At(light.WavelengthStretch).For(pose.BeamFromBody.Transposed * light.Direction);
        return verdict.IsSingleBounce ? light : throw new PressureUnavailableException(verdict.Reason);
    }

    private sealed class CoreBuilder(SailCraft craft, Beam beam, double accuracy, LaneWidth width)
        : IBeamVisitor<IQuadratureCore>
    {
        public IQuadratureCore Visit<TProfile>(TProfile profile)
            where TProfile : struct, IBeamProfile =>
            width switch
            {
                LaneWidth.One => new QuadratureCore<F64, Dual1, TProfile>(craft, beam, profile, accuracy),
                LaneWidth.Four => new QuadratureCore<Lanes4, Dual4, TProfile>(craft, beam, profile, accuracy),
                LaneWidth.Eight => new QuadratureCore<Lanes8, Dual8, TProfile>(craft, beam, profile, accuracy),
                _ when Vector512.IsHardwareAccelerated => new QuadratureCore<Lanes8, Dual8, TProfile>(
                    craft,
                    beam,
                    profile,
                    accuracy
                ),
                _ => new QuadratureCore<Lanes4, Dual4, TProfile>(craft, beam, profile, accuracy),
            };
    }
}
