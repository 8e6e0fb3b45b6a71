using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Models;

/// <summary>The light-pressure engines that a user may ask for by name.</summary>
public static class EngineChoice
{
    /// <summary>The option, shared by the studies that compute forces at poses.</summary>
    public static StudyOption<string> Option { get; } =
        Catalogue.Option.Choice(
            "engine",
            "Which engine computes the light pressure: quadrature (fast, to the asked accuracy, where light meets the craft once), rays (follows light from bounce to bounce, some hundred times slower, to 1e-8 at best) or reference (plain sums, slow, to look at when a number is doubted); auto picks: check, probe and map take rays where light meets the untilted craft more than once.",
            "auto",
            "quadrature",
            "rays",
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

    /// <summary>The finest accuracy that rays are asked for: a finer demand is answered to this one, and the answer states its error.</summary>
    public const double FinestOfRays = 1e-8;

    /// <summary>Builds an engine.</summary>
    /// <param name="name">auto, quadrature, rays or reference; auto is quadrature.</param>
    /// <param name="model">Craft and beam.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    /// <param name="rayBudget">Most rays for one force, where rays are followed.</param>
    public static IPressureEngine Build(
        string name,
        DesignModel model,
        double accuracy,
        long rayBudget = RayPressure.UsualRayBudget
    )
    {
        ArgumentNullException.ThrowIfNull(model);
        return name switch
        {
            "reference" => new ReferencePressure(model.Craft, model.Beam),
            "rays" => new RayPressure(model.Craft, model.Beam, Math.Max(accuracy, FinestOfRays), rayBudget),
            _ => new SurfaceQuadrature(model.Craft, model.Beam, accuracy),
        };
    }

    /// <summary>Builds an engine; auto takes rays where light meets the untilted craft more than once.</summary>
    /// <param name="name">auto, quadrature, rays or reference.</param>
    /// <param name="model">Craft and beam.</param>
    /// <param name="accuracy">Requested relative accuracy.</param>
    /// <param name="rayBudget">Most rays for one force, where rays are followed.</param>
    public static IPressureEngine Pick(
        string name,
        DesignModel model,
        double accuracy,
        long rayBudget = RayPressure.UsualRayBudget
    )
    {
        IPressureEngine engine = Build(name, model, accuracy, rayBudget);
        return name == "auto" && engine is SurfaceQuadrature { HoldsUntilted: false }
            ? Build("rays", model, accuracy, rayBudget)
            : engine;
    }
}
