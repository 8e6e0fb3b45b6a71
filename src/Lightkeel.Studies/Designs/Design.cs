using Lightkeel.Physics.Materials;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Designs;

/// <summary>A design exactly as its file says, checked, in SI units. It knows no physics.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed record Design
{
    /// <summary>Title for screens and reports.</summary>
    public required string Title { get; init; }

    /// <summary>The beam.</summary>
    public required BeamDesign Beam { get; init; }

    /// <summary>The reflecting surfaces of the craft, at least one.</summary>
    public required IReadOnlyList<SailDesign> Sails { get; init; }

    /// <summary>The optical surfaces.</summary>
    public required IReadOnlyList<SurfaceDesign> Surfaces { get; init; }

    /// <summary>The other masses of the craft.</summary>
    public required IReadOnlyList<MassDesign> Masses { get; init; }

    /// <summary>Measured mass properties; null when they are summed from the parts.</summary>
    public CraftDesign? Craft { get; init; }

    /// <summary>The state when the beam comes on.</summary>
    public required StartDesign Start { get; init; }

    /// <summary>How long the craft rides.</summary>
    public required RideDesign Ride { get; init; }

    /// <summary>The sources of noise.</summary>
    public required IReadOnlyList<NoiseDesign> Noises { get; init; }

    /// <summary>The times without light.</summary>
    public IReadOnlyList<DropOutDesign> DropOuts { get; init; } = [];

    /// <summary>The numbers that differ from ride to ride.</summary>
    public IReadOnlyList<ScatterDesign> Scatters { get; init; } = [];

    /// <summary>What acts besides light.</summary>
    public required SurroundingsDesign Surroundings { get; init; }

    /// <summary>Materials of the design's own.</summary>
    public IReadOnlyList<MaterialDesign> Materials { get; init; } = [];

    /// <summary>Safety factors and settings of the limits.</summary>
    public required LimitsDesign Limits { get; init; }

    /// <summary>What the mass budget adds to the parts.</summary>
    public required BudgetDesign Budget { get; init; }

    /// <summary>What the mission wants.</summary>
    public required MissionDesign Mission { get; init; }

    /// <summary>A material by name: of the design's own, else of the built-in table; null for no name.</summary>
    /// <param name="name">A name that the reader accepted, or null.</param>
    public Material? MaterialOf(string? name) =>
        name is null ? null : Materials.FirstOrDefault(m => m.Name == name)?.ToMaterial() ?? MaterialTable.Find(name);

    /// <summary>The optical surface of a sail.</summary>
    /// <param name="sail">A sail of this design.</param>
    public SurfaceDesign SurfaceOf(SailDesign sail) => Surfaces.First(s => s.Name == sail.SurfaceName);
}
