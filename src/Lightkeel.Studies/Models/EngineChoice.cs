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

    /// <summary>The option of studies that fly: the atlas beside the others.</summary>
    public static StudyOption<string> RideOption { get; } =
        Catalogue.Option.Choice(
            "engine",
            "Which engine computes the light pressure: atlas (a table with a proven error, very fast once it is built, for axisymmetric craft in axisymmetric beams and for balls in any beam), quadrature, or reference (plain sums, slow); auto takes the atlas where it can serve and the work is worth building it.",
            "auto",
            "atlas",
            "quadrature",
            "reference"
        ) with
        {
            Default = "auto",
        };

    /// <summary>Where atlases are kept between runs.</summary>
    public static StudyOption<string> AtlasCacheOption { get; } =
        Catalogue.Option.Text(
            "atlas-cache",
            "Keeps atlases in this folder, named by the SHA-256 of what they are made of, and reads them from there; a damaged file is built again. Without it they live as long as the program.",
            "DIR"
        );

    /// <summary>Builds an engine.</summary>
    /// <param name="name">auto, quadrature or reference.</param>
    /// <param name="model">Craft and beam.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    public static IPressureEngine Build(string name, DesignModel model, double accuracy) =>
        name == "reference"
            ? new ReferencePressure(model.Craft, model.Beam)
            : new SurfaceQuadrature(model.Craft, model.Beam, accuracy);
}
