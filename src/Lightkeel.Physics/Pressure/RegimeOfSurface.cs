using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>How far the light may lean from the axis on one side of one surface before that surface meets its own light again.</summary>
/// <param name="ProvenRadians">Proven limit, rad; negative when light on this side is never single-bounce.</param>
/// <param name="SampledRadians">Limit found by rays, rad, at least the proven one.</param>
/// <param name="LimitIsExact">True when the limit is that of the geometry, so that its very edge still counts.</param>
/// <param name="Why">Sentence for light within the limit.</param>
/// <param name="Beyond">Clause that says what happens past the limit and what would be accepted.</param>
internal sealed record RegimeSide(
    double ProvenRadians,
    double SampledRadians,
    bool LimitIsExact,
    string Why,
    string Beyond
)
{
    /// <summary>The larger of both limits, rad.</summary>
    public double LimitRadians => Math.Max(ProvenRadians, SampledRadians);

    /// <summary>True when every direction on this side, edge-on included, is accepted.</summary>
    public bool TakesAll => ProvenRadians >= Math.PI / 2;

    public static RegimeSide All(string why) => new(Math.PI / 2, Math.PI / 2, false, why, "");

    public static RegimeSide Never(string beyond) => new(-1, -1, false, "", beyond);
}

/// <summary>Both sides of one placed surface.</summary>
/// <param name="Front">The side that faces the laser at zero tilt.</param>
/// <param name="Back">The other side.</param>
internal sealed record RegimeOfSurface(RegimeSide Front, RegimeSide Back)
{
    /// <summary>Shares below this are roundings of shares that sum to one.</summary>
    public const double NoShare = 1e-12;

    /// <summary>
    /// Shares up to this are let by with a caution where their light would meet the craft again: what is left out is at
    /// most twice the share of the intercepted momentum, five per cent.
    /// </summary>
    public const double SmallShare = 0.025;

    /// <summary>Angles within this of an exact limit count as at the limit, rad.</summary>
    public const double EdgeRadians = 1e-9;

    public static RegimeOfSurface Of(PlacedSurface surface) =>
        new(SideOf(surface, LitSide.Front), SideOf(surface, LitSide.Back));

    private static RegimeSide SideOf(PlacedSurface surface, LitSide side)
    {
        RegimeForm form = RegimeForm.Of(surface.Shape, side);
        string label = RegimeForm.Label(surface);
        return form.Kind switch
        {
            RegimeFormKind.Flat => RegimeSide.All($"Surface {label} is flat and meets no light twice."),
            RegimeFormKind.Closed => Closed(label, surface.Optics),
            RegimeFormKind.Dome => Dome(label, surface.Optics, form),
            RegimeFormKind.Cup => Cup(label, surface.Optics, form),
            _ => Rough(surface, label, side, form),
        };
    }

    private static RegimeSide Closed(string label, SurfaceOptics optics) =>
        optics.Passed > SmallShare
            ? RegimeSide.Never(
                $"surface {label} is closed and lets light through, which then meets its far side from within; a passed share of 0.025 or less would be accepted"
            )
            : RegimeSide.All($"Surface {label} is convex and closed, so light that leaves it never meets it again.");

    private static RegimeSide Dome(string label, SurfaceOptics optics, RegimeForm form)
    {
        string why = $"Light meets only the convex side of {label}, so it never meets it again.";
        if (optics.Passed > SmallShare)
        {
            return form.SteepestRadians > Math.PI / 2
                ? RegimeSide.Never(
                    $"light that passes {label} meets it again from within, as it is deeper than a hemisphere; a passed share of 0.025 or less would be accepted"
                )
                : Exact(
                    Math.PI / 2 - form.SteepestRadians,
                    why,
                    $"light that passes {label} meets its far wall from within; that begins at a tilt equal to the steepest wall's angle from the axis"
                );
        }
        return form.OpenTiltRadians >= Math.PI / 2
            ? RegimeSide.All(why)
            : Exact(
                form.OpenTiltRadians,
                why,
                $"light that enters {label} by its open narrow end meets the inner wall"
            );
    }

    private static RegimeSide Cup(string label, SurfaceOptics optics, RegimeForm form)
    {
        if (form.SteepestRadians > Math.PI / 2)
        {
            return RegimeSide.Never($"the rim of {label}, deeper than a hemisphere, shades part of its inner side");
        }
        if (optics.Diffuse > SmallShare)
        {
            return RegimeSide.Never(
                $"the concave side of {label} scatters diffusely and so lights itself; a diffuse share of 0.025 or less would be accepted"
            );
        }
        double unshaded = Math.PI / 2 - form.SteepestRadians;
        if (optics.Specular <= NoShare)
        {
            return Exact(
                unshaded,
                $"Light reaches all of the concave side of {label} unshaded and none is reflected.",
                $"the concave side of {label} shades itself"
            );
        }
        return Exact(
            Math.Min(form.MirrorTilt(), unshaded),
            $"Light meets the concave side of {label}, and every reflected ray leaves without meeting it again.",
            $"light reflected by the concave side of {label} meets it again ({form.MirrorRule})"
        );
    }

    private static RegimeSide Exact(double limit, string why, string beyond) =>
        limit >= -EdgeRadians
            ? new(Math.Max(0, limit), Math.Max(0, limit), true, why, beyond)
            : RegimeSide.Never(beyond);

    private static RegimeSide Rough(PlacedSurface surface, string label, LitSide side, RegimeForm form)
    {
        SurfaceOptics optics = surface.Optics;
        if (form.SteepestRadians >= Math.PI / 2)
        {
            return RegimeSide.Never($"nothing is known about {label} that would rule out a second meeting");
        }
        if (optics.Diffuse > SmallShare)
        {
            return RegimeSide.Never(
                $"surface {label} is not convex toward the light and scatters diffusely, so it lights itself; a diffuse share of 0.025 or less would be accepted"
            );
        }
        double unshaded = Math.PI / 2 - form.SteepestRadians;
        string why = $"No light that meets {label} meets it again.";
        if (optics.Specular <= NoShare)
        {
            return new(unshaded, unshaded, false, why, $"surface {label} may shade itself");
        }
        double gentle = Math.PI / 2 - 3 * form.SteepestRadians;
        double sampled = RegimeSelfSearch.LargestTilt(surface.Shape, side, unshaded);
        return new(gentle, sampled, false, why, $"light reflected by {label} meets it again");
    }
}
