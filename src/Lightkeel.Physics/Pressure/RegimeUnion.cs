using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>Whether the surfaces of a craft leave each other's light alone, for any light direction.</summary>
internal sealed class RegimeUnion
{
    private readonly RegimeChain? _chain;
    private readonly RegimeTiltSearch? _search;
    private readonly bool _always;
    private readonly RegimeBound _front;
    private readonly RegimeBound _back;
    private readonly RegimeBound _searched;
    private readonly RegimeStatement _proven;
    private readonly RegimeStatement _sampled;
    private readonly RegimeStatement _refused;

    /// <param name="surfaces">All surfaces.</param>
    /// <param name="widestRadians">Tilt from +z up to which each surface by itself is single-bounce, rad; negative when none.</param>
    public RegimeUnion(IReadOnlyList<PlacedSurface> surfaces, double widestRadians)
    {
        ProvenHeadroomRadians = -1;
        (int First, int Second)? overlap = RegimeFlats.Overlap(surfaces);
        _always = surfaces.Count == 1 || (overlap is null && RegimeFlats.AllInOnePlane(surfaces));
        if (overlap is null && !_always)
        {
            _chain = RegimeChain.Of(surfaces);
            ProvenHeadroomRadians = _chain is null ? -1 : Headroom(_chain, Vec3.UnitZ);
            if (widestRadians >= 0 && ProvenHeadroomRadians < Math.Min(widestRadians, Math.PI / 2))
            {
                _search = RegimeTiltSearch.Of(surfaces, widestRadians);
            }
        }
        MutualTiltRadians =
            overlap is not null ? -1
            : _always ? Math.PI
            : _search?.LimitRadians ?? -1;
        _front = RegimeBound.Of(_chain?.FrontRadians ?? -1);
        _back = RegimeBound.Of(_chain?.BackRadians ?? -1);
        _searched = RegimeBound.Of(_search?.LimitRadians ?? -1);
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

    /// <summary>Largest tilt of the light from +z, any azimuth, at which the surfaces leave each other's light alone, rad; negative when none.</summary>
    public double MutualTiltRadians { get; }

    /// <summary>How far light may lean from +z with the proof for the whole craft still holding, rad; negative when it does not hold there.</summary>
    public double ProvenHeadroomRadians { get; }

    /// <summary>The statement of a proof for all surfaces together, their own second bounces included; null when there is none.</summary>
    public RegimeStatement? WholeProof(Vec3 light, double length)
    {
        if (_chain is null)
        {
            return null;
        }
        RegimeAngle angle = RegimeAngle.Between(_chain.Axis, light);
        bool holds = angle.Along >= 0 ? _front.Holds(angle, length) : _back.Holds(angle.Reversed, length);
        return holds ? _proven : null;
    }

    /// <summary>The verdict on the light that surfaces, each single-bounce by itself, send to each other.</summary>
    /// <param name="light">Direction of the light.</param>
    /// <param name="length">Its length.</param>
    public RegimeVerdict Mutual(Vec3 light, double length)
    {
        if (_always)
        {
            return new(_proven, 0);
        }
        RegimeAngle angle = RegimeAngle.Between(Vec3.UnitZ, light);
        return _searched.Holds(angle, length) ? new(_sampled, 0) : new(_refused, angle.Radians);
    }

    // How far light may lean from a direction with the chain's proof still holding; negative when it does not hold there.
    private static double Headroom(RegimeChain chain, Vec3 light)
    {
        double tilt = RegimeAngle.Between(chain.Axis, light).Radians;
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
        const string remedy = " Following further bounces takes the engine that traces rays.";
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
            MutualTiltRadians >= 0
                ? $"; no second meeting was found up to {RegimeStatement.Degrees(MutualTiltRadians)}"
                : "";
        return new(
            false,
            RegimeCertainty.Sampled,
            "Light at ",
            $" from body +z may meet more than one surface{worst}{limit}.{remedy}"
        );
    }
}
