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

    /// <summary>What a map of spinning craft shows, and what it does not.</summary>
    public const string SpinNote =
        "Cells of a spinning craft carry the linear verdict about perfect alignment. A craft may ride only in that picture: the force averaged over the precession of a tilted angular momentum can carry it off. Back a cell by check, which averages the precession and says so, before it is believed.";

    /// <summary>Whether any cell is of a spinning craft.</summary>
    public static bool Spins(MapInput input) =>
        input.Design.Model.Design.Start.SpinRadiansPerSecond != 0
        || new[] { input.X.Path, input.Y.Path, input.Z?.Path }.Contains("start.spin");

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
