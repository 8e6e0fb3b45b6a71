using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Builds an atlas: raises the orders where the last coefficients are large, splits the offset where that is not enough.</summary>
internal sealed class AtlasBuild
{
    /// <summary>The largest miss seen at the points of proof times this is what the atlas vouches for.</summary>
    public const double Safety = 2;

    private const int TrialPoints = 64;
    private const int ProofPoints = 400;
    private const int MostA = 32;
    private const int MostB = 20;
    private const int MostAzimuth = 16;
    private const int MostSplits = 6;
    private const double TiltMargin = 2 * AtlasSlant.Step;
    private readonly int _threads;
    private readonly List<AtlasRange> _ranges = [];

    private AtlasBuild(AtlasScene scene, IPressureEngine engine, double accuracy, int threads) =>
        (Scene, Engine, Accuracy, _threads) = (scene, engine, accuracy, threads);

    public AtlasScene Scene { get; }

    public IPressureEngine Engine { get; }

    public double Accuracy { get; }

    public IReadOnlyList<AtlasRange> Panels => _ranges;

    public AtlasSlant? Slant { get; private set; }

    public required AtlasReport Report { get; init; }

    public static AtlasBuild Of(SailCraft craft, Beam beam, AtlasBox box, double accuracy, int threads)
    {
        if (!craft.IsAxisymmetric || !beam.Profile.IsAxisymmetric)
        {
            throw new ArgumentException(
                "An atlas needs a craft that is axisymmetric about its body axis through the centre of mass, and an axisymmetric beam."
            );
        }
        SurfaceQuadrature engine = new(craft, beam, Math.Max(0.02 * accuracy, 1e-12));
        AtlasScene scene = new(engine, craft, beam, Clipped(craft, box));
        AtlasBuild work = new(scene, engine, accuracy, threads) { Report = null! };
        work.Fill(0, 1, 0, scene.IsBall ? new(12, 1, 1) : new(12, 6, 4));
        AtlasSlant? slant = AtlasSlant.Build(scene, threads);
        AtlasBuild done = new(scene, engine, accuracy, threads) { Report = work.Summary(slant is not null) };
        done._ranges.AddRange(work._ranges);
        done.Slant = slant;
        return done;
    }

    private static AtlasBox Clipped(SailCraft craft, AtlasBox box)
    {
        LightRegime regime = LightRegime.Assess(craft);
        double tilt = Math.Min(box.TiltRadians, (regime.MaximumSafeTiltRadians ?? -1) - TiltMargin);
        return tilt > 0 && tilt < 0.5 * Math.PI
            ? box with
            {
                TiltRadians = tilt,
            }
            : throw new PressureUnavailableException(
                regime.For(Numerics.LinearAlgebra.Vec3.UnitZ) is { IsSingleBounce: false } refused
                    ? refused.Reason
                    : "An atlas covers tilts above 0 and below a quarter turn, within which light meets the craft once; ask for such a tilt."
            );
    }

    private AtlasReport Summary(bool slanted)
    {
        AtlasRange[] reached = [.. _ranges.Where(r => r.Panel is not null)];
        return new(
            Scene.Box,
            reached.Length,
            reached.Sum(r => r.Panel!.Coefficients),
            reached.Length > 0 ? reached.Max(r => r.Miss) : 0,
            ProofPoints * reached.Length,
            Scene.Evaluations,
            reached.Sum(r => Math.Sqrt(r.End) - Math.Sqrt(r.Start)),
            slanted
        );
    }

    private void Fill(double start, double end, int depth, AtlasOrders orders)
    {
        AtlasOrders tried = orders;
        while (true)
        {
            (AtlasPanel panel, AtlasTails tails) = AtlasFit.Panel(Scene, start, end, tried, 0.002 * Accuracy, _threads);
            double miss = AtlasProof.Miss(Scene, panel, 0, TrialPoints, _threads);
            if (Safety * miss <= Accuracy)
            {
                miss = Math.Max(miss, AtlasProof.Miss(Scene, panel, TrialPoints, ProofPoints, _threads));
            }
            if (Safety * miss <= Accuracy)
            {
                _ranges.Add(new(start, end, panel, miss));
                return;
            }
            if (Raised(tried, tails) is { } next)
            {
                tried = next;
                continue;
            }
            Split(start, end, depth, orders);
            return;
        }
    }

    private void Split(double start, double end, int depth, AtlasOrders orders)
    {
        if (depth == MostSplits)
        {
            _ranges.Add(new(start, end, null, 0));
            return;
        }
        double middle = 0.5 * (Math.Sqrt(start) + Math.Sqrt(end));
        Fill(start, middle * middle, depth + 1, orders);
        Fill(middle * middle, end, depth + 1, orders);
    }

    // More points where the tail is the largest, and where it is near that; null when the largest tail has no more to be given.
    private static AtlasOrders? Raised(AtlasOrders orders, AtlasTails tails)
    {
        double worst = Math.Max(tails.A, Math.Max(tails.B, tails.Azimuth));
        bool moreA = tails.A >= 0.2 * worst;
        bool moreB = tails.B >= 0.2 * worst && orders.B > 1;
        bool moreF = tails.Azimuth >= 0.2 * worst && orders.Azimuth > 1;
        AtlasOrders next = new(
            moreA ? orders.A + 4 : orders.A,
            moreB ? orders.B + 2 : orders.B,
            moreF ? orders.Azimuth + 2 : orders.Azimuth
        );
        return next == orders || next.A > MostA || next.B > MostB || next.Azimuth > MostAzimuth ? null : next;
    }
}

/// <summary>A range of the offset squared and its panel; without one where the accuracy was not reached.</summary>
internal sealed record AtlasRange(double Start, double End, AtlasPanel? Panel, double Miss);
