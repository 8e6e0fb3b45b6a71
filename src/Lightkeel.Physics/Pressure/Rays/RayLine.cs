using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>Three numbers, for the value and for its slopes by the two offsets.</summary>
internal readonly record struct RayTriple(double Value, double ByX, double ByY)
{
    public double this[int block] =>
        block switch
        {
            0 => Value,
            1 => ByX,
            _ => ByY,
        };
}

/// <summary>What an integral over one azimuth is held to, per radian.</summary>
/// <param name="Size">Size of the answer that errors are compared with.</param>
/// <param name="Allowed">Error allowed; infinite where nothing is asked.</param>
/// <param name="Depth">How often a stretch may be halved.</param>
internal readonly record struct RayDemand(RayTriple Size, RayTriple Allowed, int Depth);

/// <summary>Integrates over the radius of one azimuth, stretch by stretch, by nested Gauss-Kronrod rules.</summary>
internal sealed class RayLine(RayFan fan, double featureLengthMetres, bool withSlopes)
{
    private const int MostPanels = 64;
    private static readonly GaussKronrod Rule = GaussKronrod.All[1];
    private readonly RayStretches _stretches = new(fan);
    private readonly double[] _errors = new double[3];
    private long _nodes;

    /// <summary>Rays followed so far.</summary>
    public long Rays => _nodes + _stretches.Rays;

    /// <summary>The integral over one azimuth, per radian.</summary>
    public (RaySum Sum, RayTriple Error) At(double azimuth, in RayDemand demand)
    {
        Vec3 toward = fan.Toward(azimuth);
        RaySum sum = default;
        Array.Clear(_errors);
        foreach (RayStretch stretch in _stretches.Find(toward))
        {
            double share = 1.5 * (stretch.End - stretch.Start) / (2.5 * featureLengthMetres);
            int panels = (int)Math.Clamp(Math.Ceiling(share), 1, MostPanels);
            for (int i = 0; i < panels; i++)
            {
                Panel(toward, stretch, (double)i / panels, (i + 1.0) / panels, demand, demand.Depth, ref sum);
            }
        }
        return (sum, new(_errors[0], _errors[1], _errors[2]));
    }

    private void Panel(
        Vec3 toward,
        in RayStretch stretch,
        double from,
        double to,
        in RayDemand demand,
        int depth,
        ref RaySum sum
    )
    {
        RaySum fine = default;
        RaySum difference = default;
        RaySum one = default;
        double half = 0.5 * (to - from);
        double length = stretch.End - stretch.Start;
        for (int i = 0; i < Rule.Count; i++)
        {
            // Cubic in t with slope zero at both ends: lifts the square-root ends that silhouettes leave.
            double t = 0.5 * (from + to) + half * Rule.Nodes[i];
            double radius = stretch.Start + length * t * t * (3 - 2 * t);
            RayTally ray = fan.Follow(toward, radius);
            _nodes++;
            if (ray.Signature != 0)
            {
                fan.Weigh(ray, radius * half * length * 6 * t * (1 - t), withSlopes, ref one);
                fine.Add(Rule.KronrodWeights[i], one);
                difference.Add(Rule.KronrodWeights[i] - Rule.GaussWeights[i], one);
            }
        }
        if (depth > 0 && !IsGood(difference, stretch.IsRough, demand))
        {
            double middle = 0.5 * (from + to);
            Panel(toward, stretch, from, middle, demand, depth - 1, ref sum);
            Panel(toward, stretch, middle, to, demand, depth - 1, ref sum);
            return;
        }
        sum.Add(1, fine);
        for (int block = 0; block < (withSlopes ? 3 : 1); block++)
        {
            _errors[block] += ErrorOf(difference, block, stretch.IsRough, demand);
        }
    }

    private bool IsGood(in RaySum difference, bool rough, in RayDemand demand)
    {
        for (int block = 0; block < (withSlopes ? 3 : 1); block++)
        {
            if (ErrorOf(difference, block, rough, demand) > demand.Allowed[block])
            {
                return false;
            }
        }
        return true;
    }

    private double ErrorOf(in RaySum difference, int block, bool rough, in RayDemand demand)
    {
        double raw = difference.Size(block, fan.Scene.ReachMetres);
        double size = demand.Size[block];
        return rough || !(size > 0) ? raw : size * ErrorScale.Credit(raw / size);
    }
}
