using System.Globalization;

namespace Lightkeel.Physics.Pressure;

/// <summary>How a verdict about single bounces is known.</summary>
public enum RegimeCertainty
{
    /// <summary>By a proof for the geometry as given (docs/design/light-regimes.md).</summary>
    Proven,

    /// <summary>By the same proof, at its very edge (within 1e-9 rad): rays graze, none carries power to a second bounce.</summary>
    AtLimit,

    /// <summary>By a deterministic search with rays, which found no second meeting; the sentence gives their number.</summary>
    Sampled,
}

/// <summary>Which side of a surface takes light in one pose, by the front normal of its meridian.</summary>
public enum LitSide
{
    /// <summary>The side that the front normal leaves; the side that faces the laser at zero tilt.</summary>
    Front,

    /// <summary>The other side.</summary>
    Back,
}

/// <summary>Whether light of one direction meets the craft once only. The default value is a refusal without a finding.</summary>
public readonly struct RegimeVerdict
{
    private readonly RegimeStatement? _statement;
    private readonly double _tiltRadians;

    internal RegimeVerdict(RegimeStatement statement, double tiltRadians)
    {
        _statement = statement;
        _tiltRadians = tiltRadians;
    }

    /// <summary>True when single-bounce quadrature over the lit sides is the whole of the light.</summary>
    public bool IsSingleBounce => _statement is { IsSingleBounce: true };

    /// <summary>How that is known.</summary>
    public RegimeCertainty Certainty => _statement?.Certainty ?? RegimeCertainty.Proven;

    /// <summary>One full sentence or more: the surface, the angle found, what would be accepted, and the way out.</summary>
    public string Reason => _statement?.Text(_tiltRadians) ?? "No light direction was given.";
}

/// <summary>A verdict's sentence, put together only when somebody reads it.</summary>
/// <param name="IsSingleBounce">The verdict.</param>
/// <param name="Certainty">How it is known.</param>
/// <param name="Before">The sentence up to the angle.</param>
/// <param name="After">The rest of the sentence, or null when no angle belongs in it.</param>
internal sealed record RegimeStatement(
    bool IsSingleBounce,
    RegimeCertainty Certainty,
    string Before,
    string? After = null
)
{
    public string Text(double tiltRadians) => After is null ? Before : Before + Degrees(tiltRadians) + After;

    public static string Degrees(double radians) =>
        double.RadiansToDegrees(radians).ToString("0.######", CultureInfo.InvariantCulture) + "°";
}
