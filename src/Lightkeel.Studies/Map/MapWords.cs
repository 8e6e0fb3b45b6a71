using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Words for cells without a verdict.</summary>
internal static class MapWords
{
    /// <summary>Stands in the map in place of a verdict.</summary>
    public const string NotComputable = "not-computable";

    /// <summary>Stands in the map where the run was stopped before.</summary>
    public const string NotReached = "not-reached";

    public const string Bounces = "light bounces more than once";
    public const string Meetings = "light meets the craft more than once";
    public const string Refused = "the design is refused there";
    public const string Unavailable = "no trim, or no light pressure to the asked accuracy";

    /// <summary>Sorts a refusal by its kind.</summary>
    public static MapObstacle ObstacleOf(DesignModel model, string text)
    {
        Illumination light = Illumination.SeenFrom(new Vec3(0, 0, model.Design.Start.SpeedMetresPerSecond));
        bool single = LightRegime.Assess(model.Craft).For(light.Direction).IsSingleBounce;
        bool alone = model.Craft.Surfaces is [{ Optics: { Specular: > 0 } or { Diffuse: > 0 } }];
        string kind =
            single ? Unavailable
            : alone ? Bounces
            : Meetings;
        return new(kind, text);
    }
}
