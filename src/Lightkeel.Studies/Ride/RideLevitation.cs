using System.Text.Json.Serialization;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Ride;

/// <summary>Where the light of an upward beam carries the weight of the straight craft on the axis, at nominal power.</summary>
/// <param name="Text">What was found, in words; where there is no height, why, and what to change.</param>
/// <param name="Heights">The heights, lowest first.</param>
public sealed record RideLevitation(
    [property: JsonPropertyName("text")] string Text,
    [property: JsonPropertyName("heights")] IReadOnlyList<RideLevitationHeight> Heights
)
{
    internal static RideLevitation? Of(RideSetup setup)
    {
        if (WhyNot(setup) is not null)
        {
            return null;
        }
        LevitationHeights found = LevitationHeights.Find(setup);
        return new(
            found.Explanation,
            [
                .. found.Heights.Select(h => new RideLevitationHeight(
                    h.DistanceMetres,
                    h.RangeMetres,
                    h.BeamScale,
                    h.StiffnessNewtonsPerMetre,
                    h.FrequencyHertz
                )
                {
                    FrequencyReason = h.FrequencyHertz is null ? "The craft does not return to this height." : null,
                }),
            ]
        );
    }

    internal static string? WhyNot(RideSetup setup) =>
        setup.GravityMetresPerSecondSquared == 0 ? "There is no gravity (surroundings.gravity)." : null;
}

/// <summary>A height at which the light carries the weight.</summary>
/// <param name="DistanceMetres">Along the beam from the start, m.</param>
/// <param name="RangeMetres">From the director, m.</param>
/// <param name="BeamScaleRatio">Size of the beam there over its designed size.</param>
/// <param name="StiffnessNewtonsPerMetre">Returning force by height, N/m; negative where the craft does not return.</param>
/// <param name="FrequencyHertz">Frequency of small vertical swings, Hz; null where the craft does not return.</param>
public sealed record RideLevitationHeight(
    [property: JsonPropertyName("distance_m")] double DistanceMetres,
    [property: JsonPropertyName("range_m")] double RangeMetres,
    [property: JsonPropertyName("beam_scale")] double BeamScaleRatio,
    [property: JsonPropertyName("stiffness_N_m")] double StiffnessNewtonsPerMetre,
    [property: JsonPropertyName("frequency_Hz")] double? FrequencyHertz
)
{
    /// <summary>Why there is no frequency.</summary>
    [JsonPropertyName("frequency_Hz_reason"), JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public string? FrequencyReason { get; init; }
}
