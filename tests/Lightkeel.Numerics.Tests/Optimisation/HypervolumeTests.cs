using CsCheck;
using Lightkeel.Numerics.Optimisation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Optimisation;

public sealed class HypervolumeTests
{
    // Worked by hand: boxes of 2 and 4 that share 1.
    [Fact]
    public void Of_TwoBoxesInSpace_IsTheirUnion() =>
        Assert.Equal(
            5,
            Hypervolume.Of(
                [
                    [1, 0, 1],
                    [0, 1, 0],
                ],
                [2, 2, 2]
            ),
            12
        );

    // Best volumes that 100 points can reach below (11, 11), read in the tests of a general-purpose machine-learning library:
    // 120.662137 for ZDT1, 120.328881 for ZDT2. Evenly spread points lie just below them.
    [Theory]
    [InlineData(1, 120.662137)]
    [InlineData(2, 120.328881)]
    public void Of_HundredPointsOfAnExactFront_IsJustBelowTheBestOfHundred(int problem, double best)
    {
        double[][] front = Enumerable
            .Range(0, 100)
            .Select(i => i / 99.0)
            .Select(f => new[] { f, problem == 1 ? 1 - Math.Sqrt(f) : 1 - f * f })
            .ToArray();
        double volume = Hypervolume.Of(front, [11, 11]);
        Assert.InRange(volume, best - 0.003, best);
    }

    // Integrals of the exact fronts (closed forms): 2/3, 1/3 at (1, 1); 0.87666... and 0.54333... at (1.1, 1.1).
    [Theory]
    [InlineData(1, 1.0, 2.0 / 3)]
    [InlineData(2, 1.0, 1.0 / 3)]
    [InlineData(1, 1.1, 2.0 / 3 + 0.21)]
    [InlineData(2, 1.1, 1.0 / 3 + 0.21)]
    public void Of_FineFront_IsItsIntegral(int problem, double reference, double expected)
    {
        double[][] front = Enumerable
            .Range(0, 20_001)
            .Select(i => i / 20_000.0)
            .Select(f => new[] { f * f, problem == 1 ? 1 - f : 1 - f * f * f * f })
            .ToArray();
        Assert.Equal(expected, Hypervolume.Of(front, [reference, reference]), 3.0e-4);
    }

    // Volume below (1.1, 1.1, 1.1) over an eighth of a unit sphere: 1.331 - pi/6.
    [Fact]
    public void Of_FineSphere_ApproachesTheClosedForm()
    {
        IReadOnlyList<double[]> directions = ReferenceDirections.Lattice(3, 60);
        double[][] points = directions.Select(d => d.Select(v => v / Math.Sqrt(d.Sum(w => w * w))).ToArray()).ToArray();
        double volume = Hypervolume.Of(points, [1.1, 1.1, 1.1]);
        Assert.InRange(volume, 1.331 - Math.PI / 6 - 0.02, 1.331 - Math.PI / 6);
    }

    // By inclusion and exclusion over all subsets.
    [Fact]
    public void Of_AnyPoints_IsInclusionAndExclusion() =>
        Gen.Select(Gen.Int[2, 5], Gen.Int[1, 6])
            .SelectMany((aims, count) => Gen.Int[0, 7].Array[aims].Array[count])
            .Sample(
                points =>
                {
                    int aims = points[0].Length;
                    double[] reference = [.. Enumerable.Repeat(7.0, aims)];
                    double expected = 0;
                    for (int set = 1; set < 1 << points.Length; set++)
                    {
                        double box = 1;
                        for (int k = 0; k < aims; k++)
                        {
                            box *= Enumerable
                                .Range(0, points.Length)
                                .Where(i => (set >> i & 1) == 1)
                                .Min(i => 7.0 - points[i][k]);
                        }
                        expected += box * (int.PopCount(set) % 2 == 1 ? 1 : -1);
                    }
                    return Math.Abs(
                            expected
                                - Hypervolume.Of([.. points.Select(p => p.Select(v => (double)v).ToArray())], reference)
                        ) < 1e-9;
                },
                iter: 400
            );

    [Fact]
    public void Of_NotFinite_IsRefused() =>
        Assert.Throws<ArgumentException>(() =>
            Hypervolume.Of(
                [
                    [double.NaN, 1],
                ],
                [2, 2]
            )
        );
}
