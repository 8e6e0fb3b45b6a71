using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Splitting;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Splitting;

public sealed class AdaptiveSplittingTests
{
    // A walk of ±1 steps from zero; the event is to reach a height within so many steps.
    private sealed class Walk(int height, int steps) : IBranchingProcess<Walk.State>
    {
        public readonly record struct State(int Place, bool Reached);

        public int StepCount => steps;

        public State Start(ulong branch) => new(0, false);

        public State Next(in State state, int step, ulong branch)
        {
            bool up = new RandomDraws(5, branch, "walk").Uniform((ulong)step) < 0.5;
            int place = state.Place + (up ? 1 : -1);
            return new(place, state.Reached || place >= height);
        }

        public double Score(in State state, int step) => state.Reached ? double.PositiveInfinity : state.Place;
    }

    [Fact]
    public void WalkThatReachesAHeight_HasTheProbabilityOfTheReflectionPrinciple()
    {
        // P(max of 40 steps ≥ 20) = P(S ≥ 20) + P(S > 20) = 1.1111e-3 …: An Introduction to Probability Theory and Its Applications I,
        // 3rd ed. (Wiley, 1968), § III.7; summed here from binomials.
        double expected = 0;
        for (int up = 0; up <= 40; up++)
        {
            int end = 2 * up - 40;
            double p = Binomial(40, up) * Math.Pow(0.5, 40);
            expected += end >= 20 ? p : 0;
            expected += end > 20 ? p : 0;
        }
        AdaptiveSplitting found = AdaptiveSplitting.Estimate(new Walk(20, 40), 3, new(200, 24, 2));
        Assert.InRange(found.Interval.Upper - found.Interval.Lower, 0.05 * expected, expected);
        double half = found.Interval.Upper - found.Probability;
        Assert.InRange(expected, found.Probability - 2 * half, found.Probability + 2 * half);
        static double Binomial(int n, int k)
        {
            double b = 1;
            for (int i = 1; i <= k; i++)
            {
                b = b * (n - k + i) / i;
            }
            return b;
        }
    }

    [Fact]
    public void EventThatCannotCome_HasProbabilityZero() =>
        Assert.Equal(0, AdaptiveSplitting.Estimate(new Walk(41, 40), 3, new(20, 4, 1)).Probability);

    [Fact]
    public void EventThatIsLikely_IsCounted()
    {
        // A height of 1 within 3 steps: 1 − P(stay at or below 0) = 1 − 3/8.
        AdaptiveSplitting found = AdaptiveSplitting.Estimate(new Walk(1, 3), 3, new(200, 24, 2));
        Assert.InRange(0.625, found.Interval.Lower - 0.02, found.Interval.Upper + 0.02);
    }
}
