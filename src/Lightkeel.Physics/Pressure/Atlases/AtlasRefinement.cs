namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>What a table is made for: fits a region and measures how far a fit misses.</summary>
internal interface IAtlasSubject
{
    /// <summary>Numbers of points of a first fit.</summary>
    AtlasOrders First { get; }

    /// <summary>Most points that are tried before a region is divided.</summary>
    AtlasOrders Most { get; }

    /// <summary>Times that a region may be halved.</summary>
    int MostSplits { get; }

    /// <summary>Which coordinates may be halved.</summary>
    bool SplitsB { get; }

    /// <summary>Relative accuracy of the table.</summary>
    double Accuracy { get; }

    /// <summary>Numbers of quadratures so far.</summary>
    int Evaluations { get; }

    /// <summary>Points of a quick look, then of the proof.</summary>
    (int Trial, int Proof) Points { get; }

    /// <summary>Fits a region.</summary>
    AtlasTensor Fit(in AtlasRegion region, AtlasOrders orders, out AtlasTails tails);

    /// <summary>Blocks of a fit without what lies below a share of the least force.</summary>
    AtlasBlock[][] Blocks(AtlasTensor fit, double cut);

    /// <summary>Point n of the proof of a region, computed by quadrature.</summary>
    AtlasProbe Probe(in AtlasRegion region, int n);

    /// <summary>Relative miss of a piece there.</summary>
    double Miss(AtlasPiece piece, AtlasProbe probe);

    /// <summary>Middle of a range of the first coordinate, where it is halved.</summary>
    double MiddleOfA(double start, double end);
}

/// <summary>A point of proof: coordinates of a table and what is true there.</summary>
/// <param name="A">First coordinate as the sampler wants it.</param>
/// <param name="B">Second coordinate.</param>
/// <param name="Azimuth">Third coordinate, rad.</param>
/// <param name="W">Inverse size of the beam.</param>
/// <param name="Exact">The lanes.</param>
/// <param name="Force">Size of the force.</param>
internal sealed record AtlasProbe(double A, double B, double Azimuth, double W, double[] Exact, double Force);

/// <summary>Builds a table: raises the orders where the last coefficients are large, halves a region where that is not enough.</summary>
internal sealed class AtlasRefinement
{
    /// <summary>The largest miss seen at the points of proof times this is what the atlas vouches for.</summary>
    public const double Safety = 2;

    // Quadratures after which no more regions are tried; what is left is handed over.
    private const int Budget = 1_500_000;

    // Shares of the accuracy below which trailing coefficients are left out, from the least upward.
    private static readonly double[] Cuts = [0.002, 0.02, 0.06, 0.15, 0.3];

    private readonly IAtlasSubject _subject;
    private readonly List<AtlasPiece> _pieces = [];
    private readonly int _threads;

    private AtlasRefinement(IAtlasSubject subject, int threads) => (_subject, _threads) = (subject, threads);

    /// <summary>Builds the pieces of regions.</summary>
    public static AtlasPiece[] Of(IAtlasSubject subject, int threads, params IReadOnlyList<AtlasRegion> regions)
    {
        AtlasRefinement work = new(subject, threads);
        foreach (AtlasRegion region in regions)
        {
            work.Fill(region, 0);
        }
        return [.. work._pieces];
    }

    private void Fill(in AtlasRegion region, int depth)
    {
        AtlasOrders orders = _subject.First with { W = region.W0 < region.W1 ? _subject.First.W : 1 };
        List<AtlasProbe> probes = [];
        while (_subject.Evaluations < Budget)
        {
            AtlasTensor fit = _subject.Fit(region, orders, out AtlasTails tails);
            if (Leanest(region, fit, tails, probes) is { } piece)
            {
                _pieces.Add(piece);
                return;
            }
            if (Raised(orders, tails) is { } next)
            {
                orders = next;
                continue;
            }
            if (depth < _subject.MostSplits)
            {
                foreach (AtlasRegion half in Halves(region, tails))
                {
                    Fill(half, depth + 1);
                }
                return;
            }
            break;
        }
        _pieces.Add(new(region, [], 0));
    }

    // The piece with the fewest coefficients that still holds the accuracy; null when none does.
    private AtlasPiece? Leanest(in AtlasRegion region, AtlasTensor fit, AtlasTails tails, List<AtlasProbe> probes)
    {
        // Tails far above the accuracy cannot make a piece; no point needs to be looked at.
        if (tails.Worst > 1e3 * _subject.Accuracy)
        {
            return null;
        }
        AtlasPiece? found = null;
        (int trial, int proof) = _subject.Points;
        foreach (double cut in Cuts)
        {
            AtlasPiece piece = new(region, _subject.Blocks(fit, cut * _subject.Accuracy), 0);
            double miss = Miss(piece, probes, 0, trial);
            if (Safety * miss > _subject.Accuracy)
            {
                break;
            }
            miss = Math.Max(miss, Miss(piece, probes, trial, proof));
            if (Safety * miss > _subject.Accuracy)
            {
                break;
            }
            found = new(region, [.. piece.Groups.Select(g => g.ToArray())], miss);
        }
        return found;
    }

    // Points of proof are computed when they are first asked for, and kept for other fits of the region.
    private double Miss(AtlasPiece piece, List<AtlasProbe> probes, int first, int count)
    {
        if (probes.Count < first + count)
        {
            AtlasRegion region = piece.Region;
            int known = probes.Count;
            AtlasProbe[] more = new AtlasProbe[first + count - known];
            Parallel.For(
                0,
                more.Length,
                new ParallelOptions { MaxDegreeOfParallelism = _threads },
                i => more[i] = _subject.Probe(region, known + i)
            );
            probes.AddRange(more);
        }
        double worst = 0;
        for (int i = first; i < first + count; i++)
        {
            worst = Math.Max(worst, _subject.Miss(piece, probes[i]));
        }
        return worst;
    }

    private IEnumerable<AtlasRegion> Halves(AtlasRegion r, AtlasTails tails)
    {
        double b = _subject.SplitsB ? tails.B : 0;
        if (r.W0 < r.W1 && tails.W >= Math.Max(tails.A, b))
        {
            double middle = 0.5 * (r.W0 + r.W1);
            return [r with { W1 = middle }, r with { W0 = middle }];
        }
        if (b > tails.A)
        {
            double middle = 0.5 * (r.B0 + r.B1);
            return [r with { B1 = middle }, r with { B0 = middle }];
        }
        double ofA = _subject.MiddleOfA(r.A0, r.A1);
        return [r with { A1 = ofA }, r with { A0 = ofA }];
    }

    // More points where the tail is the largest, and where it is near that; null when the largest tail has no more to be given.
    private AtlasOrders? Raised(AtlasOrders n, AtlasTails tails)
    {
        double near = 0.2 * tails.Worst;
        AtlasOrders next = new(
            n.A > 1 && tails.A >= near ? n.A + 4 : n.A,
            n.B > 1 && tails.B >= near ? n.B + (_subject.SplitsB ? 4 : 2) : n.B,
            n.M > 1 && tails.M >= near ? n.M + 2 : n.M,
            n.W > 1 && tails.W >= near ? n.W + 2 : n.W
        );
        AtlasOrders most = _subject.Most;
        return next == n || next.A > most.A || next.B > most.B || next.M > most.M || next.W > most.W ? null : next;
    }
}
