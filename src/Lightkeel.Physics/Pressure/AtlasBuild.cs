using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Builds an atlas: raises the orders where the last coefficients are large, splits the offset where that is not enough.</summary>
internal sealed class AtlasBuild
{
    /// <summary>The largest miss seen at the points of proof times this is what the atlas vouches for.</summary>
    public const double Safety = 2;

    // Shares of the accuracy below which trailing coefficients are left out, from the least upward.
    private static readonly double[] Cuts = [0.002, 0.02, 0.06, 0.15, 0.3];
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

    /// <summary>The box in offsets of the centre of mass.</summary>
    public required AtlasBox Asked { get; init; }

    public static AtlasBuild Of(SailCraft craft, Beam beam, AtlasBox box, double shift, double accuracy, int threads)
    {
        if (!craft.IsAxisymmetric || !beam.Profile.IsAxisymmetric)
        {
            throw new ArgumentException(
                "An atlas needs a craft that is axisymmetric about its body axis through the centre of mass, and an axisymmetric beam."
            );
        }
        AtlasBox asked = Clipped(craft, box);
        // About another place on the axis a tilt moves that place by its distance from the centre of mass.
        Vec3 place = craft.Mass.CenterOfMassMetres + new Vec3(0, 0, shift);
        SailCraft about = craft with { Mass = craft.Mass with { CenterOfMassMetres = place } };
        double swing = Math.Abs(shift) * Math.Sin(asked.TiltRadians);
        SurfaceQuadrature engine = new(about, beam, Math.Max(0.02 * accuracy, 1e-12));
        AtlasScene scene = new(engine, about, beam, asked with { OffsetMetres = asked.OffsetMetres + swing });
        AtlasBuild work = new(scene, engine, accuracy, threads) { Report = null!, Asked = asked };
        work.Fill(0, 1, 0, scene.IsBall ? new(12, 1, 1) : new(12, 6, 4));
        AtlasSlant? slant = AtlasSlant.Build(scene, threads);
        AtlasBuild done = new(scene, engine, accuracy, threads)
        {
            Report = work.Summary(slant is not null, 0),
            Asked = asked,
        };
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
                regime.For(Vec3.UnitZ) is { IsSingleBounce: false } refused
                    ? refused.Reason
                    : "An atlas covers tilts above 0 and below a quarter turn, within which light meets the craft once; ask for such a tilt."
            );
    }

    private AtlasReport Summary(bool slanted, double slope)
    {
        AtlasRange[] reached = [.. _ranges.Where(r => r.Panel is not null)];
        return new(
            Scene.Box,
            reached.Length,
            reached.Sum(r => r.Panel!.Coefficients),
            reached.Length > 0 ? reached.Max(r => r.Miss) : 0,
            ProofPoints * reached.Length,
            slope,
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
            AtlasFit fit = AtlasFit.Of(Scene, start, end, tried, _threads);
            if (Leanest(fit) is var (panel, miss))
            {
                _ranges.Add(new(start, end, panel, miss));
                return;
            }
            if (Raised(tried, fit.Tails) is { } next)
            {
                tried = next;
                continue;
            }
            Split(start, end, depth, orders);
            return;
        }
    }

    // The panel with the fewest coefficients that still holds the accuracy; null when none does.
    private (AtlasPanel Panel, double Miss)? Leanest(AtlasFit fit)
    {
        (AtlasPanel Panel, double Miss)? found = null;
        foreach (double cut in Cuts)
        {
            AtlasPanel panel = fit.Panel(cut * Accuracy);
            double miss = AtlasProof.Miss(Scene, panel, 0, TrialPoints, _threads);
            if (Safety * miss > Accuracy)
            {
                break;
            }
            miss = Math.Max(miss, AtlasProof.Miss(Scene, panel, TrialPoints, ProofPoints, _threads));
            if (Safety * miss > Accuracy)
            {
                break;
            }
            found = (panel, miss);
        }
        return found;
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
