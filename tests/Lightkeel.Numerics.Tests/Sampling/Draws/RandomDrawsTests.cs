using CsCheck;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Statistics;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Draws;

public class RandomDrawsTests
{
    private static readonly RandomDraws s_draws = new(20240611, 7, "test.draws");

    [Fact]
    public void UnitInterval_AtExtremeWords_KeepsItsEnds()
    {
        Assert.Equal(0, UnitInterval.HalfOpen(0));
        Assert.Equal(1 - Math.Pow(2, -53), UnitInterval.HalfOpen(ulong.MaxValue));
        Assert.Equal(1, UnitInterval.UpperClosed(0));
        Assert.Equal(Math.Pow(2, -53), UnitInterval.UpperClosed(ulong.MaxValue));
        Assert.Equal(Math.Pow(2, -53), UnitInterval.Open(0));
        Assert.Equal(1 - Math.Pow(2, -53), UnitInterval.Open(ulong.MaxValue));
    }

    [Fact]
    public void NormalPair_AtExtremeWords_IsFinite()
    {
        Assert.Equal((0, 0), NormalPair.FromWords(0, 0));
        (double first, double second) = NormalPair.FromWords(ulong.MaxValue, 0);
        // sqrt(2 * 53 * ln 2)
        Near.Relative(8.571674348652905, first, 1e-15);
        Assert.Equal(0, second);
    }

    [Fact]
    public void Draws_AloneOrInBulk_AreTheSameBits() =>
        Gen.Int[0, 40]
            .Sample(
                count =>
                {
                    double[] uniform = new double[count];
                    double[] normal = new double[count];
                    s_draws.FillUniform(11, uniform);
                    s_draws.FillNormal(11, normal);
                    for (int i = count - 1; i >= 0; i--)
                    {
                        Assert.Equal(uniform[i], s_draws.Uniform(11, (ulong)i));
                        Assert.Equal(normal[i], s_draws.Normal(11, (ulong)i));
                    }
                },
                iter: 50
            );

    // The seed contract: these bits must never change. Words computed with NumPy 1.24.2, Philox, key (3, 9), counter (0, 5, 4, 0).
    [Fact]
    public void Block_OfAnAddress_UsesTheDocumentedCounter()
    {
        RandomBlock block = new RandomDraws(3, 4, 9UL).Block(5);
        Assert.Equal(Philox4x64.Block(3, 9, 0, 5, 4, 0), block);
        Assert.Equal(0x966AA57B2C92197CUL, block.Word0);
        Assert.Equal(0xF95CB22A83F3F80DUL, block.Word3);
    }

    // FNV-1a 64 of the bytes 'a', 0: computed by hand from the published definition with Python integers.
    [Fact]
    public void SourceNamed_FollowsThePublishedHash() =>
        Assert.Equal(0x089BE207B544F1E4UL, RandomDraws.SourceNamed("a"));

    [Fact]
    public void Streams_OfNeighbouringAddresses_AreUncorrelated()
    {
        // 20 000 pairs: correlation beyond 4.5 standard errors has a chance below 1e-5; the draws are fixed anyway.
        RandomDraws[] others =
        [
            s_draws with
            {
                Ride = 8,
            },
            s_draws with
            {
                Seed = 20240612,
            },
            s_draws with
            {
                Source = 1,
            },
        ];
        foreach (RandomDraws other in others)
        {
            double sum = 0;
            for (ulong step = 0; step < 20000; step++)
            {
                sum += s_draws.Normal(step) * other.Normal(step);
            }
            Assert.True(Math.Abs(sum) / Math.Sqrt(20000) < 4.5);
        }
    }

    [Fact]
    public void Normals_FollowTheNormalDistribution()
    {
        double[] sample = new double[100_000];
        s_draws.FillNormal(0, sample);
        RunningMoments moments = RunningMoments.Of(sample);
        Assert.True(Math.Abs(moments.Mean) < 4.5 / Math.Sqrt(1e5));
        Assert.True(Math.Abs(moments.Variance - 1) < 4.5 * Math.Sqrt(2 / 1e5));
        Assert.True(Math.Abs(moments.Skewness) < 4.5 * Math.Sqrt(6 / 1e5));
        Assert.True(Math.Abs(moments.ExcessKurtosis) < 4.5 * Math.Sqrt(24 / 1e5));
        Array.Sort(sample);
        Assert.True(KolmogorovSmirnov.Compare(sample, StandardNormal.Cumulative).PValue > 1e-4);
    }

    [Fact]
    public void Uniforms_FollowTheUniformDistribution()
    {
        double[] sample = new double[100_000];
        s_draws.FillUniform(1, sample);
        Array.Sort(sample);
        Assert.True(sample[0] > 0 && sample[^1] < 1);
        Assert.True(KolmogorovSmirnov.Compare(sample, x => x).PValue > 1e-4);
    }

    [Fact]
    public void Below_AllResults_ComeEquallyOften()
    {
        int[] counts = new int[7];
        for (ulong step = 0; step < 70_000; step++)
        {
            counts[s_draws.Below(step, 7)]++;
        }
        // Chi-square with 6 degrees of freedom; 27.9 is exceeded with a chance of 1e-4 (chi-square table).
        double chi = counts.Sum(c => (c - 10_000.0) * (c - 10_000.0) / 10_000.0);
        Assert.True(chi < 27.9, $"chi-square {chi}");
        Assert.Equal(0UL, s_draws.Below(3, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => s_draws.Below(3, 0));
    }
}
