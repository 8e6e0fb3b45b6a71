using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Designs;

public class LatinHypercubeTests
{
    private static readonly RandomDraws s_draws = new(77, 0, "test.latin");

    // The defining property: Technometrics 21(2), 239–245 (1979).
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(100)]
    [InlineData(1023)]
    public void Points_AlongEachCoordinate_HaveOneInEachStratum(int count)
    {
        LatinHypercube cube = new(count, 5, s_draws);
        double[] point = new double[5];
        HashSet<int>[] strata = [.. Enumerable.Range(0, 5).Select(_ => new HashSet<int>())];
        for (int i = 0; i < count; i++)
        {
            cube.Point((ulong)i, point);
            for (int d = 0; d < 5; d++)
            {
                Assert.True(point[d] > 0 && point[d] < 1);
                strata[d].Add((int)(point[d] * count));
            }
        }
        Assert.All(strata, s => Assert.Equal(count, s.Count));
    }

    [Fact]
    public void Points_OfAnotherBuild_AreTheSameBits()
    {
        LatinHypercube first = new(50, 3, s_draws);
        LatinHypercube second = new(50, 3, s_draws);
        double[] a = new double[3];
        double[] b = new double[3];
        for (ulong i = 50; i-- > 0; )
        {
            first.Point(i, a);
            second.Point(i, b);
            Assert.Equal(a, b);
        }
    }

    // Exact permutation symmetry: over many cubes of three points, the six orders of a coordinate come equally often.
    [Fact]
    public void Points_OverManyCubes_TakeEveryOrderEquallyOften()
    {
        int[] counts = new int[27];
        double[] point = new double[1];
        for (ulong run = 0; run < 12_000; run++)
        {
            LatinHypercube cube = new(3, 1, s_draws with { Ride = run });
            int order = 0;
            for (ulong i = 0; i < 3; i++)
            {
                cube.Point(i, point);
                order = 3 * order + (int)(3 * point[0]);
            }
            counts[order]++;
        }
        int[] seen = [.. counts.Where(c => c > 0)];
        Assert.Equal(6, seen.Length);
        // Chi-square with 5 degrees of freedom; 25.7 is exceeded with a chance of 1e-4 (chi-square table).
        Assert.True(seen.Sum(c => (c - 2000.0) * (c - 2000.0) / 2000.0) < 25.7);
    }

    [Fact]
    public void Cube_OfNoPoints_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new LatinHypercube(0, 1, s_draws));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LatinHypercube(1, 0, s_draws));
        Assert.Throws<ArgumentOutOfRangeException>(() => new LatinHypercube(3, 1, s_draws).Point(3, new double[1]));
    }
}
