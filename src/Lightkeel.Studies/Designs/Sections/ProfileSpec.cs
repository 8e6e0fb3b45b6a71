using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of the beam profiles.</summary>
internal static class ProfileSpec
{
    private const double ShareTolerance = 1e-9;

    private static readonly NumberField Waist = new(
        "waist",
        NumberKind.Of(Dimension.OfLength, Interval.Positive),
        "Radius at which the irradiance has fallen to 1/e^2 of its peak."
    );

    private static readonly NumberField Order = new(
        "order",
        NumberKind.Pure(Interval.Closed(2, 200), "8"),
        "Order n of exp(-2 (radius/waist)^n): 2 is the Gaussian, a large n a top hat."
    );

    private static readonly NumberField RingRadius = new(
        "radius",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative),
        "Radius of the brightest circle."
    );

    private static readonly NumberField RingWidth = new(
        "width",
        NumberKind.Of(Dimension.OfLength, Interval.Positive, "0.45 m"),
        "Distance from the brightest circle at which the irradiance has fallen to 1/e^2."
    );

    private static readonly NumberField RadialIndex = new(
        "p",
        NumberKind.Whole(0, 40, "0"),
        "Radial index of the mode: the number of dark rings."
    );

    private static readonly NumberField AzimuthalIndex = new(
        "l",
        NumberKind.Whole(-40, 40, "1"),
        "Azimuthal index of the mode; its sign does not change the irradiance."
    );

    private static readonly ColumnSpec RadiusColumn = new(
        "radius",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative),
        "Distance from the beam axis.",
        "radius_m"
    );

    private static readonly ColumnSpec IrradianceColumn = new(
        "irradiance",
        NumberKind.OneOf([Dimension.OfIrradiance, Dimension.None], Interval.NotNegative, "1 W/m^2"),
        "Irradiance there, or a pure number proportional to it.",
        "irradiance_W_m2"
    );

    private static readonly FileField TableFile = new(
        "file",
        [RadiusColumn, IrradianceColumn],
        "CSV file with the measured profile, radii strictly increasing.",
        fewest: 2
    );

    private static readonly ListField Radii = new(
        "radii",
        NumberKind.Of(Dimension.OfLength, Interval.NotNegative),
        "Distances from the beam axis, strictly increasing.",
        fewest: 2
    );

    private static readonly ListField Values = new(
        "values",
        NumberKind.Pure(Interval.NotNegative, "0.8"),
        "Relative irradiance at the radii.",
        fewest: 2
    );

    private static readonly NumberField Share = new(
        "share",
        NumberKind.Pure(Interval.Any, "0.7"),
        "Share of the power, positive or negative; the shares of all parts sum to 1."
    );

    private static readonly VectorField PartOffset = new(
        "offset",
        NumberKind.Of(Dimension.OfLength, Interval.Any, "5 cm"),
        ["x", "y"],
        "Offset of the axis of the part from the beam axis.",
        [0, 0]
    );

    private static readonly TextField PartName = TextField.Name(
        "name",
        "Name of the part, used in paths.",
        isRequired: false
    );

    /// <summary>Profiles that a part of a sum may have.</summary>
    private static readonly ChoiceField<ProfileDesign> Simple = ChoiceField<ProfileDesign>
        .Of("profile", "Irradiance across the beam.")
        .Or(
            "gaussian",
            new TableSpec<GaussianProfileDesign>("Gaussian beam.", [Waist], t => new() { WaistMetres = t.Get(Waist) })
        )
        .Or(
            "super-gaussian",
            new TableSpec<SuperGaussianProfileDesign>(
                "Super-Gaussian beam, between the Gaussian and the top hat.",
                [Waist, Order],
                t => new() { WaistMetres = t.Get(Waist), Order = t.Get(Order) }
            )
        )
        .Or(
            "ring",
            new TableSpec<RingProfileDesign>(
                "Ring beam, brightest on a circle.",
                [RingRadius, RingWidth],
                t => new() { RadiusMetres = t.Get(RingRadius), WidthMetres = t.Get(RingWidth) }
            )
        )
        .Or(
            "laguerre-gauss",
            new TableSpec<LaguerreGaussProfileDesign>(
                "Laguerre-Gauss mode, its irradiance only.",
                [Waist, RadialIndex, AzimuthalIndex],
                t =>
                    new()
                    {
                        WaistMetres = t.Get(Waist),
                        P = (int)t.Get(RadialIndex),
                        L = (int)t.Get(AzimuthalIndex),
                    }
            )
        )
        .Or(
            "radial-table",
            new TableSpec<RadialTableProfileDesign>(
                "Measured irradiance against radius, from a file or written here.",
                [TableFile, Radii, Values],
                BuildTable,
                new OneGroupOf([TableFile], [Radii, Values])
            )
        );

    private static readonly TablesField<BeamPartDesign> Parts = new(
        "part",
        new TableSpec<BeamPartDesign>(
            "One part of a sum of profiles.",
            [PartName, Share, PartOffset, Simple],
            t =>
            {
                double[] offset = t.Get(PartOffset);
                return new()
                {
                    Name = t.Get(PartName),
                    Share = t.Get(Share),
                    OffsetXMetres = offset[0],
                    OffsetYMetres = offset[1],
                    Profile = Simple.Read(t)!,
                };
            }
        ),
        fewest: 1,
        most: 64
    );

    /// <summary>Profiles that a beam may have.</summary>
    public static ChoiceField<ProfileDesign> Choice { get; } =
        Simple.Or(
            "sum",
            new TableSpec<SumProfileDesign>("Several profiles together, each a table [[beam.part]].", [Parts], BuildSum)
        );

    private static SumProfileDesign BuildSum(TableReading table)
    {
        SumProfileDesign sum = new() { Parts = table.Get(Parts) };
        double total = sum.Parts.Sum(p => p.Share);
        if (table.IsSound && !(Math.Abs(total - 1) <= ShareTolerance))
        {
            table.Fault(
                Parts,
                $"the shares of {table.PathOf(Parts.Key)} sum to {Quantity.Format(total, "")}",
                "expected shares that sum to 1"
            );
        }
        return sum;
    }

    private static RadialTableProfileDesign BuildTable(TableReading table)
    {
        ColumnData? data = table.Get(TableFile);
        double[] radii = table.Get(Radii);
        double[] values = table.Get(Values);
        RadialTableProfileDesign made = new()
        {
            RadiiMetres = data?[RadiusColumn.Name] ?? radii,
            RelativeIrradiances = data?[IrradianceColumn.Name] ?? values,
        };
        if (table.IsSound)
        {
            CheckTable(table, made);
        }
        return made;
    }

    private static void CheckTable(TableReading table, RadialTableProfileDesign made)
    {
        int row = Sequence.FirstNotIncreasing(made.RadiiMetres);
        if (made.RadiiMetres.Count != made.RelativeIrradiances.Count)
        {
            string what =
                $"{table.Path} has {made.RadiiMetres.Count} radii and {made.RelativeIrradiances.Count} values";
            table.Fault(Values, what, "expected one value for each radius");
        }
        else if (row >= 0)
        {
            Field at = table.Has(TableFile) ? TableFile : Radii;
            string radius = Quantity.Format(made.RadiiMetres[row], "m");
            table.Fault(
                at,
                $"{table.PathOf(at.Key)}: radius {row} ({radius}, counted from 0) is not larger than the one before",
                "expected radii that strictly increase"
            );
        }
        else if (made.RelativeIrradiances.All(v => v == 0))
        {
            table.Fault(
                table.Has(TableFile) ? TableFile : Values,
                $"{table.Path} has no light",
                "expected at least one irradiance above zero"
            );
        }
    }
}
