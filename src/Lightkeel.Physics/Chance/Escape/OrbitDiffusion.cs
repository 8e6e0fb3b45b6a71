using System.Runtime.CompilerServices;

namespace Lightkeel.Physics.Chance.Escape;

/// <summary>Diffusion of energy E and angular momentum L of one orbit under one noise.</summary>
/// <param name="Energy">D_EE, J²/s.</param>
/// <param name="Mixed">D_EL, J kg m²/s².</param>
/// <param name="Momentum">D_LL, (kg m²/s)²/s.</param>
/// <remarks>
/// Actions J with angles θ wander as ∂f/∂t = ∂/∂J (D ∂f/∂J) under a weak noise n(t) in the energy, n V(J, θ), with
/// D_ab = ¼ Σ_k k_a k_b |V_k|² S(|k·ω|/2π), V_k the Fourier coefficients over the angles and S the one-sided density: only the
/// noise at the harmonics of the orbit counts. Source: Monthly Notices of the Royal Astronomical Society 230, 597–616 (1988),
/// doi:10.1093/mnras/230.4.597 (diffusion tensor of orbits; there two-sided in angular frequency).
/// </remarks>
internal readonly record struct OrbitDiffusion(double Energy, double Mixed, double Momentum)
{
    // What of the mean square may be left to harmonics that are not summed.
    private const double Missing = 1e-7;

    public static OrbitDiffusion operator +(OrbitDiffusion a, OrbitDiffusion b) =>
        new(a.Energy + b.Energy, a.Mixed + b.Mixed, a.Momentum + b.Momentum);

    /// <summary>The diffusion by one noise.</summary>
    /// <param name="well">The well.</param>
    /// <param name="orbit">The orbit.</param>
    /// <param name="lines">Receives the lines of the orbit.</param>
    public static void Lines(PlanarWell well, PlanarOrbit orbit, OrbitLines lines)
    {
        lines.Clear();
        Shake(well, orbit, lines);
        Breathe(orbit, well.Potential, lines.Depth, Math.Abs(well.DepthJoules));
        if (well.KnowsWidth)
        {
            Breathe(orbit, well.WidthPotential, lines.Width, 0);
        }
    }

    /// <summary>The diffusion that the lines of an orbit draw from a noise.</summary>
    /// <param name="lines">The lines.</param>
    /// <param name="noise">The noise.</param>
    /// <param name="resolution">Half of the band over which densities are averaged, relative to the frequency.</param>
    public static OrbitDiffusion Of(OrbitLines lines, WellNoise noise, double resolution)
    {
        List<OrbitLine> chosen = lines.Of(noise.Action);
        bool turns = noise.Action == WellAction.Shake;
        OrbitDiffusion sum = default;
        foreach (OrbitLine line in chosen)
        {
            double hertz = Math.Abs(line.Rate) / (2 * Math.PI);
            double weight = 0.25 * line.Square * noise.Mean(hertz, Math.Max(resolution * hertz, 1e-12));
            sum += new OrbitDiffusion(
                weight * line.Rate * line.Rate,
                turns ? weight * line.Rate : 0,
                turns ? weight : 0
            );
        }
        return sum;
    }

    // The force as a complex number turns with the orbit: 2 r U_u exp(i φ). Lines at ω_φ + n ω_r.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Shake(PlanarWell well, PlanarOrbit orbit, OrbitLines lines)
    {
        int count = orbit.Count;
        Span<double> weight = stackalloc double[count];
        Harmonics up = new(stackalloc double[count], stackalloc double[count], stackalloc double[count]);
        Harmonics down = new(stackalloc double[count], stackalloc double[count], stackalloc double[count]);
        double whole = 0;
        for (int j = 0; j < count; j++)
        {
            double pull = 2 * Math.Sqrt(orbit.Squares[j]) * well.Slope(orbit.Squares[j]);
            weight[j] = 2 * orbit.Shares[j] * pull;
            whole += weight[j] * pull;
        }
        up.Begin(orbit.Excess, orbit.Phases, -1);
        down.Begin(orbit.Excess, orbit.Phases, 1);
        double middle = up.Sum(weight);
        double found = middle * middle;
        lines.Shake.Add(new(orbit.TurnRate, found));
        for (int n = 1; n <= count / 2 && found < (1 - Missing) * whole; n++)
        {
            up.Raise();
            down.Raise();
            double rising = up.Sum(weight);
            double falling = down.Sum(weight);
            found += rising * rising + falling * falling;
            lines.Shake.Add(new(orbit.TurnRate + n * orbit.RadialRate, rising * rising));
            lines.Shake.Add(new(orbit.TurnRate - n * orbit.RadialRate, falling * falling));
        }
    }

    // An energy that depends on the distance alone: lines at n ω_r, both signs of n in one.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Breathe(PlanarOrbit orbit, Func<double, double> energy, List<OrbitLine> into, double scale)
    {
        int count = orbit.Count;
        Span<double> weight = stackalloc double[count];
        Harmonics harmonics = new(stackalloc double[count], stackalloc double[count], stackalloc double[count]);
        double mean = 0;
        double whole = 0;
        for (int j = 0; j < count; j++)
        {
            weight[j] = energy(orbit.Squares[j]);
            mean += 2 * orbit.Shares[j] * weight[j];
        }
        for (int j = 0; j < count; j++)
        {
            double rest = weight[j] - mean;
            weight[j] = 2 * orbit.Shares[j] * rest;
            whole += weight[j] * rest;
        }
        harmonics.Begin(null, orbit.Phases, 1);
        double found = 0;
        double least = Math.Max(scale, Math.Abs(mean));
        for (int n = 1; n <= count / 2 && found < (1 - Missing) * whole - 1e-28 * least * least; n++)
        {
            harmonics.Raise();
            double sum = harmonics.Sum(weight);
            found += 2 * sum * sum;
            into.Add(new(n * orbit.RadialRate, 2 * sum * sum));
        }
    }

    // cos(e + n s θ) at the nodes for n = 0, 1, 2 … by the recurrence c_{n+1} = 2 cos θ c_n − c_{n−1}.
    private readonly ref struct Harmonics(Span<double> twice, Span<double> here, Span<double> before)
    {
        private readonly Span<double> _twice = twice;
        private readonly Span<double> _here = here;
        private readonly Span<double> _before = before;

        public void Begin(double[]? excess, double[] phases, int sign)
        {
            for (int j = 0; j < _twice.Length; j++)
            {
                double e = excess?[j] ?? 0;
                _twice[j] = 2 * Math.Cos(phases[j]);
                _here[j] = Math.Cos(e);
                _before[j] = Math.Cos(e - sign * phases[j]);
            }
        }

        public void Raise()
        {
            for (int j = 0; j < _twice.Length; j++)
            {
                (_here[j], _before[j]) = (_twice[j] * _here[j] - _before[j], _here[j]);
            }
        }

        public double Sum(ReadOnlySpan<double> weight)
        {
            double sum = 0;
            for (int j = 0; j < weight.Length; j++)
            {
                sum += weight[j] * _here[j];
            }
            return sum;
        }
    }
}

/// <summary>One line of an orbit.</summary>
/// <param name="Rate">Angular frequency, rad/s; negative where it turns against the orbit.</param>
/// <param name="Square">Squared Fourier coefficient, N² or J².</param>
internal readonly record struct OrbitLine(double Rate, double Square);

/// <summary>The lines at which an orbit takes energy from noise.</summary>
internal sealed class OrbitLines
{
    public List<OrbitLine> Shake { get; } = [];

    public List<OrbitLine> Depth { get; } = [];

    public List<OrbitLine> Width { get; } = [];

    public List<OrbitLine> Of(WellAction action) =>
        action switch
        {
            WellAction.Shake => Shake,
            WellAction.Depth => Depth,
            _ => Width,
        };

    public void Clear()
    {
        Shake.Clear();
        Depth.Clear();
        Width.Clear();
    }
}
