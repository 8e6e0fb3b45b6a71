using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A density S₁ (f/f₁)^p: a straight line on double-logarithmic paper, with its integral in closed form.</summary>
internal readonly record struct PowerLawPiece(double ReferenceHertz, double ReferenceDensity, double Exponent)
{
    /// <summary>The line through two points.</summary>
    public static PowerLawPiece Through(double f1, double s1, double f2, double s2) =>
        new(f1, s1, PortableMath.Log(s2 / s1) / PortableMath.Log(f2 / f1));

    /// <summary>Density at f &gt; 0.</summary>
    public double At(double f) =>
        f == ReferenceHertz ? ReferenceDensity : ReferenceDensity * PortableMath.Pow(f / ReferenceHertz, Exponent);

    /// <summary>Integral between 0 &lt; from &lt; to, written so that p = −1 and narrow bands need no special case.</summary>
    public double Integral(double from, double to)
    {
        double log = PortableMath.Log1p((to - from) / from);
        double y = (Exponent + 1) * log;
        double growth = y == 0 ? 1 : PortableMath.Expm1(y) / y;
        return At(from) * from * log * growth;
    }

    /// <summary>Integral from zero to f; needs an exponent above −1.</summary>
    public double IntegralFromZero(double to) => At(to) * to / (Exponent + 1);

    /// <summary>Integral from f &gt; 0 to infinity; needs an exponent below −1.</summary>
    public double IntegralToInfinity(double from) => -At(from) * from / (Exponent + 1);
}
