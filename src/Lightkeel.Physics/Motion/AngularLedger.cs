namespace Lightkeel.Physics.Motion;

/// <summary>
/// Account of the angular momentum about the nominal beam axis, laser's frame, of the centre of mass and about it: what it
/// gains is the angular impulse of everything that acts. A mirror of revolution that stays straight, or a mirror ball
/// about its centre, gets next to none from a round beam.
/// </summary>
/// <param name="Start">Angular momentum when the first light met the craft, kg m²/s.</param>
/// <param name="End">Angular momentum at the end, kg m²/s.</param>
/// <param name="Impulse">Angular impulse, integrated beside the motion, kg m²/s.</param>
public readonly record struct AngularLedger(double Start, double End, double Impulse)
{
    /// <summary>What the account is open by: zero but for the error of integration, kg m²/s.</summary>
    public double Imbalance => End - Start - Impulse;

    internal static AngularLedger Of(in RideState first, in RideState last, double massKilograms) =>
        new(
            first.AxialAngularMomentum(massKilograms),
            last.AxialAngularMomentum(massKilograms),
            last.AngularImpulse - first.AngularImpulse
        );
}
