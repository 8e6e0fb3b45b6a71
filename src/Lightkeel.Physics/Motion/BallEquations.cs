using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;

namespace Lightkeel.Physics.Motion;

/// <summary>
/// <see cref="RideEquations"/> of a ball, whose force does not depend on its attitude, at eight instants side by side. Where the table
/// of the ball does not serve (off its box, a spot that spreads), each instant is asked of the general equations.
/// </summary>
internal readonly struct BallEquations : INodeRates
{
    private const double InverseSpeed = 1 / Illumination.LightSpeed;
    private const double InverseSquare = InverseSpeed * InverseSpeed;
    private readonly RideField _field;
    private readonly RideEquations _general;
    private readonly bool _turns;

    public BallEquations(RideField field, bool turns)
    {
        (_field, _general, _turns) = (field, new(field), turns);
    }

    /// <inheritdoc/>
    /// <remarks>The attitude of a ball that nothing turns is carried along by the Thomas rotation alone.</remarks>
    public int FeedbackCount => _turns ? RideState.ProperTimeIndex : RideState.AttitudeIndex;

    /// <inheritdoc/>
    public int PlaceCount => 3;

    /// <inheritdoc/>
    public void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates)
    {
        Vector512<double> square = states[3] * states[3] + states[4] * states[4] + states[5] * states[5];
        Vector512<double> one = Vector512<double>.One;
        Vector512<double> slow = one / Vector512.Sqrt(one + InverseSquare * square);
        (rates[0], rates[1], rates[2]) = (slow * states[3], slow * states[4], slow * states[5]);
    }

    /// <inheritdoc/>
    public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
        _general.Evaluate(time, state, rate);

    /// <inheritdoc/>
    [SkipLocalsInit]
    public void Evaluate(
        Vector512<double> times,
        ReadOnlySpan<double> start,
        ReadOnlySpan<Vector512<double>> states,
        Span<Vector512<double>> rates
    )
    {
        Vector512<double> ux = InverseSpeed * states[3];
        Vector512<double> uy = InverseSpeed * states[4];
        Vector512<double> uz = InverseSpeed * states[5];
        Vector512<double> one = Vector512<double>.One;
        Vector512<double> gamma = Vector512.Sqrt(one + ux * ux + uy * uy + uz * uz);
        BallNodes nodes = new(states[0], states[1], ux, uy, uz, gamma);
        Vector512<double> source = times - InverseSpeed * states[2];
        if (
            !_field.TryReadBall(nodes, out BallAction light)
            || !_field.TryScheduled(source, out Vector512<double> power)
        )
        {
            OneByOne(times, start, states, rates);
            return;
        }
        Vector512<double> slow = one / gamma;
        (Vector512<double> fx, Vector512<double> fy, Vector512<double> fz) = (
            power * light.Fx,
            power * light.Fy,
            power * light.Fz
        );
        (Vector512<double> tx, Vector512<double> ty, Vector512<double> tz) = (
            power * light.Tx,
            power * light.Ty,
            power * light.Tz
        );
        BallTurn turn = default;
        if (_turns)
        {
            turn = new(_field, states);
            turn.Damp(_field, power * light.Doppler, ref fx, ref fy, ref fz, ref tx, ref ty, ref tz);
        }
        rates[14] = _field.PowerWatts * power * (one - slow * uz);
        rates[15] = power * light.Intercepted / (gamma * (gamma - uz));
        rates[16] = Illumination.LightSpeed * slow * (ux * fx + uy * fy + uz * fz);
        rates[17] = slow * power * light.Absorbed;
        fz += Vector512.Create(_field.Weight);
        Vector512<double> share = one / (gamma + one);
        Vector512<double> along = share * (ux * fx + uy * fy + uz * fz);
        double inverseMass = _field.InverseMass;
        Vector512<double> px = inverseMass * (fx + along * ux);
        Vector512<double> py = inverseMass * (fy + along * uy);
        Vector512<double> pz = inverseMass * (fz + along * uz);
        (rates[0], rates[1], rates[2]) = (slow * states[3], slow * states[4], slow * states[5]);
        (rates[3], rates[4], rates[5]) = (slow * px, slow * py, slow * pz);
        // Thomas rotation, −(u × du/dτ)/((γ + 1) c²).
        share = -InverseSpeed * share;
        Vector512<double> wx = share * (uy * pz - uz * py);
        Vector512<double> wy = share * (uz * px - ux * pz);
        Vector512<double> wz = share * (ux * py - uy * px);
        Vector512<double> half = 0.5 * slow;
        Vector512<double> axial = _field.Body.MassKilograms * (states[0] * py - states[1] * px) + tz;
        if (_turns)
        {
            axial += turn.AxialOf(wx, wy);
            turn.Write(states, rates, slow, tx, ty, tz);
            AddTurn(states[6], states[7], states[8], states[9], rates, half * wx, half * wy, half * wz);
        }
        else
        {
            rates[6..13].Clear();
            (Vector512<double> w, Vector512<double> x) = (Vector512.Create(start[6]), Vector512.Create(start[7]));
            (Vector512<double> y, Vector512<double> z) = (Vector512.Create(start[8]), Vector512.Create(start[9]));
            AddTurn(w, x, y, z, rates, half * wx, half * wy, half * wz);
        }
        rates[13] = slow;
        rates[18] = slow * axial;
    }

    // Adds (0, t) q for half a turn t in beam axes.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void AddTurn(
        Vector512<double> w,
        Vector512<double> x,
        Vector512<double> y,
        Vector512<double> z,
        Span<Vector512<double>> rate,
        Vector512<double> tx,
        Vector512<double> ty,
        Vector512<double> tz
    )
    {
        rate[6] -= tx * x + ty * y + tz * z;
        rate[7] += tx * w + ty * z - tz * y;
        rate[8] += ty * w + tz * x - tx * z;
        rate[9] += tz * w + tx * y - ty * x;
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void OneByOne(
        Vector512<double> times,
        ReadOnlySpan<double> start,
        ReadOnlySpan<Vector512<double>> states,
        Span<Vector512<double>> rates
    )
    {
        Span<double> state = stackalloc double[RideState.Dimension];
        start.CopyTo(state);
        Span<double> rate = stackalloc double[RideState.Dimension];
        Span<double> all = stackalloc double[RideState.Dimension * Vector512<double>.Count];
        for (int node = 0; node < Vector512<double>.Count; node++)
        {
            for (int i = 0; i < states.Length; i++)
            {
                state[i] = states[i][node];
            }
            _general.Evaluate(times[node], state, rate);
            for (int i = 0; i < rate.Length; i++)
            {
                all[Vector512<double>.Count * i + node] = rate[i];
            }
        }
        for (int i = 0; i < rates.Length; i++)
        {
            rates[i] = Vector512.Create<double>(all.Slice(Vector512<double>.Count * i, Vector512<double>.Count));
        }
    }
}

/// <summary>The turning of a ball at eight instants: attitude, angular momentum and rate.</summary>
internal readonly struct BallTurn
{
    private readonly LaneMatrix _attitude;
    private readonly LaneVector _momentum;
    private readonly LaneVector _rate;

    public BallTurn(RideField field, ReadOnlySpan<Vector512<double>> s)
    {
        _attitude = LaneMatrix.Of(s[6], s[7], s[8], s[9]);
        _momentum = new(s[10], s[11], s[12]);
        _rate = LaneVector.Product(field.Body.InverseInertia, _momentum);
    }

    /// <summary>Adds the damping by rotation.</summary>
    public void Damp(
        RideField field,
        Vector512<double> share,
        ref Vector512<double> fx,
        ref Vector512<double> fy,
        ref Vector512<double> fz,
        ref Vector512<double> tx,
        ref Vector512<double> ty,
        ref Vector512<double> tz
    )
    {
        if (field.RotationDamping is not { } damping)
        {
            return;
        }
        LaneVector force = _attitude.Times(LaneVector.Product(damping.ForceByRate, _rate));
        LaneVector torque = _attitude.Times(LaneVector.Product(damping.TorqueByRate, _rate));
        (fx, fy, fz) = (fx + share * force.X, fy + share * force.Y, fz + share * force.Z);
        (tx, ty, tz) = (tx + share * torque.X, ty + share * torque.Y, tz + share * torque.Z);
    }

    /// <summary>What the Thomas rotation w adds to the rate of the angular momentum along the beam: (w × R L)_z.</summary>
    public Vector512<double> AxialOf(Vector512<double> wx, Vector512<double> wy)
    {
        LaneVector l = _attitude.Times(_momentum);
        return wx * l.Y - wy * l.X;
    }

    /// <summary>Writes the rates of attitude and angular momentum, the Thomas rotation left out.</summary>
    public void Write(
        ReadOnlySpan<Vector512<double>> s,
        Span<Vector512<double>> rate,
        Vector512<double> slow,
        Vector512<double> tx,
        Vector512<double> ty,
        Vector512<double> tz
    )
    {
        Vector512<double> half = 0.5 * slow;
        (Vector512<double> wx, Vector512<double> wy, Vector512<double> wz) = (
            half * _rate.X,
            half * _rate.Y,
            half * _rate.Z
        );
        rate[6] = -(s[7] * wx) - s[8] * wy - s[9] * wz;
        rate[7] = s[6] * wx + s[8] * wz - s[9] * wy;
        rate[8] = s[6] * wy + s[9] * wx - s[7] * wz;
        rate[9] = s[6] * wz + s[7] * wy - s[8] * wx;
        LaneVector torque = _attitude.TransposedTimes(new(tx, ty, tz));
        rate[10] = slow * (torque.X - (_rate.Y * _momentum.Z - _rate.Z * _momentum.Y));
        rate[11] = slow * (torque.Y - (_rate.Z * _momentum.X - _rate.X * _momentum.Z));
        rate[12] = slow * (torque.Z - (_rate.X * _momentum.Y - _rate.Y * _momentum.X));
    }
}

/// <summary>Three numbers at eight instants.</summary>
internal readonly record struct LaneVector(Vector512<double> X, Vector512<double> Y, Vector512<double> Z)
{
    /// <summary>A matrix of plain numbers times a vector.</summary>
    public static LaneVector Product(in Mat3 m, LaneVector v) =>
        new(
            m.Row0.X * v.X + m.Row0.Y * v.Y + m.Row0.Z * v.Z,
            m.Row1.X * v.X + m.Row1.Y * v.Y + m.Row1.Z * v.Z,
            m.Row2.X * v.X + m.Row2.Y * v.Y + m.Row2.Z * v.Z
        );
}

/// <summary>A rotation at eight instants, row by row.</summary>
internal readonly record struct LaneMatrix(LaneVector Row0, LaneVector Row1, LaneVector Row2)
{
    /// <summary>That of a quaternion, as <see cref="UnitQuaternion.ToMatrix"/>.</summary>
    public static LaneMatrix Of(Vector512<double> w, Vector512<double> x, Vector512<double> y, Vector512<double> z)
    {
        Vector512<double> one = Vector512<double>.One;
        return new(
            new(one - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)),
            new(2 * (x * y + w * z), one - 2 * (x * x + z * z), 2 * (y * z - w * x)),
            new(2 * (x * z - w * y), 2 * (y * z + w * x), one - 2 * (x * x + y * y))
        );
    }

    /// <summary>Matrix times vector.</summary>
    public LaneVector Times(LaneVector v) => new(Dot(Row0, v), Dot(Row1, v), Dot(Row2, v));

    /// <summary>Transposed matrix times vector.</summary>
    public LaneVector TransposedTimes(LaneVector v) =>
        new(
            Row0.X * v.X + Row1.X * v.Y + Row2.X * v.Z,
            Row0.Y * v.X + Row1.Y * v.Y + Row2.Y * v.Z,
            Row0.Z * v.X + Row1.Z * v.Y + Row2.Z * v.Z
        );

    private static Vector512<double> Dot(in LaneVector a, in LaneVector b) => a.X * b.X + a.Y * b.Y + a.Z * b.Z;
}
