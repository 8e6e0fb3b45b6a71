namespace Lightkeel.Numerics.Sampling.Elementary;

/// <summary>Bessel functions of the first kind, orders one and two, of a real argument: the light of a round aperture.</summary>
/// <remarks>
/// Up to 8 a series in x²; above, √(2/(πx)) (P cos χ − Q sin χ) with χ = x − (2n + 1)π/4 and P, Q slowly varying
/// (Digital Library of Mathematical Functions, §10.17). All coefficients are Chebyshev expansions computed for this
/// project with 60 digits. Absolute error below 1e-15 up to x = 1000; beyond, it grows as 1e-16·√x with the rounding
/// of the phase. The bits are the same on every machine. Stateless, thread-safe.
/// </remarks>
public static class BesselJ
{
    private const double TurnsPerRadian = 0.15915494309189535;

    /// <summary>J₁(x) for x ≥ 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">x is negative or not finite.</exception>
    public static double One(double x)
    {
        Require.NotNegative(x);
        return x <= 8 ? x * ChebyshevSeries.Sum(OneSmall, x * x / 32 - 1) : Wave(x, 0.375, OneP, OneQ);
    }

    /// <summary>J₂(x) for x ≥ 0.</summary>
    /// <exception cref="ArgumentOutOfRangeException">x is negative or not finite.</exception>
    public static double Two(double x)
    {
        Require.NotNegative(x);
        return x <= 8 ? x * x * ChebyshevSeries.Sum(TwoSmall, x * x / 32 - 1) : Wave(x, 0.625, TwoP, TwoQ);
    }

    private static double Wave(double x, double phaseTurns, ReadOnlySpan<double> p, ReadOnlySpan<double> q)
    {
        double t = 128 / (x * x) - 1;
        (double sine, double cosine) = PortableMath.SineCosineOfTurns(x * TurnsPerRadian - phaseTurns);
        double amplitude = Math.Sqrt(2 / (Math.PI * x));
        return amplitude * (ChebyshevSeries.Sum(p, t) * cosine - ChebyshevSeries.Sum(q, t) / x * sine);
    }

    private static ReadOnlySpan<double> OneSmall =>
        [
            0.08104484632565812,
            -0.1489751450676521,
            0.1609992623572097,
            -0.08268049176681791,
            0.022213639654966037,
            -0.003646940600769276,
            0.0004050337728354822,
            -3.255554866857259e-05,
            1.9858774049915165e-06,
            -9.521984756750436e-08,
            3.687133759097148e-09,
            -1.178026622695885e-10,
            3.160154580348003e-12,
            -7.221755239651773e-14,
            1.4232144003513942e-15,
            -2.4441972916190464e-17,
            3.6912682997929334e-19,
        ];

    private static ReadOnlySpan<double> OneP =>
        [
            1.0009030408600137,
            0.0008989898330859408,
            -3.987284300488908e-06,
            6.177633960644299e-08,
            -1.8718907491063067e-09,
            8.816898659582339e-11,
            -5.704863640395645e-12,
            4.699195515230542e-13,
            -4.6842237839904895e-14,
            5.452674896044717e-15,
            -7.221180842274016e-16,
            1.0667689114335372e-16,
            -1.731231321611524e-17,
        ];

    private static ReadOnlySpan<double> OneQ =>
        [
            0.3742222965562826,
            -0.0007702178839325664,
            7.3108922063643636e-06,
            -1.676782510726674e-07,
            6.583354662120443e-09,
            -3.749090950541556e-10,
            2.8121750359748866e-11,
            -2.61145253946232e-12,
            2.8774212663332235e-13,
            -3.649001916061838e-14,
            5.2066263662267046e-15,
            -8.215318025458528e-16,
            1.4141084390210092e-16,
            -2.6267615898339213e-17,
        ];

    private static ReadOnlySpan<double> TwoSmall =>
        [
            0.0259675044055018,
            -0.051662401237476965,
            0.033313115677547085,
            -0.011412585648174543,
            0.0023079312649903717,
            -0.00030576582069152526,
            2.8593389509574438e-05,
            -1.9904910649136225e-06,
            1.0728442457342493e-07,
            -4.613659922105544e-09,
            1.620960599825292e-10,
            -4.7427232341091315e-12,
            1.173993618450466e-13,
            -2.491363587126523e-15,
            4.5839200705273085e-17,
            -7.383865115828454e-19,
        ];

    private static ReadOnlySpan<double> TwoP =>
        [
            0.993619143291045,
            -0.006371767892414043,
            8.979589301354712e-06,
            -1.0625375052356995e-07,
            2.840696860729831e-09,
            -1.2443511863465101e-10,
            7.678239316053257e-12,
            -6.116031011133012e-13,
            5.945703794214546e-14,
            -6.7875396793595506e-15,
            8.849501765008155e-16,
            -1.290602435240298e-16,
            2.0719807754368046e-17,
        ];

    private static ReadOnlySpan<double> TwoQ =>
        [
            1.8773592448773313,
            0.0023450612615808137,
            -1.3906167329826334e-05,
            2.673323371966379e-07,
            -9.56131424770567e-09,
            5.139477255651459e-10,
            -3.7063706648764365e-11,
            3.3447552033274734e-12,
            -3.6059073050560394e-13,
            4.494715011405312e-14,
            -6.324180273766841e-15,
            9.863240999109615e-16,
            -1.6811314814723876e-16,
            3.0964550628873137e-17,
        ];
}
