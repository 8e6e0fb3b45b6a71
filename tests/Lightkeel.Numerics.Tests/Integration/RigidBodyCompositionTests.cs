using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

public sealed class RigidBodyCompositionTests
{
    private static readonly RigidBodyInertia Asymmetric = new(1, Mat3.Diagonal(1, 2, 3));

    public static TheoryData<int> Orders => [2, 4, 6, 8];

    // Mechanics (Course of Theoretical Physics 1), section 37: the rates are Jacobi functions; values by mpmath for
    // I = (1, 2, 3) and a start at (0.4, 0, 1).
    [Theory]
    [InlineData(1, 0.21856094516134776, 0.33500912412974417, 0.98111652157967823)]
    [InlineData(10, -0.36106369724696796, -0.17214240189549424, 0.9950489089268678)]
    [InlineData(50, 0.23264003491355335, -0.32538994169368647, 0.98219505629730176)]
    public void AsymmetricTop_WithoutTorque_FollowsTheJacobiFunctions(double time, double w1, double w2, double w3)
    {
        RigidBodyState start = new(Vec3.Zero, Vec3.Zero, UnitQuaternion.Identity, new(0.4, 0, 3));
        RigidBodyState end = Run(new NoForce(), Asymmetric, CompositionScheme.Order8, start, time, 0.1);
        Vec3 rate = Asymmetric.Rate(end.BodyAngularMomentum);
        Assert.Equal(w1, rate.X, 1e-11);
        Assert.Equal(w2, rate.Y, 1e-11);
        Assert.Equal(w3, rate.Z, 1e-11);
    }

    // mpmath odefun at 22 digits: I = (1, 2, 3), L = (0.4, 2, 0.9) at the start, t = 10.
    [Fact]
    public void AsymmetricTop_Attitude_AgreesWithAHighPrecisionSolution()
    {
        RigidBodyState start = new(Vec3.Zero, Vec3.Zero, UnitQuaternion.Identity, new(0.4, 2, 0.9));
        RigidBodyState end = Run(new NoForce(), Asymmetric, CompositionScheme.Order8, start, 10, 0.05);
        AssertNear(
            new(0.0395602473690987394, -2.15261235416699745, 0.578528339423154664),
            end.BodyAngularMomentum,
            1e-11
        );
        UnitQuaternion q = new(
            -0.00244992214419132952,
            -0.277266431789635433,
            0.0980567821700309968,
            -0.955773085598558762
        );
        AssertSameAttitude(q, end.Attitude, 1e-11);
        AssertNear(new(0.4, 2, 0.9), end.Attitude.Rotate(end.BodyAngularMomentum), 1e-13);
    }

    // Closed form: the body turns about L at |L|/I₁ and about its own axis at L₃(1/I₃ − 1/I₁). Exact for any step, for
    // prolate and oblate bodies, whichever axis is the symmetry axis and however the body axes lie.
    [Theory]
    [InlineData(2, 2, 1)]
    [InlineData(2, 2, 3.9)]
    [InlineData(1, 2, 2)]
    public void SymmetricTop_WithoutTorque_IsExactInOneStep(double i1, double i2, double i3)
    {
        Mat3 turn = new UnitQuaternion(0.5, 0.5, -0.1, 0.7).Normalized().ToMatrix();
        RigidBodyInertia body = new(1, turn * Mat3.Diagonal(i1, i2, i3) * turn.Transposed);
        Vec3 momentum = new(0.3, -1.1, 2.2);
        RigidBodyState start = new(Vec3.Zero, new(1, 2, 3), UnitQuaternion.Identity, momentum);
        RigidBodyState end = Run(new NoForce(), body, CompositionScheme.Order2, start, 7, 7);
        bool isFirst = i2 == i3;
        Vec3 axis = isFirst ? turn.Column0 : turn.Column2;
        (double along, double across) = isFirst ? (i1, i2) : (i3, i1);
        double spin = 7 * Vec3.Dot(axis, momentum) * (1 / along - 1 / across);
        UnitQuaternion expected =
            UnitQuaternion.FromRotationVector(7 / across * momentum) * UnitQuaternion.FromRotationVector(spin * axis);
        AssertSameAttitude(expected, end.Attitude, 1e-13);
        AssertNear(momentum, end.Attitude.Rotate(end.BodyAngularMomentum), 1e-13);
        AssertNear(new(7, 14, 21), end.PositionMetres, 1e-13);
    }

    // Classical Mechanics, 3rd ed., section 5.7: steady precession W solves I₁ cos θ W² − I₃ w₃ W + mgl = 0; for
    // I₁ = 0.002, I₃ = 0.001 kg m², w₃ = 100 rad/s, mgl = 0.05 N m, θ = 60° the slow root is 0.50252531694167 rad/s.
    [Theory]
    [InlineData(0.50252531694167)]
    [InlineData(99.497474683058)]
    public void HeavyTop_InSteadyPrecession_KeepsItsTiltAndRate(double precession)
    {
        RigidBodyInertia body = new(1, Mat3.Diagonal(0.002, 0.002, 0.001));
        Vec3 momentum = new(0, 0.002 * precession * Math.Sin(Math.PI / 3), 0.1);
        UnitQuaternion tilted = UnitQuaternion.FromRotationVector(new(Math.PI / 3, 0, 0));
        RigidBodyState start = new(Vec3.Zero, Vec3.Zero, tilted, momentum);
        const double Time = 2;
        RigidBodyState end = Run(new HeavyTop(0.05), body, CompositionScheme.Order6, start, Time, 1e-3);
        Vec3 axis = end.Attitude.Rotate(Vec3.UnitZ);
        (double s, double c) = Math.SinCos(precession * Time);
        Vec3 expected = new(Math.Sin(Math.PI / 3) * s, -Math.Sin(Math.PI / 3) * c, 0.5);
        AssertNear(expected, axis, 1e-8);
    }

    // SciPy 1.10.1 solve_ivp(DOP853, rtol 1e-13), agreeing with rtol 3e-14 to 3e-14: an invented body (2 kg, inertia
    // 0.5, 1, 1.5 kg m²) on a spring of 1, 2, 3 N/m from its point (0.3, −0.2, 0.5) m to the origin, for 5 s.
    private static readonly double[] SpringEnd =
    [
        -0.67895172954299,
        -0.011413283887845,
        -0.25860976115503,
        0.27341207593321,
        -0.52854780068521,
        0.058742355883031,
        0.63171348776791,
        -0.015538300206674,
        0.63690413536263,
        -0.44164437385386,
        -0.49254099597085,
        0.53497972928709,
        0.20903937237255,
    ];

    // The same with damping 0.2 N s/m of the centre, 0.05 N m s of the turn, and stiffness × (1 + 0.3 sin 1.3 t).
    private static readonly double[] DampedEnd =
    [
        -0.72006502110244,
        0.20762700079388,
        -0.32836522434122,
        0.28587373366292,
        -0.38506659692366,
        -0.051172552932818,
        0.72779891985983,
        0.045224056463399,
        0.4184164487356,
        -0.54147132185865,
        -0.36396552627623,
        0.52376017739715,
        0.093637469761294,
    ];

    [Theory, MemberData(nameof(Orders))]
    public void SpringBody_GlobalError_FallsWithTheDeclaredOrder(int order) =>
        AssertOrder(order, new Spring(0, 0, 0), SpringEnd);

    [Theory, MemberData(nameof(Orders))]
    public void DampedAndDrivenBody_GlobalError_FallsWithTheDeclaredOrder(int order) =>
        AssertOrder(order, new Spring(0.2, 0.05, 0.3), DampedEnd);

    [Theory, MemberData(nameof(Orders))]
    public void Reversed_AfterAThousandSteps_ReturnsToTheStart(int order)
    {
        foreach (Spring spring in (Spring[])[new(0, 0, 0), new(0.02, 0.005, 0.3)])
        {
            RigidBodyComposition<Spring> scheme = new(spring, SpringBody, CompositionSchemeTests.Scheme(order));
            double[] start = SpringStart();
            double[] state = SpringStart();
            FixedStepPlan plan = new()
            {
                StartTime = 0,
                EndTime = 10,
                Step = 0.01,
            };
            Integrator.DriveFixed(scheme, plan, state, new NoSink());
            Integrator.DriveFixed(scheme, plan with { StartTime = 10, EndTime = 0 }, state, new NoSink());
            for (int i = 0; i < 13; i++)
            {
                Assert.Equal(start[i], state[i], 1e-11);
            }
        }
    }

    [Theory]
    [InlineData(2, 2e-2)]
    [InlineData(4, 1e-3)]
    [InlineData(6, 1e-4)]
    public void Energy_OverAHundredThousandSteps_DoesNotDrift(int order, double bound)
    {
        RigidBodyComposition<Spring> scheme = new(new(0, 0, 0), SpringBody, CompositionSchemeTests.Scheme(order));
        RigidBodyState state = RigidBodyState.Read(SpringStart());
        double start = Spring.Energy(state, SpringBody);
        double[] worst = new double[10];
        for (int i = 0; i < 100_000; i++)
        {
            scheme.TryAdvance(i * 0.1, 0.1, ref state);
            worst[i / 10_000] = Math.Max(worst[i / 10_000], Math.Abs(Spring.Energy(state, SpringBody) - start));
        }
        (double w, double x, double y, double z) = state.Attitude;
        Assert.InRange(worst[0], 0, bound);
        Assert.InRange(worst[9], 0, 1.5 * worst[0]);
        Assert.Equal(1, w * w + x * x + y * y + z * z, 4e-16);
    }

    // Without torque the angular momentum in world axes and its length are kept to rounding, for any number of steps.
    [Fact]
    public void AngularMomentum_WithoutTorque_IsKeptOverAHundredThousandSteps()
    {
        RigidBodyComposition<NoForce> scheme = new(new(), Asymmetric, CompositionScheme.Order2);
        RigidBodyState state = new(Vec3.Zero, Vec3.Zero, UnitQuaternion.Identity, new(0.4, 2, 0.9));
        double energy = Asymmetric.RotationalEnergy(state.BodyAngularMomentum);
        double worst = 0;
        for (int i = 0; i < 100_000; i++)
        {
            scheme.TryAdvance(i * 0.05, 0.05, ref state);
            worst = Math.Max(worst, Math.Abs(Asymmetric.RotationalEnergy(state.BodyAngularMomentum) - energy));
        }
        AssertNear(new(0.4, 2, 0.9), state.Attitude.Rotate(state.BodyAngularMomentum), 1e-11);
        Assert.InRange(worst, 0, 1e-3 * energy);
    }

    [Fact]
    public void Kick_ByStrongDamping_IsReportedWhenItDoesNotConverge()
    {
        double[] state = SpringStart();
        RigidBodyComposition<Spring> scheme = new(new(1e4, 0, 0), SpringBody, CompositionScheme.Order2);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 1,
            Step = 0.1,
        };
        RunSummary summary = Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Assert.Equal(RunEnding.ImplicitStepFailed, summary.Ending);
        Assert.Equal(SpringStart(), state);
        Assert.Contains("shorten the fixed step", summary.Advice, StringComparison.Ordinal);
    }

    // A sail at tens of thousands of km/s along the beam with mm/s across it: damping across must not drown in rounding.
    [Fact]
    public void SlowLateralMotion_BesideAFastAxialOne_IsDampedAsItShould()
    {
        RigidBodyComposition<Drag> scheme = new(new(), new(1, Mat3.Identity), CompositionScheme.Order6);
        RigidBodyState start = new(Vec3.Zero, new(1e-3, 0, 6e7), UnitQuaternion.Identity, Vec3.Zero);
        double[] state = new double[13];
        start.Write(state);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 100,
            Step = 0.5,
        };
        Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Assert.Equal(Math.Exp(-1), state[3] / 1e-3, 1e-12);
        Assert.Equal(0.1 * (1 - Math.Exp(-1)), state[0], 1e-13);
    }

    [Fact]
    public void Step_AllocatesNothing()
    {
        RigidBodyComposition<Spring> scheme = new(new(0.1, 0.1, 0.1), SpringBody, CompositionScheme.Order4);
        double[] state = SpringStart();
        long before = 0;
        for (int i = 0; i < 200; i++)
        {
            before = i == 100 ? GC.GetAllocatedBytesForCurrentThread() : before;
            scheme.TryAdvance(0, 0.01, state);
        }
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }

    // An event of a rigid body: free flight at 2 m/s reaches 3 m at 1.5 s, between two steps.
    [Fact]
    public void Event_BetweenSteps_IsFoundWithTheWholeState()
    {
        RigidBodyComposition<NoForce> scheme = new(new(), Asymmetric, CompositionScheme.Order4);
        RigidBodyState start = new(Vec3.Zero, new(2, 0, 0), UnitQuaternion.Identity, new(0, 0, 3));
        double[] state = new double[13];
        start.Write(state);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = 10,
            Step = 0.4,
            Events = [new("lost", new ComponentLevel(0, 3), EventDirection.Rising, EventAction.Stop)],
        };
        RunSummary summary = Integrator.DriveFixed(scheme, plan, state, new NoSink());
        Assert.Equal(RunEnding.StoppedByEvent, summary.Ending);
        Assert.Equal(1.5, summary.EndTime, 1e-15);
        AssertSameAttitude(
            UnitQuaternion.FromRotationVector(new(0, 0, 1.5)),
            RigidBodyState.Read(state).Attitude,
            1e-14
        );
    }

    [Fact]
    public void Inertia_ThatIsNoInertia_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new RigidBodyInertia(0, Mat3.Identity));
        Assert.Throws<ArgumentException>(() => new RigidBodyInertia(1, Mat3.Diagonal(1, 1, 0)));
        Assert.Throws<ArgumentException>(() =>
            new RigidBodyInertia(1, new(new(1, 0.1, 0), new(0, 1, 0), new(0, 0, 1)))
        );
        Assert.Throws<ArgumentException>(() => new RigidBodyInertia(1, Mat3.Diagonal(1, double.NaN, 1)));
    }

    private static RigidBodyInertia SpringBody { get; } = new(2, Mat3.Diagonal(0.5, 1, 1.5));

    private static double[] SpringStart() => [0.5, -0.2, 0.1, 0.1, 0.3, -0.2, 1, 0, 0, 0, 0.2, 0.4, -0.3];

    private static void AssertOrder(int order, Spring spring, double[] exact)
    {
        double[] counts = order switch
        {
            2 => [100, 150, 225, 340],
            4 => [40, 60, 90, 130],
            6 => [25, 35, 50, 70],
            _ => [16, 20, 25, 32],
        };
        double[] errors = new double[counts.Length];
        for (int i = 0; i < counts.Length; i++)
        {
            double[] state = SpringStart();
            RigidBodyComposition<Spring> scheme = new(spring, SpringBody, CompositionSchemeTests.Scheme(order));
            FixedStepPlan plan = new()
            {
                StartTime = 0,
                EndTime = 5,
                Step = 5 / counts[i],
            };
            Integrator.DriveFixed(scheme, plan, state, new NoSink());
            errors[i] = state.Zip(exact, (a, b) => Math.Abs(a - b)).Max();
        }
        Assert.Equal(order, Slope.Of([.. counts.Select(n => 5 / n)], errors), 0.5);
    }

    private static RigidBodyState Run<TField>(
        TField field,
        RigidBodyInertia body,
        CompositionScheme composition,
        RigidBodyState start,
        double time,
        double step
    )
        where TField : IWrenchField
    {
        double[] state = new double[RigidBodyState.Dimension];
        start.Write(state);
        FixedStepPlan plan = new()
        {
            StartTime = 0,
            EndTime = time,
            Step = step,
        };
        RigidBodyComposition<TField> scheme = new(field, body, composition);
        Assert.True(Integrator.DriveFixed(scheme, plan, state, new NoSink()).IsComplete);
        return RigidBodyState.Read(state);
    }

    private static void AssertNear(Vec3 expected, Vec3 actual, double tolerance) =>
        Assert.InRange((expected - actual).Length, 0, tolerance);

    private static void AssertSameAttitude(UnitQuaternion expected, UnitQuaternion actual, double tolerance)
    {
        UnitQuaternion apart = expected.Conjugate * actual;
        Assert.InRange(new Vec3(apart.X, apart.Y, apart.Z).Length, 0, tolerance);
    }

    private readonly struct NoForce : IWrenchField
    {
        public bool DependsOnVelocity => false;

        public Wrench Evaluate(double timeSeconds, in RigidBodyMotion motion) => default;
    }

    private readonly struct HeavyTop(double mgl) : IWrenchField
    {
        public bool DependsOnVelocity => false;

        public Wrench Evaluate(double timeSeconds, in RigidBodyMotion motion) =>
            new(Vec3.Zero, mgl * Vec3.Cross(Vec3.UnitZ, motion.Attitude.Rotate(Vec3.UnitZ)));
    }

    private readonly struct Drag : IWrenchField
    {
        public bool DependsOnVelocity => true;

        public Wrench Evaluate(double timeSeconds, in RigidBodyMotion motion)
        {
            (double x, double y, _) = motion.VelocityMetresPerSecond;
            return new(new(-0.01 * x, -0.01 * y, 0), Vec3.Zero);
        }
    }

    private readonly struct Spring(double drag, double turnDrag, double ripple) : IWrenchField
    {
        private static Vec3 Point => new(0.3, -0.2, 0.5);

        public bool DependsOnVelocity => drag != 0 || turnDrag != 0;

        public Wrench Evaluate(double timeSeconds, in RigidBodyMotion motion)
        {
            Vec3 arm = motion.Attitude.Rotate(Point);
            Vec3 point = motion.PositionMetres + arm;
            double k = 1 + ripple * Math.Sin(1.3 * timeSeconds);
            Vec3 force = new(-k * point.X, -2 * k * point.Y, -3 * k * point.Z);
            return new(
                force - drag * motion.VelocityMetresPerSecond,
                Vec3.Cross(arm, force) - turnDrag * motion.Attitude.Rotate(motion.BodyRate)
            );
        }

        public static double Energy(RigidBodyState s, RigidBodyInertia body)
        {
            Vec3 p = s.PositionMetres + s.Attitude.Rotate(Point);
            return 0.5 * body.MassKilograms * Vec3.Dot(s.VelocityMetresPerSecond, s.VelocityMetresPerSecond)
                + body.RotationalEnergy(s.BodyAngularMomentum)
                + 0.5 * (p.X * p.X + 2 * p.Y * p.Y + 3 * p.Z * p.Z);
        }
    }
}
