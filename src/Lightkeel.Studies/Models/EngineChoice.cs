using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Models;

/// <summary>The light-pressure engines that a user may ask for by name.</summary>
public static class EngineChoice
{
    /// <summary>The option, shared by the studies that compute forces at poses.</summary>
    public static StudyOption<string> Option { get; } =
        Catalogue.Option.Choice(
            "engine",
            "Which engine computes the light pressure: quadrature (fast, to the asked accuracy) or reference (plain sums, slow, to look at when a number is doubted); auto picks.",
            "auto",
            "quadrature",
            "reference"
        ) with
        {
            Default = "auto",
        };

    /// <summary>Builds an engine.</summary>
    /// <param name="name">auto, quadrature or reference.</param>
    /// <param name="model">Craft and beam.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    public static IPressureEngine Build(string name, DesignModel model, double accuracy) =>
        name == "reference"
            ? new ReferencePressure(model.Craft, model.Beam)
            : new SurfaceQuadrature(model.Craft, model.Beam, accuracy);
}
