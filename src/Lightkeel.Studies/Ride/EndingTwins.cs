using System.Text.Json.Serialization;
using Lightkeel.Numerics.Sampling.Statistics;

namespace Lightkeel.Studies.Ride;

/// <summary>
/// Rides of an ensemble flown again, with finer steps or with other forces, and what became of their endings. A ride in strong
/// noise may be too sensitive for any accuracy while the share of rides held is not: this says whether it is.
/// </summary>
/// <param name="Rides">Rides flown again: the first of the ensemble that had an end to compare.</param>
/// <param name="HeldToLost">Of these, held before and lost now.</param>
/// <param name="LostToHeld">Lost before and held now.</param>
/// <param name="ShiftFraction">By how much their held fraction moved.</param>
/// <param name="ShiftInterval95">Interval of 95 % for that move over all rides, by Clopper–Pearson on either way of change; the move itself where all were flown.</param>
/// <param name="HeldFractionStands">
/// False where the held fraction so moved leaves its interval, and not by the chance of few twins: the sign test gives changes as
/// one-sided as these in fewer than 1 of 40 cases, or all rides were flown again.
/// </param>
public sealed record EndingTwins(
    [property: JsonPropertyName("rides")] long Rides,
    [property: JsonPropertyName("held_to_lost")] long HeldToLost,
    [property: JsonPropertyName("lost_to_held")] long LostToHeld,
    [property: JsonPropertyName("held_fraction_shift")] double ShiftFraction,
    [property: JsonPropertyName("held_fraction_shift95")] double[] ShiftInterval95,
    [property: JsonPropertyName("held_fraction_stands")] bool HeldFractionStands
)
{
    private const double OneSided = 0.025;

    /// <summary>Endings that changed.</summary>
    [JsonIgnore]
    public long Changed => HeldToLost + LostToHeld;

    /// <summary>Judges twins.</summary>
    /// <param name="all">Rides of the ensemble.</param>
    /// <param name="held">Of these, held.</param>
    /// <param name="interval">Interval of the held fraction.</param>
    /// <param name="twins">Rides flown again, 1 or more.</param>
    /// <param name="heldToLost">Of these, held before and lost now.</param>
    /// <param name="lostToHeld">Lost before and held now.</param>
    public static EndingTwins Of(
        long all,
        long held,
        ConfidenceInterval interval,
        long twins,
        long heldToLost,
        long lostToHeld
    )
    {
        double shift = (double)(lostToHeld - heldToLost) / twins;
        bool isWhole = twins == all;
        double moved = (double)held / all + shift;
        bool leaves = moved < interval.Lower || moved > interval.Upper;
        bool isOneSided = SignTest(heldToLost, lostToHeld) <= OneSided;
        return new(
            twins,
            heldToLost,
            lostToHeld,
            shift,
            isWhole
                ? [shift, shift]
                :
                [
                    -Proportion.ClopperPearson(heldToLost, twins).Upper,
                    Proportion.ClopperPearson(lostToHeld, twins).Upper,
                ],
            !(leaves && (isWhole || isOneSided))
        );
    }

    // Probability that of all changes so many or more go one way, when both ways are alike: a binomial tail.
    private static double SignTest(long one, long other)
    {
        long changes = one + other;
        double term = Math.Pow(0.5, changes);
        double sum = 0;
        for (long k = 0; k <= Math.Min(one, other); k++)
        {
            sum += term;
            term *= (double)(changes - k) / (k + 1);
        }
        return Math.Min(1, sum);
    }
}
