using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>
/// Fixed steps in coordinate time: half a free flight, a kick by force and torque, half a free flight; composed to the
/// order wanted. Symmetric, hence reversible; symplectic where the laser's-frame forces come from a potential.
/// </summary>
/// <remarks>
/// Free flight keeps celerity and angular momentum: the centre of mass moves at u/γ, proper time at 1/γ, the body turns by
/// exact rotations (<see cref="FreeRotation"/>). The kick holds place and time; celerity, angular momentum, the Thomas
/// rotation and the energy account follow the implicit midpoint rule, solved to rounding: the light depends on velocity
/// by some v/c only, so that two or three evaluations do. Exact in β throughout. Splitting and composition: Acta Numerica
/// 12, 399–450 (2003), doi:10.1017/S0962492902000144.
/// A step in which the light has a break (a jump or kink of schedule or disturbance) is taken in parts that meet there, each
/// in its own smooth light: the order stands, and a shorter step from the same start still ends on the same path. Steps
/// back in time are taken whole.
/// </remarks>
/// <param name="field">What acts.</param>
/// <param name="composition">Order.</param>
/// <param name="breaks">Source times of breaks, increasing, s.</param>
internal sealed class RideComposition(RideField field, CompositionScheme composition, double[] breaks)
    : IFixedStepScheme
{
    private const int MostRounds = 30;
    private const double Rounding = 4 * 2.2204460492503131e-16;
    private const double ExpectedRounding = Rounding / 64;
    private const double AcceptedStall = 1e-13;
    private const int MostCorrections = 4;
    private readonly FreeRotation _rotation = new(field.Body.Principal);

    public int Dimension => RideState.Dimension;

    public int Order => composition.Order;

    public long RateEvaluations { get; private set; }

    public bool TryAdvance(double time, double step, Span<double> state)
    {
        RideState s = RideState.Read(state);
        bool converged = breaks.Length == 0 ? TryPart(time, step, ref s) : TryParts(time, step, ref s);
        (s with { Attitude = s.Attitude.Normalized() }).Write(state);
        return converged;
    }

    private bool TryPart(double time, double step, ref RideState s)
    {
        double passed = 0;
        bool converged = true;
        foreach (double fraction in composition.Fractions)
        {
            double part = fraction * step;
            s = Fly(s, 0.5 * part);
            converged &= TryKick(time + passed + 0.5 * part, part, ref s);
            s = Fly(s, 0.5 * part);
            passed += part;
        }
        return converged;
    }

    private bool TryParts(double time, double step, ref RideState s)
    {
        // A break met to rounding is behind.
        double source = s.SourceSeconds(time);
        int next = Array.BinarySearch(breaks, source + Rounding * Math.Abs(time));
        next = next < 0 ? ~next : next + 1;
        if (next == breaks.Length || !(UntilBreak(breaks[next], time, s) < step))
        {
            return TryPart(time, step, ref s);
        }
        bool converged = true;
        double passed = 0;
        for (; passed < step; next++)
        {
            double from = next == 0 ? source : Math.Max(source, breaks[next - 1]);
            field.FixStretch(from, next == breaks.Length ? double.PositiveInfinity : breaks[next], null);
            converged &= TryToBreak(next, time, step, ref passed, ref s);
        }
        field.ReleaseStretch();
        return converged;
    }

    // To the next break, or to the end of the step where that comes first. When the light of the break meets the craft
    // depends on how the light pushes it until then, by little.
    private bool TryToBreak(int next, double time, double step, ref double passed, ref RideState s)
    {
        double left = step - passed;
        double part = next == breaks.Length ? left : Math.Clamp(UntilBreak(breaks[next], time + passed, s), 0, left);
        RideState end = s;
        bool converged = TryPart(time + passed, part, ref end);
        for (int round = 0; round < MostCorrections && next < breaks.Length && converged; round++)
        {
            double missed = UntilBreak(breaks[next], time + passed + part, end);
            double better = Math.Clamp(part + missed, 0, left);
            if (Math.Abs(better - part) <= Rounding * Math.Max(Math.Abs(time), left))
            {
                break;
            }
            (part, end) = (better, s);
            converged = TryPart(time + passed, part, ref end);
        }
        s = end;
        passed = part >= left ? step : passed + part;
        return converged;
    }

    // Coordinate time until the light of a break meets the craft at its present speed, s.
    private static double UntilBreak(double source, double time, in RideState s) =>
        (source - s.SourceSeconds(time)) / (1 - s.VelocityMetresPerSecond.Z / Illumination.LightSpeed);

    private RideState Fly(in RideState s, double seconds)
    {
        double proper = seconds / s.LorentzFactor;
        UnitQuaternion attitude = s.Attitude;
        Vec3 momentum = s.BodyAngularMomentum;
        if (momentum != Vec3.Zero)
        {
            _rotation.Turn(proper, ref attitude, ref momentum);
        }
        return s with
        {
            PositionMetres = s.PositionMetres + proper * s.CelerityMetresPerSecond,
            Attitude = attitude,
            BodyAngularMomentum = momentum,
            ProperSeconds = s.ProperSeconds + proper,
        };
    }

    private bool TryKick(double time, double step, ref RideState s)
    {
        if (!TryRate(time, step, s, default, out Change change))
        {
            return false;
        }
        // The first change is measured against none at all.
        double last = 1;
        for (int round = 0; round < MostRounds; round++)
        {
            if (!TryRate(time, step, s, change, out Change next))
            {
                return false;
            }
            double difference = next.DifferenceFrom(change, s);
            change = next;
            // Below rounding, or bound to be so in the next round at the rate at which rounds shrink, or no longer shrinking
            // because rounding in the forces is all that is left.
            bool isNextBelow = difference < last && difference / last * difference <= ExpectedRounding;
            if (difference <= Rounding || isNextBelow || (difference <= AcceptedStall && difference >= last))
            {
                s = s with
                {
                    CelerityMetresPerSecond = s.CelerityMetresPerSecond + change.Celerity,
                    BodyAngularMomentum = s.BodyAngularMomentum + change.Momentum,
                    Attitude = UnitQuaternion.FromRotationVector(change.Turn) * s.Attitude,
                    Ledger = change.AddedTo(s.Ledger),
                    AngularImpulse = s.AngularImpulse + change.AngularImpulse,
                };
                return true;
            }
            last = difference;
        }
        return false;
    }

    // What the kick changes, from the rates half way through a change.
    private bool TryRate(double time, double step, in RideState s, in Change halfOf, out Change change)
    {
        Vec3 celerity = s.CelerityMetresPerSecond + 0.5 * halfOf.Celerity;
        Vec3 momentum = s.BodyAngularMomentum + 0.5 * halfOf.Momentum;
        UnitQuaternion attitude =
            halfOf.Turn == Vec3.Zero ? s.Attitude : UnitQuaternion.FromRotationVector(0.5 * halfOf.Turn) * s.Attitude;
        Mat3 turned = attitude.ToMatrix();
        double gamma = RideState.LorentzFactorOf(celerity);
        Vec3 rate = field.Body.Rate(momentum);
        RateEvaluations++;
        if (
            !field.TryEvaluate(
                time,
                s.PositionMetres,
                celerity,
                gamma,
                turned,
                rate,
                s.ProperSeconds,
                out RideAction action
            )
        )
        {
            change = default;
            return false;
        }
        double proper = step / gamma;
        Vec3 pull = RideEquations.CelerityRate(celerity, gamma, action.Force, field.Body.MassKilograms);
        Vec3 thomas = RideEquations.ThomasRate(celerity, gamma, pull);
        Vec3 torque = action.Torque + Vec3.Cross(thomas, attitude.Rotate(momentum));
        change = new(
            proper * pull,
            proper * (turned.Transposed * action.Torque),
            proper * thomas,
            step * action.SourceWatts,
            step * action.InterceptedWatts,
            proper * Vec3.Dot(celerity, action.LightForce),
            proper * action.HeatWatts,
            proper * RideEquations.AxialTorque(s.PositionMetres, field.Body.MassKilograms * pull, torque)
        );
        return true;
    }

    private readonly record struct Change(
        Vec3 Celerity,
        Vec3 Momentum,
        Vec3 Turn,
        double Source,
        double Intercepted,
        double Work,
        double Heat,
        double AngularImpulse
    )
    {
        public EnergyLedger AddedTo(in EnergyLedger ledger) =>
            new(
                ledger.SourceJoules + Source,
                ledger.InterceptedJoules + Intercepted,
                ledger.WorkJoules + Work,
                ledger.HeatJoules + Heat
            );

        // Largest change of a component against that component: a fast axial motion must not hide a slow lateral one.
        public double DifferenceFrom(in Change other, in RideState s) =>
            Math.Max(
                Relative(Celerity - other.Celerity, s.CelerityMetresPerSecond, Celerity),
                Relative(Momentum - other.Momentum, s.BodyAngularMomentum, Momentum)
            );

        private static double Relative(Vec3 change, Vec3 value, Vec3 kick) =>
            Math.Max(
                Relative(change.X, value.X, kick.X),
                Math.Max(Relative(change.Y, value.Y, kick.Y), Relative(change.Z, value.Z, kick.Z))
            );

        private static double Relative(double change, double value, double kick) =>
            change == 0 ? 0 : Math.Abs(change) / (Math.Abs(value) + Math.Abs(kick));
    }
}
