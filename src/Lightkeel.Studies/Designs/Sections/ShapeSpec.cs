using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of the sail shapes.</summary>
internal static class ShapeSpec
{
    private static readonly NumberKind PositiveLength = NumberKind.Of(Dimension.OfLength, Interval.Positive);

    private static readonly NumberField Radius = new("radius", PositiveLength, "Radius of the sail at its rim.");

    private static readonly NumberField InnerRadius = new(
        "inner_radius",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative, "0.1 m"),
        "Radius of the hole in the middle.",
        0
    );

    private static readonly NumberField SmallRadius = new("small_radius", PositiveLength, "Radius of the narrow end.");

    private static readonly NumberField HalfAngle = new(
        "half_angle",
        NumberKind.Of(Dimension.OfAngle, Interval.Open(0, Math.PI / 2)),
        "Angle between the axis and a generator, so that 90 deg would be a flat disc."
    );

    private static readonly WordField<TowardLaser> Toward = new(
        "toward_laser",
        "Which side faces the laser.",
        ("vertex", TowardLaser.Vertex, "The vertex, pole or narrow end; the sail lies at z >= 0 of its axes."),
        ("mouth", TowardLaser.Mouth, "The opening; the sail lies at z <= 0 of its axes.")
    );

    private static readonly NumberField Curvature = new("curvature_radius", PositiveLength, "Radius of the sphere.");

    private static readonly OptionalNumberField RimRadius = new(
        "radius",
        PositiveLength,
        "Radius of the rim, of a cap shallower than a hemisphere."
    );

    private static readonly OptionalNumberField RimAngle = new(
        "half_angle",
        NumberKind.Of(Dimension.OfAngle, Interval.Open(0, Math.PI), "20 deg"),
        "Angle at the centre of curvature from the pole to the rim."
    );

    private static readonly NumberField FocalLength = new(
        "focal_length",
        PositiveLength,
        "Distance from vertex to focus."
    );

    private static readonly ColumnSpec RadiusColumn = new(
        "radius",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative),
        "Distance from the axis.",
        "radius_m"
    );

    private static readonly ColumnSpec HeightColumn = new(
        "height",
        NumberKind.Of(Dimension.OfLength, Interval.Any),
        "Height along body +z.",
        "height_m"
    );

    private static readonly FileField ProfileFile = new(
        "file",
        [RadiusColumn, HeightColumn],
        "CSV file with points from the axis or inner edge outward.",
        fewest: 2
    );

    private static readonly RowsField Points = new(
        "points",
        [RadiusColumn, HeightColumn],
        "Points [radius, height] from the axis or inner edge outward, radii strictly increasing.",
        fewest: 2
    );

    /// <summary>Shapes that a sail may have.</summary>
    public static ChoiceField<ShapeDesign> Choice { get; } =
        Flat(Curved(ChoiceField<ShapeDesign>.Of("shape", "Shape of the sail.")));

    private static ChoiceField<ShapeDesign> Flat(ChoiceField<ShapeDesign> choice) =>
        choice
            .Or(
                "disc",
                new TableSpec<DiscShapeDesign>(
                    "Flat disc, its centre the reference point.",
                    [Radius, InnerRadius],
                    BuildDisc
                )
            )
            .Or(
                "cone",
                new TableSpec<ConeShapeDesign>(
                    "Cone, its vertex the reference point.",
                    [Radius, HalfAngle, Toward],
                    t =>
                        new()
                        {
                            RadiusMetres = t.Get(Radius),
                            HalfAngleRadians = t.Get(HalfAngle),
                            TowardLaser = t.Get(Toward),
                        }
                )
            )
            .Or(
                "frustum",
                new TableSpec<FrustumShapeDesign>(
                    "Cone without its tip, the centre of the end nearest the laser its reference point.",
                    [Radius, SmallRadius, HalfAngle, Toward],
                    BuildFrustum
                )
            );

    private static ChoiceField<ShapeDesign> Curved(ChoiceField<ShapeDesign> choice) =>
        choice
            .Or(
                "cap",
                new TableSpec<CapShapeDesign>(
                    "Part of a sphere, its pole the reference point.",
                    [Curvature, RimRadius, RimAngle, Toward],
                    BuildCap,
                    new OneGroupOf([RimRadius], [RimAngle])
                )
            )
            .Or(
                "paraboloid",
                new TableSpec<ParaboloidShapeDesign>(
                    "Paraboloid, its vertex the reference point.",
                    [FocalLength, Radius, Toward],
                    t =>
                        new()
                        {
                            FocalLengthMetres = t.Get(FocalLength),
                            RadiusMetres = t.Get(Radius),
                            TowardLaser = t.Get(Toward),
                        }
                )
            )
            .Or(
                "sphere",
                new TableSpec<SphereShapeDesign>(
                    "Whole sphere, its centre the reference point.",
                    [Radius],
                    t => new() { RadiusMetres = t.Get(Radius) }
                )
            )
            .Or(
                "profile",
                new TableSpec<ProfileShapeDesign>(
                    "Surface of revolution through given points, the origin of heights its reference point.",
                    [ProfileFile, Points],
                    BuildProfile,
                    new OneGroupOf([ProfileFile], [Points])
                )
            );

    private static DiscShapeDesign BuildDisc(TableReading table)
    {
        DiscShapeDesign disc = new() { RadiusMetres = table.Get(Radius), InnerRadiusMetres = table.Get(InnerRadius) };
        if (table.IsSound && disc.InnerRadiusMetres >= disc.RadiusMetres)
        {
            table.Fault(
                InnerRadius,
                $"{table.PathOf(InnerRadius.Key)} is not smaller than radius",
                Below(disc.RadiusMetres)
            );
        }
        return disc;
    }

    private static FrustumShapeDesign BuildFrustum(TableReading table)
    {
        FrustumShapeDesign frustum = new()
        {
            RadiusMetres = table.Get(Radius),
            SmallRadiusMetres = table.Get(SmallRadius),
            HalfAngleRadians = table.Get(HalfAngle),
            TowardLaser = table.Get(Toward),
        };
        if (table.IsSound && frustum.SmallRadiusMetres >= frustum.RadiusMetres)
        {
            table.Fault(
                SmallRadius,
                $"{table.PathOf(SmallRadius.Key)} is not smaller than radius",
                Below(frustum.RadiusMetres)
            );
        }
        return frustum;
    }

    private static CapShapeDesign BuildCap(TableReading table)
    {
        double curvature = table.Get(Curvature);
        double? rim = table.Get(RimRadius);
        double? angle = table.Get(RimAngle);
        TowardLaser toward = table.Get(Toward);
        if (table.IsSound && rim >= curvature)
        {
            table.Fault(
                RimRadius,
                $"{table.PathOf(RimRadius.Key)} is not smaller than curvature_radius",
                Below(curvature) + "; a hemisphere or more is given by half_angle"
            );
        }
        double fromRadius = rim < curvature ? Math.Asin(rim.Value / curvature) : 0;
        return new()
        {
            CurvatureRadiusMetres = curvature,
            RimAngleRadians = angle ?? fromRadius,
            RadiusMetres = rim,
            TowardLaser = toward,
        };
    }

    private static ProfileShapeDesign BuildProfile(TableReading table)
    {
        Field source = table.Has(ProfileFile) ? ProfileFile : Points;
        ColumnData? file = table.Get(ProfileFile);
        ColumnData? points = table.Get(Points);
        ColumnData? data = file ?? points;
        IReadOnlyList<double> radii = data?[RadiusColumn.Name] ?? [];
        int row = Sequence.FirstNotIncreasing(radii);
        if (table.IsSound && row >= 0)
        {
            string radius = Quantity.Format(radii[row], "m");
            table.Fault(
                source,
                $"{table.PathOf(source.Key)}: radius {row} ({radius}, counted from 0) is not larger than the one before",
                "expected radii that strictly increase"
            );
        }
        return new() { RadiiMetres = radii, HeightsMetres = data?[HeightColumn.Name] ?? [] };
    }

    private static string Below(double metres) => $"expected less than {Quantity.Format(metres, Dimension.OfLength)}";
}
