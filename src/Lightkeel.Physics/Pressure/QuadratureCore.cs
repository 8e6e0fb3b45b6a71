using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;

namespace Lightkeel.Physics.Pressure;

/// <summary>A direction in which the pose may change.</summary>
internal enum PoseDirection
{
    OffsetX,
    OffsetY,
    TiltX,
    TiltY,
}

/// <summary>The quadrature for one kind of beam and lane.</summary>
internal interface IQuadratureCore
{
    PressureReading Evaluate(in CraftPose pose, in Illumination light);

    PressureReading Derivative(in CraftPose pose, in Illumination light, PoseDirection direction);
}

/// <inheritdoc cref="IQuadratureCore"/>
internal sealed class QuadratureCore<TLane, TDual, TProfile> : IQuadratureCore
    where TLane : struct, ILane<TLane>
    where TDual : struct, IDual<TDual>
    where TProfile : struct, IBeamProfile
{
    private readonly TProfile _profile;
    private readonly double _forcePerUnit;
    private readonly double _powerWatts;
    private readonly double _accuracy;
    private readonly SurfacePlan[] _plans;

    public QuadratureCore(SailCraft craft, Beam beam, TProfile profile, double accuracy)
    {
        (_profile, _accuracy, _powerWatts) = (profile, accuracy, beam.PowerWatts);
        _forcePerUnit = beam.PowerWatts / Illumination.LightSpeed;
        _plans =
        [
            .. craft.Surfaces.Select(s => new SurfacePlan(
                s,
                craft.Mass.CenterOfMassMetres,
                profile.FeatureLengthMetres
            )),
        ];
    }

    public PressureReading Evaluate(in CraftPose pose, in Illumination light)
    {
        PoseScalars<TLane> scalars = PoseScalars<TLane>.Constant(pose);
        UnitWrench sum = default;
        double error = 0;
        foreach (SurfacePlan plan in _plans)
        {
            ErrorScale scale = new(plan.ReachMetres, 1, OfSlope: false, _profile.AxisPoint, pose.BeamScale);
            SurfaceAnswer answer = Surface(plan, pose, scalars, light, scale);
            sum += answer.Value;
            error = Math.Max(error, answer.RelativeError);
        }
        return Reading(sum, light, pose.BeamScale, error);
    }

    public PressureReading Derivative(in CraftPose pose, in Illumination light, PoseDirection direction)
    {
        PoseScalars<TDual> scalars = Moving(pose, direction);
        bool tilts = direction is PoseDirection.TiltX or PoseDirection.TiltY;
        double length = tilts ? 1 : pose.BeamScale * _profile.FeatureLengthMetres;
        UnitWrench sum = default;
        double error = 0;
        foreach (SurfacePlan plan in _plans)
        {
            ErrorScale scale = new(plan.ReachMetres, length, OfSlope: true, _profile.AxisPoint, pose.BeamScale);
            SurfaceAnswer answer = Surface(plan, pose, scalars, light, scale);
            sum += answer.Slope;
            error = Math.Max(error, answer.RelativeError);
        }
        return Reading(sum, light, pose.BeamScale, error);
    }

    private PressureReading Reading(in UnitWrench unit, in Illumination light, double beamScale, double error)
    {
        double irradiance = light.IrradianceFactor / (beamScale * beamScale);
        double force = irradiance * _forcePerUnit;
        double power = irradiance * _powerWatts;
        return new(force * unit.Force, force * unit.Torque, power * unit.Power, power * unit.Absorbed, error);
    }

    // The pose with a unit rate along one direction: tilts turn the attitude about beam axes, R → (1 + ε [e×]) R.
    private static PoseScalars<TDual> Moving(in CraftPose pose, PoseDirection direction)
    {
        PoseScalars<TDual> still = PoseScalars<TDual>.Constant(pose);
        Mat3 r = pose.BeamFromBody;
        return direction switch
        {
            PoseDirection.OffsetX => still with { OffsetX = TDual.Variable(pose.OffsetXMetres, 1) },
            PoseDirection.OffsetY => still with { OffsetY = TDual.Variable(pose.OffsetYMetres, 1) },
            PoseDirection.TiltX => still with { BeamFromBody = Turning(r, new(Vec3.Zero, -r.Row2, r.Row1)) },
            _ => still with { BeamFromBody = Turning(r, new(r.Row2, Vec3.Zero, -r.Row0)) },
        };
    }

    private static Mat3<TDual> Turning(in Mat3 value, in Mat3 rate)
    {
        static Vec3<TDual> Row(Vec3 v, Vec3 d) =>
            new(TDual.Variable(v.X, d.X), TDual.Variable(v.Y, d.Y), TDual.Variable(v.Z, d.Z));
        return new(Row(value.Row0, rate.Row0), Row(value.Row1, rate.Row1), Row(value.Row2, rate.Row2));
    }

    private SurfaceAnswer Surface<T>(
        SurfacePlan plan,
        in CraftPose pose,
        in PoseScalars<T> scalars,
        in Illumination light,
        in ErrorScale scale
    )
        where T : struct, IScalar<T>
    {
        Mat3? turned = plan.IsSphere ? null : plan.Surface.BodyFromSurface;
        SurfaceLight<F64> plain = PoseScalars<F64>.Constant(pose).InFrameOf(plan.ArmMetres, turned, light);
        (LitPart lit, double side) = plan.LitBy(
            new(plain.Direction.X.Value, plain.Direction.Y.Value, plain.Direction.Z.Value)
        );
        if (lit == LitPart.None)
        {
            return new(default, default, 0);
        }
        SurfaceLight<T> moving = scalars.InFrameOf(plan.ArmMetres, turned, light);
        switch (plan.OpticsOf(side))
        {
            case ConstantOptics { Shares: var shares }:
                return shares.Specular == 1
                    ? Integrate(plan, new MirrorResponse(), moving, plain, lit, side, scale)
                    : Integrate(plan, new CoefficientResponse(shares), moving, plain, lit, side, scale);
            case FilmOptics film:
                FilmCurve curve = film.Curve(light.WavelengthStretch);
                SurfaceAnswer answer = curve.IsLossless
                    ? Integrate(plan, new ClearFilmResponse(curve), moving, plain, lit, side, scale)
                    : Integrate(plan, new FilmResponse(curve, film.ThermalAsymmetry), moving, plain, lit, side, scale);
                // Each share counts at most twice in the push.
                return answer with { RelativeError = answer.RelativeError + 2 * curve.Error };
            default:
                throw new InvalidOperationException($"No response is known for {plan.Surface.Optics.GetType().Name}.");
        }
    }

    private SurfaceAnswer Integrate<T, TResponse>(
        SurfacePlan plan,
        TResponse response,
        in SurfaceLight<T> light,
        in SurfaceLight<F64> plain,
        LitPart lit,
        double side,
        in ErrorScale scale
    )
        where T : struct, IScalar<T>
        where TResponse : struct, ISurfaceResponse
    {
        double offset = double.Hypot(plain.OriginX.Value, plain.OriginY.Value);
        double feature = scale.BeamScale * _profile.FeatureLengthMetres;
        SurfaceLight<T> seen = light.InBeamOfScale(scale.BeamScale);
        return (
                lit == LitPart.Some || _profile.AxisPoint.Smoothness == Smoothness.Rough
                    ? null
                    : FullRings.TryIntegrate(
                        plan,
                        _profile,
                        response,
                        seen,
                        side,
                        StartingOrders(plan, offset, feature),
                        _profile.AxisPoint.Smoothness == Smoothness.PointOnAxis ? AxisMeeting.Of(plan, plain) : null,
                        scale,
                        _accuracy
                    )
            )
            ?? new ArcPanels<T, TProfile, TResponse>(plan, _profile, response, seen, plain, side, scale).Integrate(
                _accuracy
            );
    }

    // First guess of the orders from how much the beam changes over a stretch and around the largest ring. A guess only:
    // the ladders climb until the error estimate is met.
    private static (int Pair, int Azimuths) StartingOrders(SurfacePlan plan, double offsetMetres, double feature)
    {
        double meridian = plan.LongestStretchMetres / feature;
        double azimuth = offsetMetres * plan.Surface.Shape.MaximumRadiusMetres / (feature * feature);
        int pair =
            meridian < 0.7 ? 0
            : meridian < 1.3 ? 1
            : 2;
        int around =
            azimuth < 1e-3 ? 0
            : azimuth < 0.5 ? 1
            : azimuth < 1.5 ? 2
            : 3;
        return (pair, around);
    }
}
