using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Builds the content of an atlas of a ball in a beam without symmetry.</summary>
internal static class PlaneBuild
{
    public static AtlasContent Of(SailCraft craft, Beam beam, AtlasBox box, double accuracy, int threads)
    {
        Beam unit = beam with { PowerWatts = 1 };
        AtlasScene scene = new(AtlasBuild.Engine(craft, unit, 0, accuracy), craft, unit, box);
        PlaneFit values = new(scene, false, (1 - AtlasBuild.FillShare) * accuracy, threads);
        PlaneFit slants = new(scene, true, AtlasSlant.Target, threads);
        AtlasRegion[] sizes = box.CoversSizes ? [.. AtlasBuild.Sizes(box).Select(s => Whole(s.W0, s.W1))] : [];
        AtlasPiece[] plain = AtlasRefinement.Of(values, threads, Whole(1, 1));
        AtlasPiece[] plainSlants = AtlasRefinement.Of(slants, threads, Whole(1, 1));
        AtlasPiece[] scaled = AtlasRefinement.Of(values, threads, sizes);
        AtlasPiece[] scaledSlants = AtlasRefinement.Of(slants, threads, sizes);
        AtlasPiece[] all = [.. plain, .. scaled];
        return new()
        {
            Kind = AtlasKind.Plane,
            ShiftMetres = 0,
            OffsetMetres = box.OffsetMetres,
            Accuracy = accuracy,
            Plain = plain,
            Scaled = scaled,
            PlainSlants = plainSlants,
            ScaledSlants = scaledSlants,
            Report = new(
                box,
                plain.Count(p => p.Serves),
                plain.Sum(p => p.Coefficients),
                all.Max(p => p.Miss),
                160 * all.Count(p => p.Serves),
                0,
                scene.Evaluations,
                Share(plain),
                plainSlants.Concat(scaledSlants).All(p => p.Serves)
            )
            {
                ScaledPanels = scaled.Count(p => p.Serves),
                ScaledCoefficients = scaled.Sum(p => p.Coefficients),
                ScaledCoveredShare = Share(scaled),
            },
        };
    }

    private static AtlasRegion Whole(double w0, double w1) => new(-1, 1, -1, 1, w0, w1);

    private static double Share(AtlasPiece[] pieces)
    {
        static double Size(AtlasPiece p) =>
            (p.Region.A1 - p.Region.A0)
            * (p.Region.B1 - p.Region.B0)
            * (p.Region.W1 > p.Region.W0 ? p.Region.W1 - p.Region.W0 : 1);
        double all = pieces.Sum(Size);
        return all > 0 ? pieces.Where(p => p.Serves).Sum(Size) / all : 0;
    }
}
