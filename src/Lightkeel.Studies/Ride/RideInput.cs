using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>How the steps of a ride are chosen.</summary>
public enum RideStepping
{
    /// <summary>Fixed steps where there is noise, else adaptive ones.</summary>
    Automatic,

    /// <summary>Adaptive steps of high order.</summary>
    Adaptive,

    /// <summary>Fixed steps of a symmetric splitting.</summary>
    Fixed,
}

/// <summary>Input of <see cref="RideStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="Engine">auto, atlas, quadrature or reference.</param>
public sealed record RideInput(OpenedDesign Design, string Engine = "auto")
{
    /// <summary>Number of rides of an ensemble; null for a single ride.</summary>
    public long? Rides { get; init; }

    /// <summary>Number of the ride, from 0: which random numbers it has.</summary>
    public ulong RideNumber { get; init; }

    /// <summary>True when a single ride starts as that ride of an ensemble would, false for the design's own start.</summary>
    public bool IsScattered { get; init; }

    /// <summary>How steps are chosen.</summary>
    public RideStepping Stepping { get; init; }

    /// <summary>Length of fixed steps, s; null to choose it.</summary>
    public double? StepSeconds { get; init; }

    /// <summary>Order of fixed steps, 2 or 4; null to choose it.</summary>
    public int? Order { get; init; }

    /// <summary>Tolerance of adaptive steps.</summary>
    public double Tolerance { get; init; } = 1e-9;

    /// <summary>Most steps of one ride.</summary>
    public long StepLimit { get; init; } = 10_000_000;

    /// <summary>Time between records of a single ride, s; null to choose it.</summary>
    public double? RecordEverySeconds { get; init; }

    /// <summary>True to leave noises and drop-outs out.</summary>
    public bool IsCalm { get; init; }

    /// <summary>Folder in which atlases are kept between runs; null for none.</summary>
    public string? AtlasCacheFolder { get; init; }

    /// <summary>True to fly twins of the first ride, with finer steps and with other forces, and report how much they differ.</summary>
    public bool WithConvergence { get; init; } = true;

    /// <summary>Scatters beside those of the design.</summary>
    public IReadOnlyList<ScatterDesign> Scatters { get; init; } = [];
}
