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

    /// <summary>The optical surface of a sail.</summary>
    /// <param name="sail">A sail of this design.</param>
    public SurfaceDesign SurfaceOf(SailDesign sail) => Surfaces.First(s => s.Name == sail.SurfaceName);
}
