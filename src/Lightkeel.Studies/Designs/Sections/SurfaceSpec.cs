using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>The keys of <c>[surface.NAME]</c>.</summary>
internal static class SurfaceSpec
{
    /// <summary>Allowance for fractions that should sum to one but were rounded in decimal.</summary>
    private const double SumTolerance = 1e-12;

    private static readonly NumberKind Fraction = NumberKind.Pure(Interval.Fraction, "0.05");

    private static readonly OptionalNumberField EmissivityLit = new(
        "emissivity_lit",
        Fraction,
        "Emissivity of the lit side; without it the surface has no known temperature and both sides radiate alike."
    );

    private static readonly OptionalNumberField EmissivityBack = new(
        "emissivity_back",
        Fraction,
        "Emissivity of the other side."
    );

    private static readonly NumberField Specular = new(
        "specular",
        Fraction,
        "Fraction of the light reflected as by a mirror."
    );

    private static readonly NumberField Diffuse = new(
        "diffuse",
        Fraction,
        "Fraction of the light reflected diffusely.",
        0
    );

    private static readonly NumberField Absorbed = new("absorbed", Fraction, "Fraction of the light absorbed.", 0);

    private static readonly ChoiceField<SurfaceDesign> Kind = ChoiceField<SurfaceDesign>
        .Of("kind", "How the surface is described.")
        .Or(
            "mirror",
            new TableSpec<MirrorSurfaceDesign>(
                "Perfect mirror.",
                [],
                t => Emitting(t, new MirrorSurfaceDesign { Name = t.Segment })
            )
        )
        .Or(
            "coefficients",
            new TableSpec<CoefficientsSurfaceDesign>(
                "Constant fractions; what they leave of 1 passes straight through.",
                [Specular, Diffuse, Absorbed],
                BuildCoefficients
            )
        )
        .Or(
            "film",
            new TableSpec<FilmSurfaceDesign>(
                "Plane layers; what they reflect, pass and absorb follows from incidence and wavelength (unpolarised light).",
                FilmSpec.Fields,
                t => Emitting(t, FilmSpec.Build(t))
            )
        );

    /// <summary>The section.</summary>
    public static NamedTablesField<SurfaceDesign> Section { get; } =
        new(
            "surface",
            new TableSpec<SurfaceDesign>(
                "What a surface does with light.",
                [Kind, EmissivityLit, EmissivityBack, HeatLawSpec.Section],
                t => Kind.Read(t)!,
                new AllOrNone(EmissivityLit, EmissivityBack)
            )
        );

    private static CoefficientsSurfaceDesign BuildCoefficients(TableReading table)
    {
        CoefficientsSurfaceDesign surface = Emitting(
            table,
            new CoefficientsSurfaceDesign
            {
                Name = table.Segment,
                Specular = table.Get(Specular),
                Diffuse = table.Get(Diffuse),
                Absorbed = table.Get(Absorbed),
            }
        );
        double sum = surface.Specular + surface.Diffuse + surface.Absorbed;
        if (table.IsSound && sum > 1 + SumTolerance)
        {
            table.Fault(
                Specular,
                $"{table.Path}: specular, diffuse and absorbed sum to {Quantity.Format(sum, "")}",
                "expected a sum of 1 or less; the rest passes through"
            );
        }
        if (table.IsSound && surface.Absorbed > 0 && surface.EmissivityLit + surface.EmissivityBack == 0)
        {
            table.Fault(
                EmissivityLit,
                $"{table.Path} absorbs light but neither side radiates",
                "expected emissivity_lit or emissivity_back above 0"
            );
        }
        return surface;
    }

    private static T Emitting<T>(TableReading table, T surface)
        where T : SurfaceDesign =>
        surface with
        {
            EmissivityLit = table.Get(EmissivityLit),
            EmissivityBack = table.Get(EmissivityBack),
            Heat = table.Get(HeatLawSpec.Section),
        };
}
