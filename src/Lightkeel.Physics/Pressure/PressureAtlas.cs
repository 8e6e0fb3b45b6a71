using System.Runtime.Intrinsics;
using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Light pressure of an axisymmetric craft in an axisymmetric beam from a table of Chebyshev series in the coordinates that
/// symmetry leaves (one for a ball, three else), to a relative accuracy proven at points that it was not fitted on.
/// </summary>
/// <remarks>
/// What it does outside its box (larger offset or tilt, a beam off its designed size, a lateral speed whose second order
/// counts): it asks the quadrature that filled it. Power and the Doppler factor scale the table. The slant of the light that a
/// lateral velocity brings is kept to first order by a second table, see docs/theory/map-and-well.md. Immutable; safe to
/// share between threads; an evaluation takes no memory from the heap.
/// </remarks>
public sealed class PressureAtlas : IPressureEngine
{
    private readonly IPressureEngine _outside;
    private readonly AtlasPanel?[] _panels;
    private readonly double[] _ends;
    private readonly AtlasSlant? _slant;
    private readonly double _perOffset;
    private readonly double _perSine;
    private readonly double _powerWatts;
    private readonly double _largestSlant;
    private readonly double _error;

    internal PressureAtlas(AtlasBuild build, double powerWatts)
    {
        AtlasScene scene = build.Scene;
        _outside = build.Engine;
        _panels = [.. build.Panels.Select(p => p.Panel)];
        _ends = [.. build.Panels.Select(p => p.End)];
        _slant = build.Slant;
        _perOffset = 1 / scene.Box.OffsetMetres;
        _perSine = scene.IsBall ? 0 : 1 / scene.LargestSine;
        _powerWatts = powerWatts;
        Accuracy = build.Accuracy;
        _error = build.Report.LargestMiss * AtlasBuild.Safety + build.Engine.Accuracy;
        // The second order of the slant, a few times its square, must stay below a tenth of the accuracy.
        _largestSlant = Math.Sqrt(0.02 * build.Accuracy);
        Report = build.Report;
    }

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy { get; }

    /// <summary>What it holds and how well it is proven.</summary>
    public AtlasReport Report { get; }

    /// <summary>Builds an atlas.</summary>
    /// <param name="craft">An axisymmetric craft.</param>
    /// <param name="beam">An axisymmetric beam.</param>
    /// <param name="box">Poses to cover; its tilt is cut to what light meets once.</param>
    /// <param name="accuracy">Relative accuracy of force and torque, 1e-11 … 1e-2.</param>
    /// <param name="threads">Threads that may work at once; the result does not depend on it.</param>
    /// <exception cref="ArgumentException">Craft or beam is not axisymmetric.</exception>
    /// <exception cref="PressureUnavailableException">Light meets even the untilted craft more than once.</exception>
    public static PressureAtlas Build(SailCraft craft, Beam beam, AtlasBox box, double accuracy = 1e-6, int threads = 1)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentNullException.ThrowIfNull(box);
        Require.Positive(box.OffsetMetres);
        Require.Between(accuracy, 1e-11, 1e-2);
        return new(AtlasBuild.Of(craft, beam, box, accuracy, threads), beam.PowerWatts);
    }

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        if (!TryPlace(pose, out AtlasPlace place))
        {
            return _outside.Evaluate(pose);
        }
        Vector512<double> v = place.Panel.Value(place.A, place.B, place.C);
        Vec3 force = new(v[0] * place.Rx + v[1] * place.Tx, v[0] * place.Ry + v[1] * place.Ty, v[2]);
        Vec3 torque = new(
            -(v[3] * place.Ry + v[4] * place.Ty),
            v[3] * place.Rx + v[4] * place.Tx,
            v[5] * (place.Rx * place.Ty - place.Ry * place.Tx)
        );
        UnitWrench unit = new(force, torque, v[6], v[7]);
        if (place.IsSlanted)
        {
            unit += _slant!.Change(place);
            unit = unit with
            {
                Force = unit.Force + Vec3.Cross(place.Turn, unit.Force),
                Torque = unit.Torque + Vec3.Cross(place.Turn, unit.Torque),
            };
        }
        double watts = _powerWatts * place.Doppler;
        double newtons = watts / Illumination.LightSpeed;
        return new(newtons * unit.Force, newtons * unit.Torque, watts * unit.Power, watts * unit.Absorbed, _error);
    }

    /// <inheritdoc/>
    /// <remarks>From the series itself; poses with a lateral velocity are handed over.</remarks>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        if (!TryPlace(pose, out AtlasPlace place) || place.IsSlanted)
        {
            return _outside.Differentiate(pose);
        }
        AtlasSlopes slopes = new(place, _perOffset, _perSine);
        double watts = _powerWatts * place.Doppler;
        return slopes.Read(watts / Illumination.LightSpeed, watts, _error);
    }

    /// <summary>Finds the place of a pose in the table; false where the table does not serve.</summary>
    private bool TryPlace(in CraftPose pose, out AtlasPlace place)
    {
        place = default;
        Vec3 v = pose.VelocityMetresPerSecond;
        Vec3 axis = pose.BeamFromBody.Column2;
        if (pose.BeamScale != 1 || !(axis.Z > 0))
        {
            return false;
        }
        AtlasPlace at = new() { Doppler = 1 };
        if (v.X != 0 || v.Y != 0)
        {
            Illumination light = Illumination.SeenFrom(v);
            at.Doppler = light.IrradianceFactor;
            at.IsSlanted = true;
            // Turned back by this small turn the profile stands upright again; all else turns with it.
            at.Turn = new(light.ProfileY.Z, -light.ProfileX.Z, 0);
            at.SlantX = light.Direction.X + light.ProfileX.Z;
            at.SlantY = light.Direction.Y + light.ProfileY.Z;
            axis -= Vec3.Cross(at.Turn, axis);
            double tilt = Math.Max(Math.Abs(at.SlantX), Math.Abs(at.SlantY));
            if (_slant is null || !(Math.Max(tilt, at.Turn.Length) <= _largestSlant))
            {
                return false;
            }
        }
        else if (v.Z != 0)
        {
            double beta = v.Z / Illumination.LightSpeed;
            at.Doppler = Math.Abs(beta) < 1 ? (1 - beta) / (1 + beta) : double.NaN;
        }
        at.Rx = _perOffset * pose.OffsetXMetres;
        at.Ry = _perOffset * pose.OffsetYMetres;
        at.Tx = _perSine * axis.X;
        at.Ty = _perSine * axis.Y;
        at.Nz = axis.Z;
        at.A = at.Rx * at.Rx + at.Ry * at.Ry;
        at.B = at.Tx * at.Tx + at.Ty * at.Ty;
        at.C = at.Rx * at.Tx + at.Ry * at.Ty;
        if (!(at.A <= 1 && at.B <= 1 && at.Doppler > 0))
        {
            return false;
        }
        int panel = 0;
        while (panel < _ends.Length - 1 && at.A > _ends[panel])
        {
            panel++;
        }
        at.Panel = _panels[panel]!;
        place = at;
        return at.Panel is not null;
    }
}

/// <summary>A pose in the coordinates of the atlas.</summary>
internal struct AtlasPlace
{
    public AtlasPanel Panel;
    public double Rx;
    public double Ry;
    public double Tx;
    public double Ty;
    public double Nz;
    public double A;
    public double B;
    public double C;
    public double Doppler;
    public bool IsSlanted;
    public double SlantX;
    public double SlantY;
    public Vec3 Turn;
}
