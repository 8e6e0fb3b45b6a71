using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Builds the content of an atlas of an axisymmetric craft in an axisymmetric beam.</summary>
internal sealed class AtlasBuild
{
    // Beams off their designed size are divided beforehand into ranges that span no more than this.
    private const double WidestRange = 1.5;
    private const double TiltMargin = 2 * AtlasSlant.Step;

    /// <summary>Share of the accuracy that the filling quadrature may take.</summary>
    public const double FillShare = 0.1;

    private readonly SailCraft _craft;
    private readonly Beam _beam;
    private readonly AtlasBox _box;
    private readonly double _accuracy;
    private readonly int _threads;
    private int _evaluations;

    private AtlasBuild(SailCraft craft, Beam beam, AtlasBox box, double accuracy, int threads) =>
        (_craft, _beam, _box, _accuracy, _threads) = (craft, beam, box, accuracy, threads);

    /// <summary>Builds it. The power of the beam has no say in the content.</summary>
    public static AtlasContent Of(SailCraft craft, Beam beam, AtlasBox box, double accuracy, int threads) =>
        new AtlasBuild(craft, beam with { PowerWatts = 1 }, Clipped(craft, box), accuracy, threads).Content();

    /// <summary>The quadrature for a place along the axis, to fill a table and to hand over to.</summary>
    public static SurfaceQuadrature Engine(SailCraft craft, Beam beam, double shift, double accuracy) =>
        new(About(craft, shift), beam, AtlasContent.FillAccuracy(accuracy));

    /// <summary>The craft with its centre of mass moved along the axis.</summary>
    public static SailCraft About(SailCraft craft, double shift) =>
        craft with
        {
            Mass = craft.Mass with { CenterOfMassMetres = craft.Mass.CenterOfMassMetres + new Vec3(0, 0, shift) },
        };

    /// <summary>How an error about the tabled place grows about the centre of mass: torques carry that of the force with the arm.</summary>
    public static double Growth(SailCraft craft, double shift)
    {
        double reach = SharedPressure.ReachOf(craft);
        double tabled = SharedPressure.ReachOf(About(craft, shift));
        return Math.Max(1, (tabled + Math.Abs(shift)) / reach);
    }

    /// <summary>Ranges of the inverse size of the beam that cover a box.</summary>
    public static IEnumerable<(double W0, double W1)> Sizes(AtlasBox box)
    {
        (double low, double high) = (1 / box.LargestScale, 1 / box.SmallestScale);
        int count = Math.Max(1, (int)Math.Ceiling(Math.Log(high / low) / Math.Log(WidestRange)));
        double[] ends =
        [
            .. Enumerable.Range(0, count).Select(i => low * Math.Pow(high / low, (double)i / count)),
            high,
        ];
        return ends.Zip(ends[1..]);
    }

    private AtlasContent Content()
    {
        (AtlasScene Scene, AtlasPiece[] Pieces, double Shift)? leanest = null;
        foreach (double shift in Places(_craft))
        {
            AtlasScene scene = Scene(shift);
            AtlasPiece[] pieces = AtlasRefinement.Of(Table(scene, shift), _threads, Whole(1, 1));
            if (leanest is not { } best || IsBetter(pieces, best.Pieces))
            {
                _evaluations += leanest?.Scene.Evaluations ?? 0;
                leanest = (scene, pieces, shift);
            }
            else
            {
                _evaluations += scene.Evaluations;
            }
        }
        return Content(leanest!.Value.Scene, leanest.Value.Pieces, leanest.Value.Shift);
    }

    private AtlasContent Content(AtlasScene scene, AtlasPiece[] plain, double shift)
    {
        AtlasSlant slant = new(scene, _threads);
        AtlasPiece[] slants = AtlasRefinement.Of(slant, _threads, Whole(1, 1));
        AtlasRegion[] sizes = _box.CoversSizes ? [.. Sizes(_box).Select(s => Whole(s.W0, s.W1))] : [];
        AtlasPiece[] scaled = AtlasRefinement.Of(Table(scene, shift), _threads, sizes);
        AtlasPiece[] scaledSlants = AtlasRefinement.Of(slant, _threads, sizes);
        AtlasContent content = new()
        {
            Kind = AtlasKind.Axisymmetric,
            ShiftMetres = shift,
            OffsetMetres = scene.Box.OffsetMetres,
            Accuracy = _accuracy,
            Plain = plain,
            Scaled = scaled,
            PlainSlants = slants,
            ScaledSlants = scaledSlants,
            Report = new(
                _box,
                plain.Count(p => p.Serves),
                plain.Sum(p => p.Coefficients),
                plain.Concat(scaled).Max(p => p.Miss),
                464 * plain.Concat(scaled).Count(p => p.Serves),
                0,
                0,
                Share(plain),
                slants.Concat(scaledSlants).All(p => p.Serves)
            )
            {
                ScaledPanels = scaled.Count(p => p.Serves),
                ScaledCoefficients = scaled.Sum(p => p.Coefficients),
                ScaledCoveredShare = Share(scaled),
            },
        };
        IPressureEngine engine = Engine(_craft, _beam, shift, _accuracy);
        double slopes = AtlasProof.SlopeMiss(new(content, engine, About(_craft, shift), 0, 1), scene, engine);
        int evaluations = _evaluations + scene.Evaluations;
        return content with { Report = content.Report with { LargestSlopeMiss = slopes, Evaluations = evaluations } };
    }

    // What is vouched for, twice the miss and the error of the quadrature, each grown by the arm to the tabled place, must keep
    // the accuracy.
    private AtlasFit Table(AtlasScene scene, double shift)
    {
        double growth = Growth(_craft, shift);
        return new(scene, Math.Max(0.3, 1 - FillShare * growth) / growth * _accuracy, _threads);
    }

    private AtlasScene Scene(double shift)
    {
        // About another place on the axis a tilt moves that place by its distance from the centre of mass.
        double swing = Math.Abs(shift) * Math.Sin(_box.TiltRadians);
        return new(
            Engine(_craft, _beam, shift, _accuracy),
            About(_craft, shift),
            _beam,
            _box with
            {
                OffsetMetres = _box.OffsetMetres + swing,
            }
        );
    }

    private static AtlasBox Clipped(SailCraft craft, AtlasBox box)
    {
        if (AtlasScene.Balls(craft))
        {
            return box;
        }
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

    private static AtlasRegion Whole(double w0, double w1) => new(0, 1, 0, 1, w0, w1);

    // Share of offsets, and of sizes, that pieces with the accuracy cover.
    private static double Share(AtlasPiece[] pieces)
    {
        double Size(AtlasPiece p) =>
            (Math.Sqrt(p.Region.A1) - Math.Sqrt(p.Region.A0))
            * (p.Region.W1 > p.Region.W0 ? p.Region.W1 - p.Region.W0 : 1);
        double all = pieces.Sum(Size);
        return all > 0 ? pieces.Where(p => p.Serves).Sum(Size) / all : 0;
    }

    private static bool IsBetter(AtlasPiece[] a, AtlasPiece[] b) =>
        Share(a) != Share(b) ? Share(a) > Share(b) : a.Sum(p => p.Coefficients) < b.Sum(p => p.Coefficients);

    // Distances along the body axis from the centre of mass: itself, the middle of the first surface, its centre of curvature.
    private static List<double> Places(SailCraft craft)
    {
        if (AtlasScene.Balls(craft))
        {
            return [0];
        }
        PlacedSurface first = craft.Surfaces[0];
        double side = first.BodyFromSurface.Row2.Z < 0 ? -1 : 1;
        (double low, double high) = first.Shape.HeightRangeMetres;
        double origin = first.OriginMetres.Z - craft.Mass.CenterOfMassMetres.Z;
        List<double> places = [0];
        if (first.Shape.ClosedSphereRadiusMetres is not null)
        {
            places.Add(origin);
        }
        else
        {
            places.Add(origin + side * 0.5 * (low + high));
        }
        if (first.Shape is Shapes.SphericalCap cap)
        {
            places.Add(origin + side * (low < 0 ? -1 : 1) * cap.CurvatureRadiusMetres);
        }
        return [.. places.Where((p, i) => i == 0 || Math.Abs(p) > 1e-9 * first.Shape.MaximumRadiusMetres)];
    }
}
