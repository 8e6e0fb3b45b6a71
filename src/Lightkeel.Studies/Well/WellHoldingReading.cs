using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Well;

/// <summary>Reads the scale of the holding time off a well.</summary>
internal static class WellHoldingReading
{
    private const int DecadesEachSide = 3;

    private const string Text =
        "Scale of the harmonic well: mean time from rest until pointing noise, alike and independent along x and y, has brought the swings to the energy of the lowest pass. A well softens towards its rim and is heated otherwise there; noise of power and width, drag and the falling push are left out. ride --rides counts losses.";

    public static WellHolding? Of(DesignModel model, double depth, double lowHertz, double highHertz)
    {
        double mass = model.Craft.Mass.MassKilograms;
        double Seconds(double low, double high) =>
            depth / HoldingScale.HeatingWatts(mass, (lowHertz, low), (highHertz, high));
        double unit = Seconds(1, 1);
        double ride = model.Design.Ride.DurationSeconds;
        double middle = Math.Floor(Math.Log10(unit / ride));
        if (!double.IsFinite(middle))
        {
            return null;
        }
        double[] levels =
        [
            .. Enumerable.Range(-DecadesEachSide, 2 * DecadesEachSide + 1).Select(k => Math.Pow(10, middle + k)),
        ];
        (double lowOwn, double highOwn) = (OwnDensity(model, lowHertz), OwnDensity(model, highHertz));
        bool shakes = lowOwn > 0 || highOwn > 0;
        string? none =
            shakes ? null
            : model.Design.Noises.Count == 0 ? "The design names no noise."
            : "No pointing noise of the design reaches the frequency of the swing.";
        return new()
        {
            Text = Text,
            Levels = [.. levels.Select(s => new WellHoldingLevel(s, unit / s))],
            OwnDensityPerHertz = shakes ? lowOwn : null,
            OwnDensityReason = none,
            OwnSeconds = shakes ? Seconds(lowOwn, highOwn) : null,
            OwnReason = none,
            RideSeconds = ride,
        };
    }

    // Angles become lengths by the range at the start of the boost.
    private static double OwnDensity(DesignModel model, double hertz)
    {
        double range = model.Design.Beam.Director?.StandoffMetres ?? 0;
        return NoiseModel
            .SourcesOf(model.Design)
            .Sum(n =>
                n.Quantity switch
                {
                    NoiseQuantity.PointingLength => n.Spectrum.At(hertz),
                    NoiseQuantity.PointingAngle => range * range * n.Spectrum.At(hertz),
                    _ => 0,
                }
            );
    }
}
