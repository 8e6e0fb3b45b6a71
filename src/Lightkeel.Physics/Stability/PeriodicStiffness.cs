namespace Lightkeel.Physics.Stability;

/// <summary>The Jacobian as a function of spin angle: sampled evenly and interpolated by a trigonometric polynomial.</summary>
internal sealed class PeriodicStiffness
{
    private const int FewestSamples = 16;
    private const int MostSamples = 256;

    private readonly double[][,] _cosines;
    private readonly double[][,] _sines;

    private PeriodicStiffness(double[][,] cosines, double[][,] sines, double error, double[] largest) =>
        (_cosines, _sines, InterpolationError, LargestEntry) = (cosines, sines, error, largest);

    /// <summary>Size of the harmonics near the end of the series, relative to the largest entry of their kind.</summary>
    public double InterpolationError { get; }

    /// <summary>Largest entry of each kind over all angles (force by offset, force by tilt, torque by offset, torque by tilt).</summary>
    public double[] LargestEntry { get; }

    /// <summary>Samples until the last quarter of the harmonics is below the tolerance, or 256 samples are taken.</summary>
    public static PeriodicStiffness Sample(Func<double, double[][]> jacobianAt, double tolerance)
    {
        Dictionary<(int, int), double[][]> known = [];
        PeriodicStiffness? series = null;
        for (int n = FewestSamples; n <= MostSamples; n *= 2)
        {
            double[][][] samples = [.. Enumerable.Range(0, n).Select(k => At(k, n))];
            series = Fit(samples);
            if (series.InterpolationError <= tolerance)
            {
                break;
            }
        }
        return series!;

        double[][] At(int k, int n)
        {
            int divisor = (int)System.Numerics.BigInteger.GreatestCommonDivisor(k, n);
            (int, int) key = (k / divisor, n / divisor);
            if (!known.TryGetValue(key, out double[][]? sample))
            {
                sample = jacobianAt(2 * Math.PI * k / n);
                LinearModel.CheckMatrix(sample, "JacobianAtSpinAngle");
                known[key] = sample;
            }
            return sample;
        }
    }

    private static PeriodicStiffness Fit(double[][][] samples)
    {
        int n = samples.Length;
        int harmonics = n / 2;
        double[][,] cosines = new double[harmonics + 1][,];
        double[][,] sines = new double[harmonics + 1][,];
        for (int m = 0; m <= harmonics; m++)
        {
            (cosines[m], sines[m]) = (new double[4, 4], new double[4, 4]);
            double weight = (m == 0 || m == harmonics ? 1.0 : 2.0) / n;
            for (int k = 0; k < n; k++)
            {
                (double s, double c) = Math.SinCos(2 * Math.PI * ((long)k * m % n) / n);
                for (int i = 0; i < 16; i++)
                {
                    double value = samples[k][i / 4][i % 4];
                    cosines[m][i / 4, i % 4] += weight * c * value;
                    sines[m][i / 4, i % 4] += weight * s * value;
                }
            }
        }
        double[] largest = new double[4];
        foreach (double[][] sample in samples)
        {
            for (int i = 0; i < 16; i++)
            {
                int kind = Kind(i / 4, i % 4);
                largest[kind] = Math.Max(largest[kind], Math.Abs(sample[i / 4][i % 4]));
            }
        }
        return new(cosines, sines, Tail(cosines, sines, largest), largest);
    }

    /// <summary>Number of an entry's kind.</summary>
    public static int Kind(int row, int column) => 2 * (row / 2) + column / 2;

    private static double Tail(double[][,] cosines, double[][,] sines, double[] largest)
    {
        double tail = 0;
        for (int m = 3 * (cosines.Length - 1) / 4; m < cosines.Length; m++)
        {
            for (int i = 0; i < 16; i++)
            {
                double size = double.Hypot(cosines[m][i / 4, i % 4], sines[m][i / 4, i % 4]);
                double scale = largest[Kind(i / 4, i % 4)];
                tail = Math.Max(tail, scale > 0 ? size / scale : 0);
            }
        }
        return tail;
    }

    /// <summary>The Jacobian at a spin angle, resolved in axes that turn with the craft.</summary>
    public double[,] InBodyAxes(double angle)
    {
        double[,] k = new double[4, 4];
        for (int m = 0; m < _cosines.Length; m++)
        {
            (double s, double c) = Math.SinCos(m * angle);
            for (int i = 0; i < 16; i++)
            {
                k[i / 4, i % 4] += c * _cosines[m][i / 4, i % 4] + s * _sines[m][i / 4, i % 4];
            }
        }
        return Turned(k, angle);
    }

    /// <summary>R(−angle) K R(angle), block by block: the same linear map seen from axes turned by the angle.</summary>
    public static double[,] Turned(double[,] k, double angle)
    {
        (double s, double c) = Math.SinCos(angle);
        double[,] turned = new double[4, 4];
        for (int row = 0; row < 4; row += 2)
        {
            for (int column = 0; column < 4; column += 2)
            {
                (double p, double q) = (k[row, column], k[row, column + 1]);
                (double r, double t) = (k[row + 1, column], k[row + 1, column + 1]);
                // K R(angle), then R(−angle) from the left.
                (double a, double b) = (p * c + q * s, q * c - p * s);
                (double d, double e) = (r * c + t * s, t * c - r * s);
                turned[row, column] = c * a + s * d;
                turned[row, column + 1] = c * b + s * e;
                turned[row + 1, column] = c * d - s * a;
                turned[row + 1, column + 1] = c * e - s * b;
            }
        }
        return turned;
    }
}
