using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion.Wells;

/// <summary>Where a well is looked for.</summary>
/// <param name="Bottom">Pose at its bottom: a trim.</param>
/// <param name="LengthMetres">How far from the bottom, m.</param>
/// <param name="Rays">Rays around the bottom where the beam is not axisymmetric, 8 or more.</param>
/// <param name="Threads">Threads that may work at once.</param>
public sealed record WellSearch(CraftPose Bottom, double LengthMetres, int Rays = 48, int Threads = 1)
{
    /// <summary>Error of the force along a ray over what the engine may have, 1 or more: larger is faster.</summary>
    public double ToleranceRatio { get; init; } = 1;
}

/// <summary>The potential well of a craft whose lateral force depends on its offset alone.</summary>
/// <remarks>
/// Along each ray from the bottom the potential is the work against the force; the rim of a ray is where the force begins to
/// push away. The lowest of all rims is the pass: it is sought among the rays and between the lowest and its neighbours. A
/// pass that no straight ray from the bottom shows (a winding valley) is not seen. Immutable; safe to share between threads.
/// </remarks>
public sealed class LateralWell
{
    private const int GoldenSteps = 40;

    private LateralWell(IReadOnlyList<WellRay> rays, WellRay pass, bool round)
    {
        (Rays, Pass, IsRound) = (rays, pass, round);
    }

    /// <summary>The rays: one where everything is axisymmetric, else evenly spaced from beam +x.</summary>
    public IReadOnlyList<WellRay> Rays { get; }

    /// <summary>The ray over the lowest pass; where there is none, the first.</summary>
    public WellRay Pass { get; }

    /// <summary>True when the force is the same on all rays.</summary>
    public bool IsRound { get; }

    /// <summary>Distance of the lowest pass from the bottom, m; null when there is no well.</summary>
    public double? RimMetres => Rays.All(r => r.RimMetres is not null) ? Pass.RimMetres : null;

    /// <summary>Height of the lowest pass over the bottom, J; null when there is no well.</summary>
    public double? DepthJoules => RimMetres is { } rim ? Pass.Work(rim) : null;

    /// <summary>Bound of the error of the depth, J.</summary>
    public double DepthErrorJoules => Pass.ForceErrorNewtons * (RimMetres ?? 0);

    /// <summary>Potential at the end of the rays over that at the bottom, J; the lowest of all.</summary>
    public double FarJoules => Rays.Min(r => r.Work(r.LengthMetres));

    /// <summary>Measures the well.</summary>
    /// <param name="engine">Light pressure.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="search">Where.</param>
    /// <exception cref="PressureUnavailableException">The force cannot be computed somewhere.</exception>
    public static LateralWell Measure(IPressureEngine engine, Beam beam, WellSearch search)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentNullException.ThrowIfNull(search);
        CraftPose bottom = search.Bottom;
        bool round = beam.Profile.IsAxisymmetric && bottom is { OffsetXMetres: 0, OffsetYMetres: 0 };
        WellRay Follow(double angle, double length) =>
            WellRay.Follow(engine, bottom, angle, length, search.ToleranceRatio);
        if (round)
        {
            WellRay only = Follow(0, search.LengthMetres);
            return new([only], only, true);
        }
        WellRay[] rays = new WellRay[search.Rays];
        try
        {
            Parallel.For(
                0,
                rays.Length,
                new ParallelOptions { MaxDegreeOfParallelism = search.Threads },
                i => rays[i] = Follow(2 * Math.PI * i / rays.Length, search.LengthMetres)
            );
        }
        catch (AggregateException e) when (e.InnerExceptions[0] is PressureUnavailableException inner)
        {
            throw new PressureUnavailableException(inner.Message, inner);
        }
        return new(rays, LowestPass(rays, Follow), false);
    }

    private static WellRay LowestPass(WellRay[] rays, Func<double, double, WellRay> follow)
    {
        static double Height(WellRay ray) => ray.RimMetres is { } rim ? ray.Work(rim) : double.NegativeInfinity;
        WellRay lowest = rays.MinBy(Height)!;
        if (lowest.RimMetres is not { } rim)
        {
            return lowest;
        }
        // The search looks no further than it must; the ray found is followed to its end.
        double length = Math.Min(lowest.LengthMetres, 1.5 * rim);
        double step = 2 * Math.PI / rays.Length;
        (double a, double b) = (lowest.AngleRadians - step, lowest.AngleRadians + step);
        double ratio = 0.5 * (Math.Sqrt(5) - 1);
        (WellRay c, WellRay d) = (follow(b - ratio * (b - a), length), follow(a + ratio * (b - a), length));
        for (int i = 0; i < GoldenSteps && b - a > 1e-6; i++)
        {
            if (Height(c) < Height(d))
            {
                (b, d) = (d.AngleRadians, c);
                c = follow(b - ratio * (b - a), length);
            }
            else
            {
                (a, c) = (c.AngleRadians, d);
                d = follow(a + ratio * (b - a), length);
            }
        }
        WellRay found = Height(c) < Height(d) ? c : d;
        return Height(found) < Height(lowest) ? follow(found.AngleRadians, lowest.LengthMetres) : lowest;
    }
}
