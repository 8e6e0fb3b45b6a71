using System.Globalization;

namespace Lightkeel.Physics.Pressure;

/// <summary>How light meets a second surface.</summary>
internal enum RegimeEffect
{
    /// <summary>The first surface stands before the second in the incoming light.</summary>
    Shades,

    /// <summary>A mirror ray of the first surface meets the second.</summary>
    Reflects,

    /// <summary>The first surface scatters diffusely and sees the second.</summary>
    Scatters,
}

/// <summary>A second meeting of light, found by rays.</summary>
/// <param name="Effect">What happens.</param>
/// <param name="Actor">Name of the first surface.</param>
/// <param name="Other">Name of the second surface.</param>
/// <param name="Share">Share of the first surface's rays concerned; 0 when only a directed search found one.</param>
/// <param name="Rays">Number of rays behind that share.</param>
/// <param name="TiltRadians">Angle of the light from body +z, rad.</param>
internal sealed record RegimeFinding(
    RegimeEffect Effect,
    string Actor,
    string Other,
    double Share,
    int Rays,
    double TiltRadians
)
{
    public string Clause
    {
        get
        {
            string what = Effect switch
            {
                RegimeEffect.Shades => $"'{Actor}' stands in the light of '{Other}'",
                RegimeEffect.Reflects => $"light reflected by '{Actor}' meets '{Other}'",
                _ => $"light scattered by '{Actor}' meets '{Other}'",
            };
            string share =
                Effect == RegimeEffect.Scatters ? ""
                : Share > 0 ? FormattableString.Invariant($", about {Percent(100 * Share)} % of the rays of '{Actor}'")
                : FormattableString.Invariant(
                    $", less than {Percent(300.0 / Math.Max(1, Rays))} % of the rays of '{Actor}'"
                );
            return $"at {RegimeStatement.Degrees(TiltRadians)} from body +z, {what}{share}";
        }
    }

    // Two digits are all that a few thousand rays can tell; by the rule of three none of n says less than 3/n.
    private static string Percent(double value) =>
        value >= 10
            ? Math.Round(value).ToString(CultureInfo.InvariantCulture)
            : value.ToString("G2", CultureInfo.InvariantCulture);
}
