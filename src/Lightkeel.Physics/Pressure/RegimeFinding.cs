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
                : Share > 0 ? FormattableString.Invariant($", about {100 * Share:G2} % of the rays of '{Actor}'")
                : FormattableString.Invariant($", less than {300.0 / Math.Max(1, Rays):G2} % of the rays of '{Actor}'");
            return $"at {RegimeStatement.Degrees(TiltRadians)} from body +z, {what}{share}";
        }
    }
}
