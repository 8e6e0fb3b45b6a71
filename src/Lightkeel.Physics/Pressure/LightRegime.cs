using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Says, for a craft and a direction of light, whether each ray meets the craft once only, so that quadrature over the
/// lit sides is the whole of the light.
/// </summary>
/// <remarks>
/// Built once per craft; immutable, deterministic, safe to share between threads. A pose then costs one angle per
/// surface. Light counts on the side <see cref="LitSideOf"/> names, wherever that side's normal faces the light.
/// The rules and their proofs: docs/design/light-regimes.md.
/// </remarks>
public sealed class LightRegime
{
    private readonly PlacedSurface[] _surfaces;
    private readonly Entry[] _entries;
    private readonly RegimeUnion _union;

    private LightRegime(SailCraft craft)
    {
        _surfaces = [.. craft.Surfaces];
        _entries = [.. craft.Surfaces.Select(s => new Entry(s))];
        double alone = _entries.Min(e => e.Headroom(Vec3.UnitZ));
        _union = new(craft.Surfaces, alone);
        double limit = Math.Min(alone, _union.MaximumSafeTiltRadians);
        MaximumSafeTiltRadians = limit >= 0 ? limit : null;
        HeatCaution = RegimeHeat.Caution(craft.Surfaces);
    }

    /// <summary>
    /// Largest tilt T such that all light within T of body +z is single-bounce, rad, on the safe side by 1e-6 or less
    /// where it is proven; π when every direction is; null when untilted light is not.
    /// </summary>
    public double? MaximumSafeTiltRadians { get; }

    /// <summary>
    /// A bound on what the force law leaves out when heat radiated by an inner side meets the craft again; null when
    /// there is none.
    /// </summary>
    public string? HeatCaution { get; }

    /// <summary>Examines a craft.</summary>
    /// <exception cref="ArgumentException">The craft has no surface.</exception>
    public static LightRegime Assess(SailCraft craft)
    {
        ArgumentNullException.ThrowIfNull(craft);
        return craft.Surfaces.Count > 0
            ? new(craft)
            : throw new ArgumentException("A craft needs at least one surface to meet light.", nameof(craft));
    }

    /// <summary>The verdict for light that travels along a direction in body axes (+z for an untilted craft).</summary>
    /// <param name="lightDirectionBody">Direction, any positive length.</param>
    /// <exception cref="ArgumentException">The direction is zero or not finite.</exception>
    public RegimeVerdict For(Vec3 lightDirectionBody)
    {
        double length = lightDirectionBody.Length;
        if (!(length > 0) || !double.IsFinite(length))
        {
            throw new ArgumentException("A light direction is finite and not zero.", nameof(lightDirectionBody));
        }
        RegimeVerdict first = default;
        RegimeVerdict edge = default;
        RegimeVerdict sampled = default;
        foreach (Entry entry in _entries)
        {
            RegimeVerdict own = entry.For(lightDirectionBody);
            if (!own.IsSingleBounce)
            {
                return own;
            }
            first = first.IsSingleBounce ? first : own;
            edge = own.Certainty == RegimeCertainty.AtLimit ? own : edge;
            sampled = own.Certainty == RegimeCertainty.Sampled ? own : sampled;
        }
        RegimeStatement mutual = _union.For(lightDirectionBody, out double tilt);
        if (!mutual.IsSingleBounce || mutual.Certainty == RegimeCertainty.Sampled)
        {
            return new(mutual, tilt);
        }
        return sampled.IsSingleBounce ? sampled
            : edge.IsSingleBounce ? edge
            : _entries.Length == 1 ? first
            : new(mutual, tilt);
    }

    /// <summary>The side of a surface on which light of a direction counts; elements of that side that face away from the light are dark.</summary>
    /// <param name="surface">Index into the craft's surfaces.</param>
    /// <param name="lightDirectionBody">Direction of travel, body axes.</param>
    public LitSide LitSideOf(int surface, Vec3 lightDirectionBody) =>
        RegimeRays.SideOf(_surfaces[surface], lightDirectionBody);

    /// <summary>One surface by itself, with the sentences that its verdicts need.</summary>
    private sealed class Entry
    {
        private readonly Vec3 _axis;
        private readonly RegimeOfSurface _regime;
        private readonly Sentences _front;
        private readonly Sentences _back;

        public Entry(PlacedSurface surface)
        {
            _axis = surface.BodyFromSurface.Column2;
            _regime = RegimeOfSurface.Of(surface);
            _front = new(_regime.Front);
            _back = new(_regime.Back);
        }

        public RegimeVerdict For(Vec3 light)
        {
            if (_regime.Front.TakesAll && _regime.Back.TakesAll)
            {
                return new(_front.Proven, 0);
            }
            double tilt = RegimeUnion.Angle(_axis, light);
            bool isFront = tilt <= Math.PI / 2;
            // Edge-on light belongs to both sides: the convex one takes it.
            if (Math.Abs(tilt - Math.PI / 2) <= RegimeOfSurface.EdgeRadians)
            {
                isFront = _regime.Front.TakesAll;
            }
            RegimeSide side = isFront ? _regime.Front : _regime.Back;
            double own = isFront ? tilt : Math.PI - tilt;
            return new((isFront ? _front : _back).At(side, own), own);
        }

        /// <summary>How far light may lean from a direction on every azimuth; negative when that direction is refused.</summary>
        public double Headroom(Vec3 light)
        {
            if (_regime.Front.TakesAll && _regime.Back.TakesAll)
            {
                return Math.PI;
            }
            double tilt = RegimeUnion.Angle(_axis, light);
            double front = Room(_regime.Front, tilt);
            double back = Room(_regime.Back, Math.PI - tilt);
            return Math.Max(front, back);
        }

        private static double Room(RegimeSide side, double tilt)
        {
            double room = side.LimitRadians - tilt;
            return side.LimitRadians >= 0 && room >= -RegimeOfSurface.EdgeRadians ? Math.Max(0, room) : -1;
        }
    }

    /// <summary>The sentences for one side.</summary>
    private sealed class Sentences
    {
        private readonly RegimeStatement _edge;
        private readonly RegimeStatement _sampled;
        private readonly RegimeStatement _refused;

        public Sentences(RegimeSide side)
        {
            string limit = RegimeStatement.Degrees(Math.Max(0, side.LimitRadians));
            Proven = new(true, RegimeCertainty.Proven, side.Why);
            _edge = new(true, RegimeCertainty.AtLimit, $"{side.Why} This is exactly at its limit of {limit} of tilt.");
            _sampled = new(
                true,
                RegimeCertainty.Sampled,
                FormattableString.Invariant(
                    $"{side.Why} Up to {limit} of tilt this rests on {RegimeSelfRays.RaysPerTilt} traced rays per tilt."
                )
            );
            const string remedy = " Use the ray tracer for this pose.";
            string accepted =
                side.LimitRadians >= 0 ? $"tilts up to {limit} are single-bounce" : "no tilt is single-bounce";
            _refused = new(
                false,
                RegimeCertainty.Proven,
                "At a tilt of ",
                $" against its own axis, {side.Beyond}; {accepted} as designed.{remedy}"
            );
        }

        public RegimeStatement Proven { get; }

        public RegimeStatement At(RegimeSide side, double tilt)
        {
            double limit = side.LimitRadians;
            bool isEdge = side.LimitIsExact && limit >= 0 && Math.Abs(tilt - limit) <= RegimeOfSurface.EdgeRadians;
            return isEdge ? _edge
                : tilt <= side.ProvenRadians ? Proven
                : tilt <= limit ? _sampled
                : _refused;
        }
    }
}
