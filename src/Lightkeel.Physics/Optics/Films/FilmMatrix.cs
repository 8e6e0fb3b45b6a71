using System.Numerics;

namespace Lightkeel.Physics.Optics.Films;

/// <summary>A characteristic matrix [[a, b], [c, d]].</summary>
internal readonly record struct FilmMatrix(Complex A, Complex B, Complex C, Complex D)
{
    public static FilmMatrix operator *(in FilmMatrix x, in FilmMatrix y) =>
        new(x.A * y.A + x.B * y.C, x.A * y.B + x.B * y.D, x.C * y.A + x.D * y.C, x.C * y.B + x.D * y.D);

    /// <summary>
    /// Squares of the amplitudes of a film in vacuum with cosine μ and w = μ²: over 4 w, what comes in is G₀ + μ G₁ and what is reflected
    /// N₀ + μ N₁, so that the passed share is 4 w/(G₀ + μ G₁) and the reflected share (N₀ + μ N₁)/(G₀ + μ G₁).
    /// </summary>
    public (double G0, double G1, double N0, double N1) Squares(double w)
    {
        // In vacuum both admittances are μ: the denominator of r is μ (a + d) + (w b + c), its numerator μ (a − d) + (w b − c).
        Complex sum = A + D;
        Complex difference = A - D;
        Complex coming = w * B + C;
        Complex going = w * B - C;
        return (
            w * Square(sum) + Square(coming),
            2 * (sum * Complex.Conjugate(coming)).Real,
            w * Square(difference) + Square(going),
            2 * (difference * Complex.Conjugate(going)).Real
        );
    }

    private static double Square(Complex z) => z.Real * z.Real + z.Imaginary * z.Imaginary;
}
