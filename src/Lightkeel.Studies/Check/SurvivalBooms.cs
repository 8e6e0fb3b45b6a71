using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Rods as booms: the sail pushes or pulls what they carry.</summary>
internal static class SurvivalBooms
{
    private static readonly string[] Names = ["boom-strength", "boom-buckling", "boom-frequency"];

    public static IReadOnlyList<CheckedBoom> Of(SurvivalScene scene)
    {
        List<CheckedBoom> booms = [];
        foreach (MassDesign mass in scene.Model.Design.Masses)
        {
            if (mass.Shape is RodMassDesign rod && One(scene, mass, rod) is { } boom)
            {
                booms.Add(boom);
            }
        }
        return booms;
    }

    private static CheckedBoom? One(SurvivalScene scene, MassDesign mass, RodMassDesign rod)
    {
        Material? material = scene.Model.Design.MaterialOf(mass.MaterialName);
        if (
            rod is not { OuterRadiusMetres: { } radius, WallMetres: { } wall }
            || material?.Value(MaterialProperty.YoungsModulus) is not { } young
        )
        {
            foreach (string name in Names)
            {
                scene.Limits.Add(
                    LimitReading.NotAssessed(
                        name,
                        mass.Name,
                        "give outer_radius, wall and a material with youngs_modulus"
                    )
                );
            }
            return null;
        }
        Tube tube = new(rod.LengthMetres, radius, wall);
        Vec3 along = new Placement(mass.PositionMetres, mass.TurnRadians).BodyFromPart * rod.Direction;
        (double tip, double load, double own) = Load(scene, mass, rod, along);
        double buckling = tube.BucklingLoad(young);
        double pressing = Math.Max(0, -(load - own) - Tube.OwnWeightShare * Math.Min(0, own));
        double stress = Math.Abs(load) / tube.AreaSquareMetres;
        double frequency =
            mass.MassKilograms > 0
                ? tube.BendingFrequency(
                    young,
                    mass.MassKilograms,
                    tip,
                    // Its own weight softens it as it buckles it: by the rule of Dunkerley.
                    load - own + Tube.OwnWeightShare * own
                )
                : 0;
        AddStrength(scene, mass, material, stress, load);
        scene.Limits.Add(
            LimitReading.Upper(
                "boom-buckling",
                mass.Name,
                pressing > 0
                    ? "Axial load against the Euler load; root clamped, tip free; its own weight counts by the rule of Dunkerley."
                    : "The boom is pulled, not pressed.",
                pressing,
                buckling,
                scene.Settings.BoomBucklingFactor,
                Dimension.OfForce,
                "Euler column, Theory of Elastic Stability, 2nd ed. (1961), chapter 2"
            )
        );
        AddFrequency(scene, mass, frequency);
        double? tubeMass = material.Value(MaterialProperty.Density) is { } density ? tube.Mass(density) : null;
        bool heavy = mass.MassKilograms > 0;
        (double? bent, string? straight) = Bent(scene, tube, young, tip, mass.MassKilograms);
        return new(
            mass.Name,
            tip,
            load,
            buckling,
            stress,
            frequency,
            heavy ? tube.SecondBendingFrequency(young, mass.MassKilograms, tip) : 0,
            heavy ? tube.FreeBendingFrequency(young, mass.MassKilograms) : 0,
            bent,
            straight,
            tubeMass,
            tubeMass is null ? "The material has no density." : null
        );
    }

    // At a tilt of the craft the acceleration has a part across the boom; the tip and 3/8 of the boom weigh in it.
    private static (double? Metres, string? Reason) Bent(
        SurvivalScene scene,
        Tube tube,
        double young,
        double tip,
        double own
    )
    {
        StartDesign start = scene.Model.Design.Start;
        double tilt = double.Hypot(start.TiltXRadians, start.TiltYRadians);
        double across = Math.Abs(scene.Acceleration * Math.Sin(tilt)) * (tip + 0.375 * own);
        double parameter = across * tube.LengthMetres * tube.LengthMetres / (young * tube.SecondMoment);
        return parameter > 100
            ? (null, "At the tilt of the start the boom folds: it is no beam there.")
            : (BentBoom.Under(parameter).DeflectionShare * tube.LengthMetres, null);
    }

    private static void AddStrength(SurvivalScene scene, MassDesign mass, Material material, double stress, double load)
    {
        if (material.Find(MaterialProperty.TensileStrength) is not { } strength)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed("boom-strength", mass.Name, "give its material a tensile_strength")
            );
            return;
        }
        scene.Limits.Add(
            LimitReading.Upper(
                "boom-strength",
                mass.Name,
                load >= 0 ? "Axial tension at the root." : "Axial pressure at the root, against the tensile strength.",
                stress,
                strength.Value,
                scene.Settings.BoomStrengthFactor,
                Dimension.OfPressure,
                strength.Text
            )
        );
    }

    private static void AddFrequency(SurvivalScene scene, MassDesign mass, double frequency)
    {
        if (scene.FastestHertz == 0)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed(
                    "boom-frequency",
                    mass.Name,
                    "no rigid-body mode swings, so there is none to compare with"
                )
            );
            return;
        }
        scene.Limits.Add(
            LimitReading.Lower(
                "boom-frequency",
                mass.Name,
                "First bending frequency against the fastest rigid-body mode: a boom that bends along with it makes the rigid verdict doubtful.",
                frequency,
                scene.FastestHertz,
                scene.Settings.BoomFrequencyFactor,
                Dimension.OfFrequency,
                "the rigid-body modes of this check"
            )
        );
    }

    // The end nearer to a sail is the root. What sits at or beyond the other end hangs on the tip; the load at the root is that of
    // the tip and of the boom itself, positive when the acceleration pulls them.
    private static (double Tip, double LoadNewtons, double OwnNewtons) Load(
        SurvivalScene scene,
        MassDesign mass,
        RodMassDesign rod,
        Vec3 along
    )
    {
        Vec3 half = 0.5 * rod.LengthMetres * along;
        double Near(Vec3 end) => scene.Films.Min(f => (end - f.Surface.OriginMetres).Length);
        bool rootAtStart = Near(mass.PositionMetres - half) <= Near(mass.PositionMetres + half);
        Vec3 outward = rootAtStart ? along : -1 * along;
        Vec3 root = mass.PositionMetres - 0.5 * rod.LengthMetres * outward;
        double tip = scene
            .Model.Design.Masses.Where(m =>
                m.Name != mass.Name && Vec3.Dot(m.PositionMetres - root, outward) >= 0.9 * rod.LengthMetres
            )
            .Sum(m => m.MassKilograms);
        // The light accelerates the craft along its own +z; a tip on the laser's side is dragged, one behind is pushed.
        double acceleration = scene.Acceleration * (scene.Pose.BeamFromBody * outward).Z;
        double own = -acceleration * mass.MassKilograms;
        return (tip, own - acceleration * tip, own);
    }
}
