using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;
using Lightkeel.Physics.Optics.Indices;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models;

/// <summary>The physical models that a design describes. Immutable; safe to share between threads.</summary>
/// <param name="Design">The design.</param>
/// <param name="Craft">The rigid craft with its surfaces.</param>
/// <param name="Beam">The beam at the slice.</param>
/// <param name="Parts">Everything that was summed to the craft's mass; empty where it was given as measured.</param>
public sealed record DesignModel(Design Design, SailCraft Craft, Beam Beam, IReadOnlyList<MassPart> Parts)
{
    /// <summary>Builds the models.</summary>
    /// <exception cref="InputRefusedException">The parts do not make a craft or a beam; the message says where.</exception>
    public static DesignModel Build(Design design)
    {
        ArgumentNullException.ThrowIfNull(design);
        List<PlacedSurface> surfaces = [];
        List<MassPart> parts = [];
        foreach (SailDesign sail in design.Sails)
        {
            SurfaceOfRevolution shape = Guarded($"sail.{sail.Name}", () => ShapeOf(sail.Shape));
            Placement placement = new(sail.PositionMetres, sail.TurnRadians);
            SurfaceOptics optics = Guarded(
                $"surface.{sail.SurfaceName}",
                () => OpticsOf(design.SurfaceOf(sail), design.Beam.WavelengthMetres)
            );
            surfaces.Add(new(sail.Name, shape, optics, placement.OriginMetres, placement.BodyFromPart));
            parts.Add(new ThinShell(sail.Name, shape, sail.ArealDensityKilogramsPerSquareMetre, placement));
        }
        parts.AddRange(design.Masses.Select(mass => Guarded($"mass.{mass.Name}", () => MassOf(mass))));
        MassProperties mass = design.Craft is { } measured
            ? Guarded(
                "craft",
                () =>
                    MassAssembly.Measured(
                        measured.MassKilograms,
                        measured.CenterOfMassMetres,
                        measured.InertiaKilogramSquareMetres()
                    )
            )
            : Guarded("mass", () => MassAssembly.Sum(parts));
        Beam beam = new(
            design.Beam.PowerWatts,
            design.Beam.WavelengthMetres,
            Guarded("beam", () => ProfileOf(design.Beam.Profile))
        );
        return new(design, new(surfaces, mass), beam, design.Craft is null ? parts : []);
    }

    private static SurfaceOfRevolution ShapeOf(ShapeDesign shape) =>
        shape switch
        {
            DiscShapeDesign s => new Disc(s.RadiusMetres, s.InnerRadiusMetres),
            ConeShapeDesign s => new Cone(s.RadiusMetres, s.HalfAngleRadians, SideOf(s.TowardLaser)),
            FrustumShapeDesign s => new Cone(
                s.RadiusMetres,
                s.HalfAngleRadians,
                SideOf(s.TowardLaser),
                s.SmallRadiusMetres
            ),
            CapShapeDesign s => new SphericalCap(s.CurvatureRadiusMetres, s.RimAngleRadians, SideOf(s.TowardLaser)),
            ParaboloidShapeDesign s => new Paraboloid(s.FocalLengthMetres, s.RadiusMetres, SideOf(s.TowardLaser)),
            SphereShapeDesign s => new Sphere(s.RadiusMetres),
            ProfileShapeDesign s => new Profile([.. s.RadiiMetres], [.. s.HeightsMetres]),
            _ => throw new ArgumentException($"The shape {shape.GetType().Name} has no model."),
        };

    private static LaserSide SideOf(TowardLaser toward) =>
        toward == TowardLaser.Mouth ? LaserSide.Mouth : LaserSide.Vertex;

    private static SurfaceOptics OpticsOf(SurfaceDesign surface, double wavelengthMetres)
    {
        double lit = surface.EmissivityLit ?? 0;
        double back = surface.EmissivityBack ?? 0;
        return surface switch
        {
            CoefficientsSurfaceDesign c => new OpticalCoefficients(c.Specular, c.Diffuse, c.Absorbed, lit, back),
            FilmSurfaceDesign film => new FilmOptics(
                new LayeredFilm(film.InOrder.Select(l => new FilmLayer(IndexOf(l), l.ThicknessMetres))),
                wavelengthMetres,
                lit,
                back
            ),
            _ => new OpticalCoefficients(1, 0, 0, lit, back),
        };
    }

    private static RefractiveIndex IndexOf(FilmLayerDesign layer)
    {
        RefractiveIndex index =
            layer.Rows.Count > 0
                ? new TabulatedIndex([.. layer.Rows.Select(r => new IndexRow(r.WavelengthMetres, r.N, r.K))])
            : layer.Index is { } n ? new ConstantIndex(n)
            : IndexTable.Find(layer.IndexMaterialName!)!.Index;
        return layer.Extinction is { } k ? new AbsorbingIndex(index, k) : index;
    }

    private static MassPart MassOf(MassDesign mass)
    {
        Placement placement = new(mass.PositionMetres, mass.TurnRadians);
        return mass.Shape switch
        {
            PointMassDesign => new PointMass(mass.Name, mass.MassKilograms, placement),
            SphereMassDesign s => new SphereMass(
                mass.Name,
                mass.MassKilograms,
                s.RadiusMetres,
                s.IsSolid ? 0 : s.RadiusMetres,
                placement
            ),
            RodMassDesign s => new RodMass(mass.Name, mass.MassKilograms, s.LengthMetres, s.Direction, placement),
            RingMassDesign s => new RingMass(mass.Name, mass.MassKilograms, s.RadiusMetres, s.Direction, placement),
            BoxMassDesign s => new BoxMass(mass.Name, mass.MassKilograms, s.SizeMetres, placement),
            _ => throw new ArgumentException($"The mass shape {mass.Shape.GetType().Name} has no model."),
        };
    }

    private static IBeamProfile ProfileOf(ProfileDesign profile) =>
        profile switch
        {
            GaussianProfileDesign p => new GaussianProfile(p.WaistMetres),
            SuperGaussianProfileDesign p => new SuperGaussianProfile(p.WaistMetres, p.Order),
            RingProfileDesign p => new RingProfile(p.RadiusMetres, p.WidthMetres),
            LaguerreGaussProfileDesign p => new LaguerreGaussProfile(p.WaistMetres, p.P, p.L),
            RadialTableProfileDesign p => new RadialTableProfile([.. p.RadiiMetres], [.. p.RelativeIrradiances]),
            SumProfileDesign p => new SumProfile([
                .. p.Parts.Select(t => new BeamPart(ProfileOf(t.Profile), t.Share, t.OffsetXMetres, t.OffsetYMetres)),
            ]),
            _ => throw new ArgumentException($"The beam profile {profile.GetType().Name} has no model."),
        };

    // The reader checks each number; what only the models can see (a beam that would be dark somewhere, a craft without
    // inertia) comes back as one fault with its place in the file.
    internal static T Guarded<T>(string where, Func<T> build)
    {
        try
        {
            return build();
        }
        catch (ArgumentException e)
        {
            string message = e.Message;
            int tail = message.IndexOf(" (Parameter", StringComparison.Ordinal);
            throw new InputRefusedException(where, tail < 0 ? message : message[..tail]);
        }
    }
}
