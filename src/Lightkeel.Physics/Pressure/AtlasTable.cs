using System.Runtime.Intrinsics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>The table of an atlas, for torques about the place that it was filled for. See <see cref="PressureAtlas"/>.</summary>
internal sealed class AtlasTable : IPressureEngine
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
    private readonly double _slopeError;

    public AtlasTable(AtlasBuild build, double powerWatts)
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
        double slopes = AtlasProof.SlopeMiss(this, build);
        Report = build.Report with { LargestSlopeMiss = slopes };
        _slopeError = AtlasBuild.Safety * slopes + build.Engine.Accuracy;
    }

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy { get; }

    /// <summary>What it holds and how well it is proven.</summary>
    public AtlasReport Report { get; }

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        if (!TryPlace(pose, out AtlasPlace place))
        {
            return _outside.Evaluate(pose);
        }
        AtlasLanes v = AtlasLanes.From(place.Panel.Value(place.A, place.B, place.C));
        Vec3 force = new(v.Q0 * place.Rx + v.Q1 * place.Tx, v.Q0 * place.Ry + v.Q1 * place.Ty, v.Q2);
        Vec3 torque = new(
            -(v.Q3 * place.Ry + v.Q4 * place.Ty),
            v.Q3 * place.Rx + v.Q4 * place.Tx,
            v.Q5 * (place.Rx * place.Ty - place.Ry * place.Tx)
        );
        UnitWrench unit = new(force, torque, v.Q6, v.Q7);
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
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        if (!TryPlace(pose, out AtlasPlace place) || place.IsSlanted)
        {
            return _outside.Differentiate(pose);
        }
        AtlasSlopes slopes = new(place, _perOffset, _perSine);
        double watts = _powerWatts * place.Doppler;
        return slopes.Read(watts / Illumination.LightSpeed, watts, _slopeError);
    }

    /// <summary>Finds the place of a pose in the table; false where the table does not serve.</summary>
    private bool TryPlace(in CraftPose pose, out AtlasPlace place)
    {
        place = default;
        ref AtlasPlace at = ref place;
        Vec3 v = pose.VelocityMetresPerSecond;
        Vec3 axis = pose.BeamFromBody.Column2;
        if (pose.BeamScale != 1 || !(axis.Z > 0))
        {
            return false;
        }
        at.Doppler = 1;
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

/// <summary>Eight numbers side by side, to read one by one.</summary>
internal readonly struct AtlasLanes
{
#pragma warning disable CS0649 // Filled as a whole from a vector.
    public readonly double Q0;
    public readonly double Q1;
    public readonly double Q2;
    public readonly double Q3;
    public readonly double Q4;
    public readonly double Q5;
    public readonly double Q6;
    public readonly double Q7;
#pragma warning restore CS0649

    public static AtlasLanes From(Vector512<double> v) =>
        System.Runtime.CompilerServices.Unsafe.BitCast<Vector512<double>, AtlasLanes>(v);
}
