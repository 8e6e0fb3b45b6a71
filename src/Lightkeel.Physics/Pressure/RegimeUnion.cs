using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Whether the surfaces of a craft leave each other's light alone, for any light direction.</summary>
internal sealed class RegimeUnion
{
    private readonly RegimeChain? _chain;
    private readonly RegimeTiltSearch? _search;
    private readonly bool _always;
    private readonly RegimeStatement _proven;
    private readonly RegimeStatement _sampled;
    private readonly RegimeStatement _refused;

    /// <param name="surfaces">All surfaces.</param>
    /// <param name="widestRadians">Tilt from +z up to which each surface by itself is single-bounce, rad; negative when none.</param>
    public RegimeUnion(IReadOnlyList<PlacedSurface> surfaces, double widestRadians)
    {
        (int First, int Second)? overlap = RegimeFlats.Overlap(surfaces);
        _always = surfaces.Count == 1 || (overlap is null && RegimeFlats.AllInOnePlane(surfaces));
        if (overlap is null && !_always)
        {
            _chain = RegimeChain.Of(surfaces);
            double proven = _chain is null ? -1 : Headroom(_chain, Vec3.UnitZ);
            if (widestRadians >= 0 && proven < Math.Min(widestRadians, Math.PI / 2))
            {
                _search = RegimeTiltSearch.Of(surfaces, widestRadians);
            }
        }
        MaximumSafeTiltRadians =
            overlap is not null ? -1
            : _always ? Math.PI
            : Math.Max(_chain is null ? -1 : Headroom(_chain, Vec3.UnitZ), _search?.LimitRadians ?? -1);
        _proven = new(
            true,
            RegimeCertainty.Proven,
            surfaces.Count == 1
                ? ""
                : "The surfaces form one graph that light meets once, or lie in one plane, so none meets another's light."
        );
        _sampled = new(true, RegimeCertainty.Sampled, SampledText());
        _refused = Refusal(surfaces, overlap);
    }

    /// <summary>Largest tilt of the light from +z, any azimuth, that is accepted, rad; negative when none.</summary>
    public double MaximumSafeTiltRadians { get; }

    /// <summary>The statement for a light direction of any length.</summary>
    public RegimeStatement For(Vec3 light, out double tiltRadians)
    {
        tiltRadians = 0;
        if (_always)
        {
            return _proven;
        }
        if (_chain is not null)
        {
            (double tilt, double limit) = OnChain(_chain, light);
            if (tilt <= limit + RegimeOfSurface.EdgeRadians)
            {
                return _proven;
            }
        }
        tiltRadians = Angle(Vec3.UnitZ, light);
        return _search is not null && tiltRadians <= _search.LimitRadians ? _sampled : _refused;
    }

    public static double Angle(Vec3 axis, Vec3 light) =>
        Math.Atan2(Vec3.Cross(axis, light).Length, Vec3.Dot(axis, light));

    private static (double Tilt, double Limit) OnChain(RegimeChain chain, Vec3 light)
    {
        double tilt = Angle(chain.Axis, light);
        return tilt <= Math.PI / 2 ? (tilt, chain.FrontRadians) : (Math.PI - tilt, chain.BackRadians);
    }

    // How far light may lean from a direction with the chain's proof still holding; negative when it does not hold there.
    private static double Headroom(RegimeChain chain, Vec3 light)
    {
        double tilt = Angle(chain.Axis, light);
        return Math.Max(chain.FrontRadians - tilt, chain.BackRadians - (Math.PI - tilt));
    }

    private string SampledText() =>
        _search is null
            ? ""
            : FormattableString.Invariant(
                $"No surface shades another and no reflected ray meets one: so found from {_search.Pairs} pairs of surface points and rays from {_search.Rays} points, for light up to {RegimeStatement.Degrees(_search.LimitRadians)} from body +z."
            );

    private RegimeStatement Refusal(IReadOnlyList<PlacedSurface> surfaces, (int First, int Second)? overlap)
    {
        const string remedy = " Use the ray tracer for this pose.";
        if (overlap is { } pair)
        {
            return new(
                false,
                RegimeCertainty.Proven,
                $"The flat surfaces '{surfaces[pair.First].Name}' and '{surfaces[pair.Second].Name}' cover part of one plane twice; move or shrink one of them."
            );
        }
        string worst = _search?.Worst is { } found ? $": {found.Clause}" : "";
        string limit =
            MaximumSafeTiltRadians >= 0
                ? $"; no second meeting was found up to {RegimeStatement.Degrees(MaximumSafeTiltRadians)}"
                : "";
        return new(
            false,
            RegimeCertainty.Sampled,
            "Light at ",
            $" from body +z may meet more than one surface{worst}{limit}.{remedy}"
        );
    }
}
