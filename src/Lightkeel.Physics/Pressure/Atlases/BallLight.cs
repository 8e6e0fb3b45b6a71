using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>What light does to a ball at eight places at once, in the beam of designed size: for rides that ask often.</summary>
/// <remarks>
/// The numbers are those of <see cref="AtlasTable"/> to a thousandth of its accuracy, from the same pieces; where these do not serve,
/// the caller asks the engine place by place.
/// </remarks>
internal sealed class BallLight
{
    private const double Share = 1e-3;
    private const int Lanes = AtlasBlock.Lanes;
    private readonly LineCells _values;
    private readonly LineCells _slants;
    private readonly double _perOffset;
    private readonly double _largestSlant;
    private readonly double _powerWatts;

    private BallLight(AtlasContent content, LineCells[] cells, double powerWatts, double error)
    {
        (_values, _slants) = (cells[0], cells[1]);
        _perOffset = 1 / content.OffsetMetres;
        _largestSlant = AtlasLight.LargestSlant(content.Accuracy);
        _powerWatts = powerWatts;
        RelativeError = error + Share * content.Accuracy;
        HasTorque =
            content.Plain.Any(p => p.Serves && TorqueIn(p, 0))
            || content.PlainSlants.Any(p => p.Serves && (TorqueIn(p, 0) || TorqueIn(p, 1)));
    }

    // Quantities that a slant along the offset changes; one across it changes the others.
    private static Vector512<double> AlongLanes => Vector512.Create(1.0, 0, 1, 0, 1, 0, 1, 1);

    /// <summary>Error that it vouches for.</summary>
    public double RelativeError { get; }

    /// <summary>Whether any light turns the ball.</summary>
    public bool HasTorque { get; }

    /// <summary>The light of an atlas of a ball in a round beam; null for any other, and where its pieces are not series in the offset.</summary>
    public static BallLight? Of(AtlasContent content, double powerWatts, double error)
    {
        bool isLine =
            content.Kind == AtlasKind.Axisymmetric
            && content.ShiftMetres == 0
            && content.Plain.Concat(content.PlainSlants).All(p => !p.Serves || p.IsLine);
        if (!isLine)
        {
            return null;
        }
        Vector512<double> isAlong = AlongLanes;
        Vector512<double> isAcross = Vector512<double>.One - isAlong;
        Vector512<double> Slants(AtlasPiece piece, double offset)
        {
            (Vector512<double> first, Vector512<double> second) = piece.PairOnLine(offset);
            return isAlong * first + isAcross * second;
        }
        LineCells?[] cells =
        [
            LineCells.Of(content.Plain, (p, a) => p.ValueOnLine(a), Share * content.Accuracy),
            LineCells.Of(content.PlainSlants, Slants, Share * AtlasSlant.Target),
        ];
        return cells.All(c => c is not null) ? new(content, [.. cells.Select(c => c!)], powerWatts, error) : null;
    }

    /// <summary>Force, torque and power at eight places; false where one of them is not in the table.</summary>
    [SkipLocalsInit]
    public bool TryRead(in BallNodes at, out BallAction action)
    {
        Vector512<double> rx = _perOffset * at.X;
        Vector512<double> ry = _perOffset * at.Y;
        Vector512<double> square = rx * rx + ry * ry;
        Vector512<double> offset = Vector512.Sqrt(square);
        Vector512<double> one = Vector512<double>.One;
        Vector512<double> isOff = Vector512.GreaterThan(square, Vector512<double>.Zero);
        Vector512<double> inverse = one / Vector512.ConditionalSelect(isOff, offset, one);
        Vector512<double> ex = Vector512.ConditionalSelect(isOff, inverse * rx, one);
        Vector512<double> ey = inverse * ry;
        SlantedLight light = new(at);
        if (!light.IsWithin(_largestSlant))
        {
            Unsafe.SkipInit(out action);
            return false;
        }
        Vector512<double> along = light.SlantX * ex + light.SlantY * ey;
        Vector512<double> across = light.SlantY * ex - light.SlantX * ey;
        Vector512<double> isAlong = Vector512.Equals(AlongLanes, Vector512<double>.One);
        Span<double> places = stackalloc double[4 * Lanes];
        square.CopyTo(places);
        offset.CopyTo(places[Lanes..]);
        along.CopyTo(places[(2 * Lanes)..]);
        across.CopyTo(places[(3 * Lanes)..]);
        Span<double> values = stackalloc double[Lanes * Lanes];
        Span<double> changes = stackalloc double[Lanes * Lanes];
        for (int node = 0; node < Lanes; node++)
        {
            double r = places[Lanes + node];
            if (
                !_values.TryFind(places[node], out int at1, out double t)
                || !_slants.TryFind(r, out int at2, out double s)
            )
            {
                Unsafe.SkipInit(out action);
                return false;
            }
            Vector512.StoreUnsafe(_values.Value(at1, t), ref values[Lanes * node]);
            // What belongs to a slant along the offset, and to one across it, side by side: every lane has one of them.
            Vector512<double> turn = Vector512.ConditionalSelect(
                isAlong,
                Vector512.Create(places[2 * Lanes + node]),
                Vector512.Create(places[3 * Lanes + node])
            );
            Vector512.StoreUnsafe(turn * _slants.Value(at2, s), ref changes[Lanes * node]);
        }
        action = Action(values, changes, rx, ry, ex, ey, light);
        return true;
    }

    private BallAction Action(
        ReadOnlySpan<double> v,
        ReadOnlySpan<double> c,
        Vector512<double> rx,
        Vector512<double> ry,
        Vector512<double> ex,
        Vector512<double> ey,
        in SlantedLight light
    )
    {
        (Vector512<double> lateral, Vector512<double> c0, Vector512<double> c1) = (
            Column(v, 0),
            Column(c, 0),
            Column(c, 1)
        );
        Vector512<double> fx = lateral * rx + ex * c0 - ey * c1;
        Vector512<double> fy = lateral * ry + ey * c0 + ex * c1;
        Vector512<double> fz = Column(v, 2) + Column(c, 2);
        Vector512<double> watts = _powerWatts * light.Doppler;
        Vector512<double> newtons = 1 / Illumination.LightSpeed * watts;
        Vector512<double> zero = Vector512<double>.Zero;
        (Vector512<double> tx, Vector512<double> ty, Vector512<double> tz) = (zero, zero, zero);
        if (HasTorque)
        {
            (Vector512<double> twist, Vector512<double> c3, Vector512<double> c4) = (
                Column(v, 3),
                Column(c, 3),
                Column(c, 4)
            );
            tx = ex * c3 - ey * c4 - twist * ry;
            ty = ey * c3 + ex * c4 + twist * rx;
            tz = Column(c, 5);
            light.Turn(ref tx, ref ty, ref tz);
        }
        light.Turn(ref fx, ref fy, ref fz);
        return new(
            newtons * fx,
            newtons * fy,
            newtons * fz,
            newtons * tx,
            newtons * ty,
            newtons * tz,
            watts * (Column(v, 6) + Column(c, 6)),
            watts * (Column(v, 7) + Column(c, 7)),
            light.Doppler
        );
    }

    // One quantity at the eight nodes.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector512<double> Column(ReadOnlySpan<double> rows, int quantity)
    {
        ReadOnlySpan<double> q = rows.Slice(quantity, 7 * Lanes + 1);
        return Vector512.Create(q[0], q[8], q[16], q[24], q[32], q[40], q[48], q[56]);
    }

    private static bool TorqueIn(AtlasPiece piece, int group)
    {
        ReadOnlySpan<double> c = piece.Groups[group][0].Coefficients;
        for (int i = 0; i < c.Length; i++)
        {
            if (i % Lanes is 3 or 4 or 5 && c[i] != 0)
            {
                return true;
            }
        }
        return false;
    }
}

/// <summary>Eight places of a ball and its proper velocities.</summary>
/// <param name="X">Offset along x, m.</param>
/// <param name="Y">Offset along y, m.</param>
/// <param name="Ux">Proper velocity over the speed of light, along x.</param>
/// <param name="Uy">The same along y.</param>
/// <param name="Uz">The same along z.</param>
/// <param name="Gamma">Lorentz factor.</param>
internal readonly record struct BallNodes(
    Vector512<double> X,
    Vector512<double> Y,
    Vector512<double> Ux,
    Vector512<double> Uy,
    Vector512<double> Uz,
    Vector512<double> Gamma
);

/// <summary>Force (N), torque (N m), power intercepted and absorbed (W) at eight places, rest frame, beam axes.</summary>
internal readonly record struct BallAction(
    Vector512<double> Fx,
    Vector512<double> Fy,
    Vector512<double> Fz,
    Vector512<double> Tx,
    Vector512<double> Ty,
    Vector512<double> Tz,
    Vector512<double> Intercepted,
    Vector512<double> Absorbed,
    Vector512<double> Doppler
);

/// <summary>The light of <see cref="AtlasLight"/> at eight places: the same equations.</summary>
internal readonly struct SlantedLight
{
    private readonly Vector512<double> _turnX;
    private readonly Vector512<double> _turnY;

    public SlantedLight(in BallNodes at)
    {
        // β = u/γ, and γ²/(γ + 1) β_z = γ/(γ + 1) u_z.
        Vector512<double> one = Vector512<double>.One;
        Vector512<double> slow = one / at.Gamma;
        Vector512<double> doppler = at.Gamma - at.Uz;
        Vector512<double> shear = at.Gamma / (at.Gamma + one) * at.Uz;
        Vector512<double> slant = slow * ((shear - at.Gamma) / doppler + shear);
        (SlantX, SlantY) = (slant * at.Ux, slant * at.Uy);
        shear *= slow;
        (_turnX, _turnY) = (shear * at.Uy, -(shear * at.Ux));
        Doppler = doppler * doppler;
    }

    public Vector512<double> Doppler { get; }

    public Vector512<double> SlantX { get; }

    public Vector512<double> SlantY { get; }

    public bool IsWithin(double slant)
    {
        Vector512<double> most = Vector512.Max(Vector512.Abs(SlantX), Vector512.Abs(SlantY));
        Vector512<double> turn = _turnX * _turnX + _turnY * _turnY;
        return Vector512.LessThanOrEqualAll(most, Vector512.Create(slant))
            && Vector512.LessThanOrEqualAll(turn, Vector512.Create(slant * slant));
    }

    /// <summary>Gives the small turn of the profile to a vector: v + turn × v.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Turn(ref Vector512<double> x, ref Vector512<double> y, ref Vector512<double> z)
    {
        (Vector512<double> px, Vector512<double> py) = (x, y);
        x += _turnY * z;
        y -= _turnX * z;
        z += _turnX * py - _turnY * px;
    }
}
