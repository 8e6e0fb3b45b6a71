using System.Runtime.Intrinsics;
using Lightkeel.Numerics.Integration;
using Xunit;

namespace Lightkeel.Numerics.Tests.Integration;

/// <summary>Collocation at Gauss nodes against closed solutions, and against Dormand–Prince on the same problem.</summary>
public sealed class GaussCollocationTests
{
    [Fact]
    public void OneStep_OverAPowerOfTime_IsExactToDegreeFifteen()
    {
        // Gauss quadrature at eight points is exact to degree 15 and no further: Handbook of Mathematical Functions (1964), 25.4.30; the
        // error for t^16 on (0, 1) is (8!)^4 / (17 (16!)^2).
        Assert.InRange(IntegralOf(15) - 1.0 / 16, -3e-16, 3e-16);
        double factorial8 = 40320;
        double factorial16 = 20922789888000;
        double miss = Math.Pow(factorial8, 4) / (17 * factorial16 * factorial16);
        Assert.InRange((1.0 / 17 - IntegralOf(16)) / miss, 0.99, 1.01);
    }

    [Theory]
    [InlineData(1e-6)]
    [InlineData(1e-9)]
    [InlineData(1e-12)]
    public void KeplerOrbit_AfterThreeRounds_IsBackAtThePericentre(double tolerance)
    {
        // Kepler's third law: the period of an orbit of semi-major axis 1 about a unit mass is 2π.
        double[] state = [0.5, 0, 0, Math.Sqrt(3)];
        RunSummary run = Fly(new Kepler(), state, 6 * Math.PI, tolerance, []);
        Assert.Equal(RunEnding.ReachedEndTime, run.Ending);
        Assert.InRange(double.Hypot(state[0] - 0.5, state[1]), 0, 300 * tolerance);
        Assert.InRange(run.LargestLocalError!.Value.FractionOfTolerance, 1e-6, 1);
    }

    [Fact]
    public void DenseOutput_InsideSteps_IsAsGoodAsTheTolerance()
    {
        RunHistory history = new(2);
        RunPlan plan = Plan(20, 1e-9, 2) with { Recording = Recording.Every(0.01) };
        double[] state = [1, 0];
        Integrator.DriveByNodes(new Oscillator(), new(2), plan, state, history);
        for (int i = 0; i < history.Times.Count; i++)
        {
            Assert.InRange(history.Value(i, 0) - Math.Cos(history.Times[i]), -1e-8, 1e-8);
        }
        Assert.Equal(2001, history.Times.Count);
    }

    [Fact]
    public void Events_OfAnOscillator_AreThoseOfTheCosine_ThoughMostStepsAreNotSearched()
    {
        Threshold function = new(0.95);
        RunHistory history = new(2);
        RunPlan plan = Plan(40, 1e-10, 2) with
        {
            Events = [new("high", function, EventDirection.Rising, EventAction.Continue)],
            EventSamplesPerStep = 16,
        };
        double[] state = [0, 1];
        Integrator.DriveByNodes(new Oscillator(), new(2), plan, state, history);
        // sin t rises through 0.95 at asin 0.95 + 2π k.
        Assert.Equal(7, history.Events.Count);
        for (int k = 0; k < 7; k++)
        {
            double exact = Math.Asin(0.95) + 2 * Math.PI * k;
            Assert.InRange(history.Events[k].Time - exact, -3e-9, 3e-9);
        }
        Assert.InRange(function.Ruled, 10, int.MaxValue);
    }

    [Fact]
    public void RatesThatAreNoNumbers_BeyondAWall_EndTheRunThere()
    {
        double[] state = [0, 1];
        RunSummary run = Fly(new Wall(), state, 3, 1e-8, []);
        Assert.Equal(RunEnding.NonFiniteState, run.Ending);
        Assert.InRange(run.EndTime, 0.9, 1.0000001);
    }

    private static double IntegralOf(int power)
    {
        RunPlan plan = new()
        {
            StartTime = 0,
            EndTime = 1,
            FirstStep = 1,
            Tolerance = Tolerance.Uniform(0.1, 100, 1),
        };
        double[] state = [0];
        Integrator.DriveByNodes(new Power(power), new(1), plan, state, new NoSink());
        return state[0];
    }

    private static RunPlan Plan(double end, double tolerance, int dimension) =>
        new()
        {
            StartTime = 0,
            EndTime = end,
            Tolerance = Tolerance.Uniform(tolerance, tolerance, dimension),
        };

    private static RunSummary Fly<TRates>(
        TRates rates,
        double[] state,
        double end,
        double tolerance,
        IReadOnlyList<EventWatch> events
    )
        where TRates : struct, INodeRates =>
        Integrator.DriveByNodes(
            rates,
            new(state.Length),
            Plan(end, tolerance, state.Length) with
            {
                Events = events,
            },
            state,
            new NoSink()
        );

    private sealed class Threshold(double level) : IEventFunction
    {
        public int Ruled { get; private set; }

        public double Value(double time, ReadOnlySpan<double> state) => state[0] - level;

        public bool CanVanish(double from, double to, ReadOnlySpan<double> low, ReadOnlySpan<double> high)
        {
            bool can = low[0] <= level && high[0] >= level;
            Ruled += can ? 0 : 1;
            return can;
        }
    }

    private readonly struct Oscillator : INodeRates
    {
        public int FeedbackCount => 2;

        public int PlaceCount => 1;

        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            (rate[0], rate[1]) = (state[1], -state[0]);

        public void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates) =>
            rates[0] = states[1];

        public void Evaluate(
            Vector512<double> times,
            ReadOnlySpan<double> start,
            ReadOnlySpan<Vector512<double>> states,
            Span<Vector512<double>> rates
        ) => (rates[0], rates[1]) = (states[1], -states[0]);
    }

    private readonly struct Power(int power) : INodeRates
    {
        public int FeedbackCount => 0;

        public int PlaceCount => 0;

        public void Evaluate(double time, ReadOnlySpan<double> state, Span<double> rate) =>
            rate[0] = Math.Pow(time, power);

        public void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates) { }

        public void Evaluate(
            Vector512<double> times,
            ReadOnlySpan<double> start,
            ReadOnlySpan<Vector512<double>> states,
            Span<Vector512<double>> rates
        )
        {
            Vector512<double> product = Vector512<double>.One;
            for (int i = 0; i < power; i++)
            {
                product *= times;
            }
            rates[0] = product;
        }
    }

    private readonly struct Kepler : INodeRates
    {
        public int FeedbackCount => 4;

        public int PlaceCount => 2;

        public void Evaluate(double time, ReadOnlySpan<double> s, Span<double> rate)
        {
            double cube = Math.Pow(s[0] * s[0] + s[1] * s[1], -1.5);
            (rate[0], rate[1], rate[2], rate[3]) = (s[2], s[3], -cube * s[0], -cube * s[1]);
        }

        public void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates) =>
            (rates[0], rates[1]) = (states[2], states[3]);

        public void Evaluate(
            Vector512<double> times,
            ReadOnlySpan<double> start,
            ReadOnlySpan<Vector512<double>> s,
            Span<Vector512<double>> rates
        )
        {
            Vector512<double> square = s[0] * s[0] + s[1] * s[1];
            Vector512<double> cube = Vector512<double>.One / (square * Vector512.Sqrt(square));
            (rates[0], rates[1], rates[2], rates[3]) = (s[2], s[3], -cube * s[0], -cube * s[1]);
        }
    }

    // Free flight that has no rates beyond x = 1.
    private readonly struct Wall : INodeRates
    {
        public int FeedbackCount => 2;

        public int PlaceCount => 1;

        public void Evaluate(double time, ReadOnlySpan<double> s, Span<double> rate) =>
            (rate[0], rate[1]) = s[0] > 1 ? (double.NaN, double.NaN) : (s[1], 0);

        public void EvaluatePlaces(ReadOnlySpan<Vector512<double>> states, Span<Vector512<double>> rates) =>
            rates[0] = states[1];

        public void Evaluate(
            Vector512<double> times,
            ReadOnlySpan<double> start,
            ReadOnlySpan<Vector512<double>> s,
            Span<Vector512<double>> rates
        )
        {
            Vector512<double> beyond = Vector512.GreaterThan(s[0], Vector512<double>.One);
            Vector512<double> none = Vector512.Create(double.NaN);
            rates[0] = Vector512.ConditionalSelect(beyond, none, s[1]);
            rates[1] = Vector512.ConditionalSelect(beyond, none, Vector512<double>.Zero);
        }
    }
}
