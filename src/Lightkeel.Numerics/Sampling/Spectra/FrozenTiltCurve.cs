using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>The tilt density of frozen turbulence without units: G(u), with u the frequency in units of v/D.</summary>
/// <remarks>
/// With ρ² = u² + t² (spatial frequency times D, along and across the wind), e = D/L₀ and angle a of ρ from the tilt axis:
/// G(u) = 2 ∫ c (ρ² + e²)^(−11/6) m²(ρ) cos² a dt over all t; the tilt density is G (λ/D)² (D/r₀)^(5/3) D/v.
/// m² = (64/π²) [J₂(πρ)/(πρ)]² for Zernike tilt (the coefficient filter 16 J₂²/x² of the Zernike tilt times the square
/// of 2λ/(πD) radians of tilt per radian of coefficient), m² = ρ² [2 J₁(πρ)/(πρ)]² for the mean gradient.
/// c = Γ(11/6)² [(24/5) Γ(6/5)]^(5/6) / (2 π^(11/3)).
/// </remarks>
internal static class FrozenTiltCurve
{
    /// <summary>The constant c, 0.0229, recomputed with 30 digits.</summary>
    private const double PhaseConstant = 0.02289558710855518;

    private const int PointsPerDecade = 24;
    private const double FadeStart = 4;
    private const double FadeEnd = 12;
    private const double LastFrequency = 120;

    /// <summary>Tabulates the curve for a ratio D/L₀ and an angle between tilt axis and wind.</summary>
    public static LogLogCurve Tabulate(TiltKind kind, double apertureOverOuterScale, double axisFromWindRadians)
    {
        double[] u = Frequencies(apertureOverOuterScale);
        (double sine, double cosine) = PortableMath.SineCosineOfTurns(axisFromWindRadians / (2 * Math.PI));
        double[] g = new double[u.Length];
        for (int i = 0; i < u.Length; i++)
        {
            g[i] = Density(kind, u[i], apertureOverOuterScale, cosine * cosine, sine * sine);
        }
        double first = apertureOverOuterScale > 0 ? 0 : -2.0 / 3;
        return new LogLogCurve(u, g, first, kind == TiltKind.Zernike ? -17.0 / 3 : -11.0 / 3);
    }

    // Equal steps on a logarithmic scale, and 24 points per ripple between 1 and the end of the fade.
    private static double[] Frequencies(double apertureOverOuterScale)
    {
        double lowest = apertureOverOuterScale > 0 ? 1e-3 * Math.Min(apertureOverOuterScale, 1) : 1e-6;
        List<double> u = [];
        int below = (int)Math.Ceiling(-PortableMath.Log(lowest) / PortableMath.Log(10) * PointsPerDecade);
        for (int i = below; i > 0; i--)
        {
            u.Add(PortableMath.Pow(10, -i / (double)PointsPerDecade));
        }
        for (int i = 0; i < (FadeEnd - 1) * 24; i++)
        {
            u.Add(1 + i / 24.0);
        }
        for (int i = 0; i <= PointsPerDecade; i++)
        {
            u.Add(FadeEnd * PortableMath.Pow(LastFrequency / FadeEnd, i / (double)PointsPerDecade));
        }
        return [.. u];
    }

    private static double Density(TiltKind kind, double u, double e, double along, double across)
    {
        double Integrand(double t)
        {
            double square = u * u + t * t;
            double axis = (along * u * u + across * t * t) / square;
            double phase = PortableMath.Pow(square + e * e, -11.0 / 6);
            return phase * axis * TiltFilter(kind, Math.Sqrt(square));
        }
        double sum = 0;
        double from = 0;
        double far = 4096 * Math.Max(FadeEnd, u);
        while (from < far)
        {
            // Panels double in width, but stay below half a ripple while the filter ripples.
            double width = Math.Max(from, u / 2);
            double to = from + (from < FadeEnd ? Math.Min(width, 0.5) : width);
            sum += GaussLegendre.Integrate(Integrand, from, to, 1);
            from = to;
        }
        return 4 * PhaseConstant * sum;
    }

    // m²(ρ): exact, then faded into its mean over the ripple.
    private static double TiltFilter(TiltKind kind, double rho)
    {
        double x = Math.PI * rho;
        double square = 0;
        if (rho < FadeEnd)
        {
            double bessel = kind == TiltKind.Zernike ? BesselJ.Two(x) : BesselJ.One(x);
            square = bessel * bessel;
        }
        if (rho > FadeStart)
        {
            double kept = 0;
            if (rho < FadeEnd)
            {
                double turns = (rho - FadeStart) / (FadeEnd - FadeStart) / 4;
                double cosine = PortableMath.SineCosineOfTurns(turns).Cosine;
                kept = cosine * cosine;
            }
            double mean = MeanSquare(kind, x);
            square = mean + kept * (square - mean);
        }
        return kind == TiltKind.Zernike
            ? 64 / (Math.PI * Math.PI) * square / (x * x)
            : rho * rho * 4 * square / (x * x);
    }

    // (J² + Y²)/2 for large x: Digital Library of Mathematical Functions, eq. 10.18.17.
    private static double MeanSquare(TiltKind kind, double x)
    {
        double mu = kind == TiltKind.Zernike ? 16 : 4;
        double inverse = 1 / (4 * x * x);
        return (1 + (mu - 1) * inverse / 2 * (1 + 0.75 * (mu - 9) * inverse)) / (Math.PI * x);
    }
}
