using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Proof for several coaxial surfaces that follow each other outward without overlapping radii: together they are the
/// graph of one function of the radius, so the rules for one profile hold for the whole.
/// </summary>
/// <param name="Axis">Common axis, body axes.</param>
/// <param name="FrontRadians">Proven limit of the tilt from +axis, rad; negative when nothing is proven.</param>
/// <param name="BackRadians">The same for light from the other side.</param>
internal sealed record RegimeChain(Vec3 Axis, double FrontRadians, double BackRadians)
{
    private const double Alike = 1e-9;

    /// <returns>The proof, or null when the surfaces are no such chain.</returns>
    public static RegimeChain? Of(IReadOnlyList<PlacedSurface> surfaces)
    {
        Vec3 axis = surfaces[0].BodyFromSurface.Column2;
        double size = surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        List<Link> links = [];
        foreach (PlacedSurface surface in surfaces)
        {
            Vec3 offset = surface.OriginMetres - surfaces[0].OriginMetres;
            double station = Vec3.Dot(offset, axis);
            bool isCoaxial =
                (surface.BodyFromSurface.Column2 - axis).Length <= Alike
                && (offset - station * axis).Length <= Alike * size;
            RegimeForm front = RegimeForm.Of(surface.Shape, LitSide.Front);
            if (!isCoaxial || front.SteepestRadians >= Math.PI / 2)
            {
                return null;
            }
            links.Add(new(surface, station));
        }
        links.Sort((a, b) => a.Inner.CompareTo(b.Inner));
        for (int i = 1; i < links.Count; i++)
        {
            if (links[i].Inner < links[i - 1].Outer - Alike * size)
            {
                return null;
            }
        }
        return new(axis, Limit(links, LitSide.Front, size), Limit(links, LitSide.Back, size));
    }

    private static double Limit(List<Link> links, LitSide side, double size)
    {
        double steepest = Steepest(links, size, out bool isClosed);
        bool passes = links.Exists(l => l.Surface.Optics.Passed > RegimeOfSurface.SmallShare);
        bool mirrors = links.Exists(l => l.Surface.Optics.Specular > RegimeOfSurface.NoShare);
        bool scatters = links.Exists(l => l.Surface.Optics.Diffuse > RegimeOfSurface.SmallShare);
        double unshaded = Math.PI / 2 - steepest;
        if (steepest == 0 || (isClosed && IsDome(links, side)))
        {
            return passes ? unshaded : Math.PI / 2;
        }
        if (scatters)
        {
            return -1;
        }
        if (!mirrors)
        {
            return unshaded;
        }
        double gentle = Math.PI / 2 - 3 * steepest;
        double cup = IsCup(links, side, size)
            ? Math.Min(unshaded, RegimeCupTilt.Of(new(links.Select(l => (l.Surface.Shape, l.Station)), side)))
            : -1;
        return Math.Max(gentle, cup);
    }

    // Steepest wall of the whole graph, gaps bridged by straight lines; closed when it has no hole and no gap.
    private static double Steepest(List<Link> links, double size, out bool isClosed)
    {
        double steepest = links.Max(l => RegimeForm.Of(l.Surface.Shape, LitSide.Front).SteepestRadians);
        isClosed = links[0].Inner <= Alike * size;
        for (int i = 1; i < links.Count; i++)
        {
            double step = Math.Abs(links[i].InnerHeight - links[i - 1].OuterHeight);
            double gap = Math.Max(0, links[i].Inner - links[i - 1].Outer);
            if (step > Alike * size || gap > Alike * size)
            {
                isClosed = false;
                steepest = Math.Max(steepest, step <= Alike * size ? 0 : Math.Atan2(step, gap));
            }
        }
        return steepest;
    }

    // Every part convex toward the light and every joint turning further away from the laser.
    private static bool IsDome(List<Link> links, LitSide side)
    {
        double wall = 0;
        foreach (Link link in links)
        {
            RegimeFormKind kind = RegimeForm.Of(link.Surface.Shape, side).Kind;
            RegimeCurve curve = new([(link.Surface.Shape, link.Station)], side);
            double start = curve.At(0, 0).WallRadians;
            if (kind is not (RegimeFormKind.Flat or RegimeFormKind.Dome) || start > wall + Alike)
            {
                return false;
            }
            wall = curve.At(curve.PieceCount - 1, 1).WallRadians;
        }
        return true;
    }

    private static bool IsCup(List<Link> links, LitSide side, double size)
    {
        double sign = side == LitSide.Front ? -1 : 1;
        for (int i = 0; i < links.Count; i++)
        {
            RegimeFormKind kind = RegimeForm.Of(links[i].Surface.Shape, side).Kind;
            bool rises = i == 0 || sign * (links[i].InnerHeight - links[i - 1].OuterHeight) >= -Alike * size;
            if (kind is not (RegimeFormKind.Flat or RegimeFormKind.Cup) || !rises)
            {
                return false;
            }
        }
        return true;
    }

    private sealed record Link(PlacedSurface Surface, double Station)
    {
        private readonly MeridianPoint _inner = Surface.Shape.At(0, Surface.Shape.Pieces[0].Start);
        private readonly MeridianPoint _outer = Surface.Shape.At(
            Surface.Shape.Pieces.Count - 1,
            Surface.Shape.Pieces[^1].End
        );

        public double Inner => _inner.RadiusMetres;

        public double Outer => _outer.RadiusMetres;

        public double InnerHeight => Station + _inner.HeightMetres;

        public double OuterHeight => Station + _outer.HeightMetres;
    }
}
