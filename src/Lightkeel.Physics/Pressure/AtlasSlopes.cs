using System.Runtime.Intrinsics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>Derivatives of the atlas by offset and tilt, by the chain rule through its invariants.</summary>
internal readonly struct AtlasSlopes
{
    private readonly AtlasPlace _at;
    private readonly double _perOffset;
    private readonly double _perSine;
    private readonly Vector512<double> _value;
    private readonly Vector512<double> _byA;
    private readonly Vector512<double> _byB;
    private readonly Vector512<double> _byC;

    public AtlasSlopes(in AtlasPlace place, double perOffset, double perSine)
    {
        (_at, _perOffset, _perSine) = (place, perOffset, perSine);
        (_value, _byA, _byB, _byC) = place.Panel.Slopes(place.A, place.B, place.C);
    }

    /// <summary>The derivatives.</summary>
    /// <param name="newtons">Force for one unit.</param>
    /// <param name="watts">Power for one unit.</param>
    /// <param name="error">Vouched relative error of the values.</param>
    public PressureDerivatives Read(double newtons, double watts, double error)
    {
        // A further turn about beam x or y moves the axis n across by e × n.
        double lean = _perSine * _at.Nz;
        return new(
            Along(_perOffset, 0, 0, 0, newtons, watts, error),
            Along(0, _perOffset, 0, 0, newtons, watts, error),
            Along(0, 0, 0, -lean, newtons, watts, error),
            Along(0, 0, lean, 0, newtons, watts, error),
            error
        );
    }

    private PressureReading Along(
        double rx,
        double ry,
        double tx,
        double ty,
        double newtons,
        double watts,
        double error
    )
    {
        double a = 2 * (_at.Rx * rx + _at.Ry * ry);
        double b = 2 * (_at.Tx * tx + _at.Ty * ty);
        double c = rx * _at.Tx + ry * _at.Ty + _at.Rx * tx + _at.Ry * ty;
        Vector512<double> d = a * _byA + b * _byB + c * _byC;
        Vec3 force = new(
            d[0] * _at.Rx + d[1] * _at.Tx + _value[0] * rx + _value[1] * tx,
            d[0] * _at.Ry + d[1] * _at.Ty + _value[0] * ry + _value[1] * ty,
            d[2]
        );
        double twist = _at.Rx * _at.Ty - _at.Ry * _at.Tx;
        double turned = rx * _at.Ty - ry * _at.Tx + _at.Rx * ty - _at.Ry * tx;
        Vec3 torque = new(
            -(d[3] * _at.Ry + d[4] * _at.Ty + _value[3] * ry + _value[4] * ty),
            d[3] * _at.Rx + d[4] * _at.Tx + _value[3] * rx + _value[4] * tx,
            d[5] * twist + _value[5] * turned
        );
        return new(newtons * force, newtons * torque, watts * d[6], watts * d[7], error);
    }
}
