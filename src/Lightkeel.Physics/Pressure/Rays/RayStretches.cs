using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>Rays of one azimuth that meet the same surfaces in the same order: there the integrand is smooth.</summary>
/// <param name="Start">Smallest radius, m.</param>
/// <param name="End">Largest radius, m.</param>
/// <param name="IsRough">True when breaks were left inside, as there are too many.</param>
internal readonly record struct RayStretch(double Start, double End, bool IsRough);

/// <summary>Finds the stretches of one azimuth: radii at which the sequence of meetings changes are bisected to 1e-13 of the craft.</summary>
internal sealed class RayStretches(RayFan fan)
{
    private const int ScanPanels = 32;
    private const int MostBreaks = 48;

    // Bisection stops at this share of the plane's radius.
    private const double Width = 1e-13;

    private readonly List<double> _nodes = [];
    private readonly List<RayStretch> _found = [];
    private int _breaks;

    /// <summary>Rays followed so far.</summary>
    public long Rays { get; private set; }

    /// <summary>The stretches whose rays meet the craft, from the centre outward.</summary>
    public List<RayStretch> Find(Vec3 toward)
    {
        Lay(toward);
        _found.Clear();
        _breaks = 0;
        double start = _nodes[0];
        ulong now = Signature(toward, start);
        for (int i = 1; i < _nodes.Count; i++)
        {
            double low = _nodes[i - 1];
            double high = _nodes[i];
            ulong end = Signature(toward, high);
            while (end != now && _breaks < MostBreaks)
            {
                if (high - low <= 4 * Width * fan.RadiusMetres)
                {
                    // What grazes within a width of the last break is none of its own.
                    Close(start, low, now, false);
                    (start, now) = (high, end);
                    break;
                }
                (double before, double after, ulong next) = Bisect(toward, low, high, now, end);
                Close(start, 0.5 * (before + after), now, false);
                (start, low, now) = (0.5 * (before + after), after, next);
                _breaks++;
            }
            if (end != now)
            {
                // Too many: the rest is integrated as it comes.
                Close(start, _nodes[^1], 1, true);
                return _found;
            }
        }
        Close(start, _nodes[^1], now, false);
        return _found;
    }

    private void Close(double start, double end, ulong signature, bool rough)
    {
        if (signature != 0 && end > start)
        {
            _found.Add(new(start, end, rough));
        }
    }

    // The first change after a place: everything up to `before` is as at its start.
    private (double Before, double After, ulong Next) Bisect(Vec3 toward, double low, double high, ulong now, ulong end)
    {
        double width = Width * fan.RadiusMetres;
        while (high - low > width)
        {
            double middle = 0.5 * (low + high);
            if (middle <= low || middle >= high)
            {
                break;
            }
            ulong there = Signature(toward, middle);
            if (there == now)
            {
                low = middle;
            }
            else
            {
                (high, end) = (middle, there);
            }
        }
        return (low, high, end);
    }

    private ulong Signature(Vec3 toward, double radius)
    {
        Rays++;
        return fan.Follow(toward, radius).Signature;
    }

    // Known edges, and a scan between them for those that are not.
    private void Lay(Vec3 toward)
    {
        double radius = fan.RadiusMetres;
        // Not from the very centre: the ray to a vertex is of no kind.
        List<double> edges = [1e-9 * radius, radius];
        fan.AddEdges(toward, edges);
        edges.RemoveAll(e => e < 1e-9 * radius || e > radius);
        edges.Sort();
        _nodes.Clear();
        _nodes.Add(edges[0]);
        for (int i = 1; i < edges.Count; i++)
        {
            double gap = edges[i] - edges[i - 1];
            if (gap <= 1e-12 * radius)
            {
                continue;
            }
            int parts = (int)Math.Ceiling(ScanPanels * gap / radius) + 1;
            for (int k = 1; k < parts; k++)
            {
                // Unevenly, so that no pattern of the craft falls in step with the scan.
                _nodes.Add(edges[i - 1] + gap * (k - 0.3 * Math.Sin(k * 1.7) / parts) / parts);
            }
            // Just inside the edge, then just outside it.
            _nodes.Add(edges[i] - 1e-10 * gap);
            if (i < edges.Count - 1)
            {
                _nodes.Add(edges[i] + 1e-10 * gap);
            }
        }
    }
}
