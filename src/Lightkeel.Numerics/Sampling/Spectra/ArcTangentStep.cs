using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>arctan b − arctan a without the cancellation that subtracting two near angles would bring.</summary>
internal static class ArcTangentStep
{
    /// <summary>The step from a to b ≥ a; b may be +∞.</summary>
    public static double Between(double a, double b)
    {
        if (double.IsPositiveInfinity(b))
        {
            return a > 1 ? PortableMath.Atan(1 / a) : Math.PI / 2 - PortableMath.Atan(a);
        }
        double sine = b - a;
        double cosine = 1 + a * b;
        if (cosine > 0)
        {
            return PortableMath.Atan(sine / cosine);
        }
        return cosine < 0 ? Math.PI + PortableMath.Atan(sine / cosine) : Math.PI / 2;
    }
}
