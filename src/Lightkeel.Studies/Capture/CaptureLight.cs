using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>The light pressure of a thousand rides: an atlas where the symmetry allows one, else what the user asked for.</summary>
internal static class CaptureLight
{
    // A grid of starts asks for more forces than any atlas costs.
    private const double Evaluations = 1e9;

    // Rides forget errors of the force below this long before their own tolerance matters.
    private const double CoarsestAccuracy = 1e-7;

    public static IPressureEngine Build(string name, RideModel ride, NoisePlan noise, StudyContext context)
    {
        double accuracy = Math.Max(CoarsestAccuracy, context.Accuracy);
        return RideEngine.For(name, ride, new(Evaluations, noise, accuracy, context.Threads, Store: null));
    }
}
