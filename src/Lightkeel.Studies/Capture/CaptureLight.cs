using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>The light pressure of a thousand rides: an atlas where the symmetry allows one, else what the user asked for.</summary>
internal static class CaptureLight
{
    // A tilt beyond it is lost on any craft of interest; what light meets more than once is cut off by the atlas itself.
    private const double LargestTilt = 0.7;

    // Rides forget errors of the force below this long before their own tolerance matters.
    private const double CoarsestAccuracy = 1e-7;

    public static IPressureEngine Build(string name, DesignModel model, StudyContext context)
    {
        IPressureEngine plain = EngineChoice.Build(name, model, context.Accuracy);
        if (name != "auto" || !model.Craft.IsAxisymmetric || !model.Beam.Profile.IsAxisymmetric)
        {
            return plain;
        }
        double offset = model.Design.Ride.LostAtMetres ?? model.Beam.Profile.ExtentMetres;
        double tilt = Math.Min(LargestTilt, model.Design.Ride.TiltLimitRadians ?? LargestTilt);
        try
        {
            return PressureAtlas.Build(
                model.Craft,
                model.Beam,
                new(offset, tilt),
                Math.Max(CoarsestAccuracy, context.Accuracy),
                context.Threads
            );
        }
        catch (PressureUnavailableException)
        {
            return plain;
        }
    }
}
