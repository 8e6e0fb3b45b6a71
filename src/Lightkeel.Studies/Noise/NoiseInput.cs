using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Noise;

/// <summary>Input of <see cref="NoiseStudy"/>.</summary>
/// <param name="Design">The opened design.</param>
/// <param name="Engine">auto, quadrature or reference.</param>
public sealed record NoiseInput(OpenedDesign Design, string Engine = "auto")
{
    /// <summary>Loss probability of a boost that may be spent, strictly between 0 and 1.</summary>
    public double LossProbability { get; init; } = 1e-3;

    /// <summary>Reduced rides across the beam; 0 for none.</summary>
    public int Rides { get; init; } = 200;

    /// <summary>Rides of the full equations; 0 for none.</summary>
    public int FullRides { get; init; }

    /// <summary>Paths of a splitting for rare losses; 0 for none.</summary>
    public int Particles { get; init; }

    /// <summary>Independent repetitions of the splitting.</summary>
    public int Repetitions { get; init; } = 12;

    /// <summary>Time that a steering loop takes to sense and act beside the light's way, s.</summary>
    public double SensingSeconds { get; init; }

    /// <summary>Base points of the tolerance study over the design's scatters; 0 for none.</summary>
    public int ToleranceSamples { get; init; }
}
