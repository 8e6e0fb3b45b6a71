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
            ? CoupledRoots().Select(w => (w, 0))
            : [.. Quadratic(0, Alpha).Select(w => (w, 0)), .. Quadratic(Rate, Delta).Select(w => (w, 1))];
        return [.. starts.Select(s => Polished(s.Omega, s.Set, coupled, relativeError))];
    }

    // All four roots at once, each repelled by the others so that no two find the same one; from the uncoupled roots, set
    // apart a little. Source: Mathematics of Computation 27(122), 339-344 (1973), doi:10.1090/S0025-5718-1973-0329236-7.
    private Complex[] CoupledRoots()
    {
        const int MostSweeps = 200;
        double unit = Math.Max(
            Math.Abs(Rate),
            Math.Sqrt(Math.Max(Math.Max(Alpha.Magnitude, Delta.Magnitude), Math.Sqrt(Gamma.Magnitude)))
        );
        Complex[] w = [.. Quadratic(0, Alpha), .. Quadratic(Rate, Delta)];
        for (int k = 0; k < w.Length; k++)
        {
            w[k] += 0.05 * unit * Complex.FromPolarCoordinates(1, 0.7 + 1.3 * k);
        }
        for (int sweep = 0; sweep < MostSweeps; sweep++)
        {
            bool settled = true;
            for (int k = 0; k < w.Length; k++)
            {
                (Complex p, Complex slope, double noise) = Value(w[k], 0, coupled: true);
                if (p.Magnitude <= noise)
                {
                    continue;
                }
                Complex repulsion = Complex.Zero;
                for (int j = 0; j < w.Length; j++)
                {
                    repulsion += j == k ? Complex.Zero : 1 / (w[k] - w[j]);
                }
                Complex step = p / (slope - p * repulsion);
                if (!Complex.IsFinite(step))
                {
                    step = 1e-8 * unit * Complex.FromPolarCoordinates(1, k + sweep);
                }
                w[k] -= step;
                settled &= step.Magnitude <= 1e-15 * unit;
            }
            if (settled)
            {
                return w;
            }
        }
        // Double roots settle slowly; what is left is within the error bound that each root carries.
        return w;
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
