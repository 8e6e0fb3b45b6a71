namespace Lightkeel.Physics.Pressure;

/// <summary>How large the last coefficients of a fit are in each coordinate, relative to the least force: what to refine.</summary>
internal readonly record struct AtlasTails(double A, double B, double Azimuth)
{
    /// <summary>Weights that make the eight quantities comparable: torques over reach; powers count for a hundredth.</summary>
    public static double[] Weights(double reach) => [1, 1, 1, 1 / reach, 1 / reach, 1 / reach, 0.01, 0.01];

    /// <summary>Largest weighted entry.</summary>
    public static double Size(double[] coefficient, double[] weights)
    {
        double size = 0;
        for (int lane = 0; lane < weights.Length; lane++)
        {
            size = Math.Max(size, weights[lane] * Math.Abs(coefficient[lane]));
        }
        return size;
    }

    public static AtlasTails Of(double[,,][] coefficients, double leastForce, double reach)
    {
        double[] weights = Weights(reach);
        (int nF, int nB, int nA) = (coefficients.GetLength(0), coefficients.GetLength(1), coefficients.GetLength(2));
        AtlasTails tails = default;
        for (int m = 0; m < nF; m++)
        {
            for (int j = 0; j < nB; j++)
            {
                for (int k = 0; k < nA; k++)
                {
                    double size = Size(coefficients[m, j, k], weights) / leastForce;
                    tails = new(
                        nA > 1 && k >= nA - 2 - m / 2 ? Math.Max(tails.A, size) : tails.A,
                        nB > 1 && j >= nB - 1 - m / 2 ? Math.Max(tails.B, size) : tails.B,
                        nF > 1 && m >= nF - 1 ? Math.Max(tails.Azimuth, size) : tails.Azimuth
                    );
                }
            }
        }
        return tails;
    }
}
