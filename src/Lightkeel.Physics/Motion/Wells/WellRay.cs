using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion.Wells;

/// <summary>The lateral force along one ray from a place in the beam, and its work.</summary>
/// <remarks>Attitude and axial speed stay as they are at the start of the ray. Immutable; safe to share between threads.</remarks>
public sealed class WellRay
{
    // Where the force at the start is smaller than this share of the largest, that share is what errors are measured by.
    private const double SmallStart = 1e-2;
    private const int Glances = 16;

    // Of the whole force: below it a lateral force is none.
    private const double Rounding = 1e-13;
    private readonly PiecewiseChebyshev _force;

    private WellRay(double angle, PiecewiseChebyshev force, double forceError, double crossShare, double rounding)
    {
        (AngleRadians, _force, ForceErrorNewtons, CrossShare) = (angle, force, forceError, crossShare);
        foreach ((double place, bool rises) in force.SignChanges())
        {
            // On the axis rounding alone makes a force of either sign.
            if (rises && place > 0 && force.Value(0.5 * place) < -rounding)
            {
                RimMetres = place;
                break;
            }
        }
    }

    /// <summary>Direction of the ray, from beam x towards beam y, rad.</summary>
    public double AngleRadians { get; }

    /// <summary>Length of the ray, m.</summary>
    public double LengthMetres => _force.End;

    /// <summary>Largest error of the force, N.</summary>
    public double ForceErrorNewtons { get; }

    /// <summary>Largest force across the ray over the largest along it: zero where a motion along the ray stays on it.</summary>
    public double CrossShare { get; }

    /// <summary>Where the force, pulling back until there, begins to push away, m; null where it never pulls back or never lets go.</summary>
    public double? RimMetres { get; }

    /// <summary>Force along the ray, N; below zero it pulls back.</summary>
    /// <param name="radiusMetres">Distance along the ray, m.</param>
    public double Force(double radiusMetres) => _force.Value(radiusMetres);

    /// <summary>Work against the force from the start of the ray, J: the potential where there is one.</summary>
    /// <param name="radiusMetres">Distance along the ray, m.</param>
    public double Work(double radiusMetres) => -_force.IntegralTo(radiusMetres);

    /// <summary>Follows a ray.</summary>
    /// <param name="engine">Light pressure.</param>
    /// <param name="start">Pose at its start.</param>
    /// <param name="angleRadians">Direction, rad.</param>
    /// <param name="lengthMetres">Length, m.</param>
    /// <param name="toleranceRatio">Error of the force over what the engine may have, 1 or more.</param>
    /// <exception cref="PressureUnavailableException">The force cannot be computed somewhere along it.</exception>
    public static WellRay Follow(
        IPressureEngine engine,
        CraftPose start,
        double angleRadians,
        double lengthMetres,
        double toleranceRatio = 1
    )
    {
        (double sin, double cos) = Math.SinCos(angleRadians);
        double error = 0;
        double across = 0;
        double along = 0;
        PressureReading At(double radius) =>
            engine.Evaluate(
                start with
                {
                    OffsetXMetres = start.OffsetXMetres + radius * cos,
                    OffsetYMetres = start.OffsetYMetres + radius * sin,
                }
            );
        // A craft in the dark middle of a wide ring feels next to nothing at its start: its force there is no measure of the others.
        double Largest() =>
            Enumerable.Range(1, Glances).Max(i => At(lengthMetres * i / (Glances + 1)).ForceNewtons.Length);
        double Along(double radius)
        {
            PressureReading r = At(radius);
            Vec3 f = r.ForceNewtons;
            error = Math.Max(error, r.RelativeError * f.Length);
            double push = f.X * cos + f.Y * sin;
            across = Math.Max(across, Math.Abs(f.Y * cos - f.X * sin));
            along = Math.Max(along, Math.Abs(push));
            return push;
        }
        double scale = Math.Max(engine.Evaluate(start).ForceNewtons.Length, SmallStart * Largest());
        double tolerance = Math.Max(toleranceRatio, 1) * Math.Max(engine.Accuracy, 1e-13) * scale;
        PiecewiseChebyshev force = PiecewiseChebyshev.Fit(Along, 0, lengthMetres, Math.Max(tolerance, 1e-300));
        return new(angleRadians, force, error + force.Error, along > 0 ? across / along : 0, Rounding * scale);
    }
}
