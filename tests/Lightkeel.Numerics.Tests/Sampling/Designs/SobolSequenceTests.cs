using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Designs;

public class SobolSequenceTests
{
    // scipy.stats.qmc.Sobol 1.10.1, scramble=False, 21 dimensions: points 1, 7 and 1000.
    [Fact]
    public void Point_OfPlainSequence_AgreesWithReferenceLibrary()
    {
        SobolSequence sequence = new(21);
        double[] point = new double[21];
        sequence.Point(0, point);
        Assert.All(point, x => Assert.Equal(0, x));
        sequence.Point(1, point);
        Assert.All(point, x => Assert.Equal(0.5, x));
        sequence.Point(7, point);
        Assert.Equal(
            [
                0.125,
                0.625,
                0.375,
                0.125,
                0.125,
                0.375,
                0.625,
                0.625,
                0.625,
                0.875,
                0.625,
                0.125,
                0.625,
                0.375,
                0.125,
                0.125,
                0.125,
                0.125,
                0.625,
                0.875,
                0.875,
            ],
            point
        );
        sequence.Point(1000, point);
        Assert.Equal(
            [
                0.2197265625,
                0.0966796875,
                0.5185546875,
                0.6767578125,
                0.2802734375,
                0.9072265625,
                0.0458984375,
                0.8994140625,
                0.5009765625,
                0.0693359375,
                0.0849609375,
                0.2548828125,
                0.1611328125,
                0.3837890625,
                0.1435546875,
                0.3701171875,
                0.7197265625,
                0.3447265625,
                0.9912109375,
                0.7255859375,
                0.5224609375,
            ],
            point
        );
    }

    // The same library, 64 dimensions, first 4096 points as 30-bit integers, hashed one after the other with
    // h = (h ^ x) * 0x100000001B3 modulo 2^64 from h = 0.
    [Fact]
    public void Point_InAllDimensions_AgreesWithReferenceLibrary()
    {
        SobolSequence sequence = new(SobolSequence.HighestDimensionCount);
        double[] point = new double[64];
        ulong hash = 0;
        for (ulong i = 0; i < 4096; i++)
        {
            sequence.Point(i, point);
            foreach (double x in point)
            {
                hash = unchecked((hash ^ (ulong)(x * (1 << 30))) * 0x100000001B3);
            }
        }
        Assert.Equal(0xCE1CD95670000000UL, hash);
    }

    // Property of a digital net: any two coordinates of the first 2^m points of dimensions 1 and 2 fill each of the
    // 2^m boxes of every elementary partition once; each coordinate fills 2^m strata once. Scrambling keeps this.
    [Fact]
    public void Points_ScrambledOrNot_KeepTheNetProperty()
    {
        SobolSequence[] sequences = [new(8), new(8, new RandomDraws(5, 0, "test.sobol"))];
        foreach (SobolSequence sequence in sequences)
        {
            double[] point = new double[8];
            HashSet<int>[] strata = [.. Enumerable.Range(0, 8).Select(_ => new HashSet<int>())];
            HashSet<(int, int)> boxes = [];
            for (ulong i = 0; i < 256; i++)
            {
                sequence.Point(i, point);
                Assert.All(point, x => Assert.InRange(x, 0, 1 - 1e-16));
                boxes.Add(((int)(point[0] * 16), (int)(point[1] * 16)));
                for (int d = 0; d < 8; d++)
                {
                    strata[d].Add((int)(point[d] * 256));
                }
            }
            Assert.All(strata, s => Assert.Equal(256, s.Count));
            Assert.Equal(256, boxes.Count);
        }
    }

    // Integral of the product of (1 + (x_d - 1/2)/d) over six dimensions is 1 exactly.
    [Fact]
    public void Points_Scrambled_IntegrateFarBetterThanIndependentOnes()
    {
        double scrambled = 0;
        double independent = 0;
        for (ulong run = 0; run < 16; run++)
        {
            RandomDraws draws = new(1, run, "test.integral");
            scrambled += Math.Pow(Integral(new SobolSequence(6, draws)) - 1, 2);
            independent += Math.Pow(Integral(new IndependentPoints(6, draws)) - 1, 2);
        }
        Assert.True(scrambled < 1e-3 * independent, $"mean squares {scrambled / 16:G3} and {independent / 16:G3}");
    }

    [Fact]
    public void Points_AskedOutOfRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolSequence(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolSequence(65));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SobolSequence(2).Point(1UL << 52, new double[2]));
        Assert.Throws<ArgumentException>(() => new SobolSequence(2).Point(0, new double[3]));
    }

    private static double Integral(IPointSet points)
    {
        double[] x = new double[6];
        double sum = 0;
        for (ulong i = 0; i < 1024; i++)
        {
            points.Point(i, x);
            double product = 1;
            for (int d = 0; d < 6; d++)
            {
                product *= 1 + (x[d] - 0.5) / (d + 1);
            }
            sum += product;
        }
        return sum / 1024;
    }
}
