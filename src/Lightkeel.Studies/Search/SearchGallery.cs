using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Search;

/// <summary>Members drawn in section, to scale, with the irradiance of their beams below.</summary>
internal static class SearchGallery
{
    private const int Most = 9;
    private const int Points = 64;

    public static Figure Of(SearchInput input, SearchResult r)
    {
        SearchMember[] shown = Chosen(r);
        return new()
        {
            Name = "gallery",
            Title = $"{r.Title}: members in section",
            Note =
                "Light travels upward. Sails and booms to scale; the amber area is the irradiance across the beam, in its own height.",
            Panels = [.. shown.Select(m => Draw(input, r, m))],
            Columns = Math.Min(3, shown.Length),
        };
    }

    // Spread over the front, then the kinds that are not on it.
    private static SearchMember[] Chosen(SearchResult r)
    {
        SearchMember[] beaten = [.. r.Concepts.Where(c => !c.IsOnFront).Take(Most / 2)];
        int room = Math.Min(Most - beaten.Length, r.Front.Count);
        IEnumerable<SearchMember> spread = Enumerable
            .Range(0, room)
            .Select(i => r.Front[room == 1 ? 0 : i * (r.Front.Count - 1) / (room - 1)]);
        return [.. spread, .. beaten];
    }

    private static Panel Draw(SearchInput input, SearchResult r, SearchMember member)
    {
        DesignDocument document = DesignDocument.Parse(
            member.Design,
            "member.toml",
            new() { Folder = SearchMemberFile.FolderOf(input.Problem), AllowOutsideFiles = true }
        );
        DesignModel model = DesignModel.Build(document.Design);
        (double[] X, double[] Z)[] lines =
        [
            .. model.Craft.Surfaces.SelectMany(s => new[] { Outline(s, 1), Outline(s, -1) }),
        ];
        double low = lines.Min(l => l.Z.Min());
        double high = lines.Max(l => l.Z.Max());
        double half = 1.15 * lines.Max(l => l.X.Max(Math.Abs));
        List<PlotItem> items = [];
        foreach (MassDesign mass in model.Design.Masses)
        {
            Vec3 at = mass.PositionMetres;
            (double bottom, double top) = mass.Shape is RodMassDesign rod
                ? (at.Z - 0.5 * rod.LengthMetres, at.Z + 0.5 * rod.LengthMetres)
                : (at.Z, at.Z);
            (low, high) = (Math.Min(low, bottom), Math.Max(high, top));
            items.Add(
                bottom < top
                    ? new LineSeries([at.X, at.X], [bottom, top]) { Tone = Tone.Grey, Dash = LineDash.Solid }
                    : new ScatterSeries([at.X], [at.Z]) { Tone = Tone.Ember }
            );
        }
        double room = 0.35 * Math.Max(high - low, half);
        items.Insert(0, BeamArea(model, half, low - 1.3 * room, room));
        items.AddRange(lines.Select(l => new LineSeries(l.X, l.Z) { Tone = Tone.Indigo, Dash = LineDash.Solid }));
        return new()
        {
            Title = $"{member.Number}: {TitleOf(r, member)}",
            X = new("x", "m") { Minimum = -half, Maximum = half },
            Y = new("z", "m") { Minimum = low - 1.4 * room, Maximum = high + 0.1 * room },
            Items = items,
            EqualAspect = true,
            Legend = LegendPlace.None,
        };
    }

    private static string TitleOf(SearchResult r, SearchMember member) =>
        member.Kind.Length > 0
            ? member.Kind
            : string.Join(", ", member.Aims.Take(2).Select(a => $"{SummaryRow.Write(a.ValueSi)} {a.Unit}".TrimEnd()));

    private static PolygonArea BeamArea(DesignModel model, double half, double bottom, double height)
    {
        double[] x = [.. Enumerable.Range(0, 2 * Points + 1).Select(i => half * ((double)i / Points - 1))];
        double[] light = [.. x.Select(v => model.Beam.Irradiance(v, 0))];
        double most = Math.Max(light.Max(), 1e-300);
        return new([x[0], .. x, x[^1]], [bottom, .. light.Select(v => bottom + height * v / most), bottom])
        {
            Tone = Tone.Amber,
        };
    }

    private static (double[] X, double[] Z) Outline(PlacedSurface surface, int side)
    {
        List<double> xs = [];
        List<double> zs = [];
        for (int p = 0; p < surface.Shape.Pieces.Count; p++)
        {
            (double start, double end) = surface.Shape.Pieces[p];
            for (int i = 0; i <= Points; i++)
            {
                MeridianPoint m = surface.Shape.At(p, start + (end - start) * i / Points);
                Vec3 body =
                    surface.OriginMetres + surface.BodyFromSurface * new Vec3(side * m.RadiusMetres, 0, m.HeightMetres);
                xs.Add(body.X);
                zs.Add(body.Z);
            }
        }
        return ([.. xs], [.. zs]);
    }
}
