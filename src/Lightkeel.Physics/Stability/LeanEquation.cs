using System.Numerics;

namespace Lightkeel.Physics.Stability;

/// <summary>One root of the lean equation, with its error bound (rad/s) and the number of the factor it belongs to.</summary>
internal sealed record LeanRoot(Complex Omega, double Error, int Set);

/// <summary>p(ω) = (ω² + α)(ω² − r ω + δ) − γ.</summary>
internal sealed record LeanEquation(Complex Alpha, Complex Delta, double Rate, Complex Gamma)
{
    /// <summary>All coefficients are real.</summary>
    public bool IsReal => Alpha.Imaginary == 0 && Delta.Imaginary == 0 && Gamma.Imaginary == 0;

    /// <summary>All four roots; uncoupled offset and lean are factors 0 and 1, coupled ones share factor 0.</summary>
    public List<LeanRoot> Roots(double relativeError, bool coupled)
    {
        // Without coupling p splits; its factors may share a root without harm, so they are kept apart.
        IEnumerable<(Complex Omega, int Set)> starts = coupled
            ? CompanionRoots().Select(w => (w, 0))
            : [.. Quadratic(0, Alpha).Select(w => (w, 0)), .. Quadratic(Rate, Delta).Select(w => (w, 1))];
        return [.. starts.Select(s => Polished(s.Omega, s.Set, coupled, relativeError))];
    }

    private IEnumerable<Complex> CompanionRoots()
    {
        // Companion in time units of the largest rate, so that entries stay near one.
        double unit = Math.Max(
            Math.Abs(Rate),
            Math.Sqrt(Math.Max(Math.Max(Alpha.Magnitude, Delta.Magnitude), Math.Sqrt(Gamma.Magnitude)))
        );
        Complex a = Alpha / (unit * unit);
        Complex d = Delta / (unit * unit);
        double r = Rate / unit;
        Complex g = Gamma / (unit * unit * unit * unit);
        Complex[,] companion = new Complex[,]
        {
            { r, -(a + d), a * r, g - a * d },
            { 1, 0, 0, 0 },
            { 0, 1, 0, 0 },
            { 0, 0, 1, 0 },
        };
        return DenseEigen.Solve(companion).Select(p => p.Value * unit);
    }

    /// <summary>Roots of ω² − r ω + c, the smaller one from the product.</summary>
    private static Complex[] Quadratic(double r, Complex c)
    {
        Complex root = Complex.Sqrt(0.25 * r * r - c);
        Complex first = r >= 0 ? 0.5 * r + root : 0.5 * r - root;
        return [first, first == 0 ? 0 : c / first];
    }

    private LeanRoot Polished(Complex omega, int set, bool coupled, double relativeError)
    {
        for (int k = 0; k < 4; k++)
        {
            (Complex p, Complex slope, double noise) = Value(omega, set, coupled);
            Complex step = p / slope;
            bool useful = Complex.IsFinite(step) && p.Magnitude > noise && step.Magnitude < 1e-3 * omega.Magnitude;
            if (!useful)
            {
                break;
            }
            omega -= step;
        }
        return new(omega, ErrorAt(omega, set, coupled, relativeError), set);
    }

    private (Complex Value, Complex Slope, double Noise) Value(Complex w, int set, bool coupled)
    {
        Complex offset = w * w + Alpha;
        Complex lean = w * w - Rate * w + Delta;
        double offsetSize = w.Magnitude * w.Magnitude + Alpha.Magnitude;
        double leanSize = w.Magnitude * (w.Magnitude + Math.Abs(Rate)) + Delta.Magnitude;
        if (!coupled)
        {
            return set == 0 ? (offset, 2 * w, 2e-16 * offsetSize) : (lean, 2 * w - Rate, 2e-16 * leanSize);
        }
        double noise = 2e-16 * (offsetSize * lean.Magnitude + leanSize * offset.Magnitude + Gamma.Magnitude);
        return (offset * lean - Gamma, 2 * w * lean + offset * (2 * w - Rate), noise);
    }

    /// <summary>|δp| / |p'| to first order; near a double root the root of |δp| / (|p''|/2), which is the smaller one there.</summary>
    private double ErrorAt(Complex w, int set, bool coupled, double e)
    {
        Complex offset = w * w + Alpha;
        Complex lean = w * w - Rate * w + Delta;
        (_, Complex slope, double noise) = Value(w, set, coupled);
        double change =
            noise
            + (
                coupled
                    ? e * (Alpha.Magnitude * lean.Magnitude + Delta.Magnitude * offset.Magnitude + 2 * Gamma.Magnitude)
                    : e * (set == 0 ? Alpha.Magnitude : Delta.Magnitude)
            );
        Complex bend = coupled ? lean + offset + 2 * w * (2 * w - Rate) : 1;
        double first = change / Math.Max(slope.Magnitude, 1e-300);
        double second = Math.Sqrt(change / Math.Max(bend.Magnitude, 1e-300));
        return Math.Min(first, 2 * second);
    }

    /// <summary>Amplitudes of offset and lean in the mode.</summary>
    public (Complex Z, Complex S) Shape(Complex w, int set, Complex[,] k, double mass, double inertia)
    {
        if (k[0, 1] == 0 && k[1, 0] == 0)
        {
            return set == 0 ? (1, 0) : (0, 1);
        }
        // (ω² + α) Z + k_zs/m S = 0 and k_sz/I Z + (ω² − rω + δ) S = 0.
        Complex offset = w * w + Alpha;
        Complex lean = w * w - Rate * w + Delta;
        (Complex z, Complex s) =
            offset.Magnitude >= lean.Magnitude ? (-k[0, 1] / mass, offset) : (lean, -k[1, 0] / inertia);
        return z == 0 && s == 0 ? (1, 0) : (z, s);
    }
}
