using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;

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
    private readonly RegimeEntry[] _entries;
    private readonly RegimeUnion _union;

    private readonly FilmOptics[] _tightFilms;
    private readonly Lazy<LightRegime> _leaking;

    private LightRegime(SailCraft craft)
    {
        _surfaces = [.. craft.Surfaces];
        _entries = [.. craft.Surfaces.Select(s => new RegimeEntry(s))];
        _tightFilms = [.. _surfaces.Select(s => s.Optics).Where(IsTight).Cast<FilmOptics>()];
        _leaking = new(() => new(Leaking(craft)));
        double alone = _entries.Min(e => e.Headroom(Vec3.UnitZ));
        _union = new(craft.Surfaces, alone);
        double limit = Math.Max(Math.Min(alone, _union.MutualTiltRadians), _union.ProvenHeadroomRadians);
        MaximumSafeTiltRadians = limit >= 0 ? limit : null;
        HeatCaution = RegimeHeat.Caution(craft.Surfaces);
        StrayLightCaution = RegimeStray.Caution(craft.Surfaces);
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

    /// <summary>
    /// A bound on what the force law leaves out when small passed or scattered shares meet the craft again; null when
    /// there is none. Larger shares are refused.
    /// </summary>
    public string? StrayLightCaution { get; }

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
        if (_union.WholeProof(lightDirectionBody, length) is { } proof)
        {
            return new(proof, 0);
        }
        RegimeVerdict first = default;
        RegimeVerdict edge = default;
        RegimeVerdict sampled = default;
        foreach (RegimeEntry entry in _entries)
        {
            RegimeVerdict own = entry.For(lightDirectionBody, length);
            if (!own.IsSingleBounce)
            {
                return own;
            }
            first = first.IsSingleBounce ? first : own;
            edge = own.Certainty == RegimeCertainty.AtLimit ? own : edge;
            sampled = own.Certainty == RegimeCertainty.Sampled ? own : sampled;
        }
        if (_entries.Length == 1)
        {
            return first;
        }
        RegimeVerdict mutual = _union.Mutual(lightDirectionBody, length);
        if (!mutual.IsSingleBounce || mutual.Certainty == RegimeCertainty.Sampled)
        {
            return mutual;
        }
        return sampled.IsSingleBounce ? sampled
            : edge.IsSingleBounce ? edge
            : mutual;
    }

    /// <summary>
    /// The regime at the wavelength that a moving craft sees: films that pass next to nothing at rest may pass much of the light there.
    /// </summary>
    /// <param name="stretch">Wavelength at the craft over that of the laser.</param>
    internal LightRegime At(double stretch)
    {
        foreach (FilmOptics film in _tightFilms)
        {
            if (film.PassedAt(stretch) > RegimeOfSurface.SmallShare)
            {
                return _leaking.Value;
            }
        }
        return this;
    }

    // The same craft with its tight films half open: only whether light passes counts for the rules.
    private static SailCraft Leaking(SailCraft craft) =>
        craft with
        {
            Surfaces =
            [
                .. craft.Surfaces.Select(s =>
                    IsTight(s.Optics) ? s with { Optics = new OpticalCoefficients(0.5, 0, 0) } : s
                ),
            ],
        };

    private static bool IsTight(SurfaceOptics optics) =>
        optics is FilmOptics && optics.Passed <= RegimeOfSurface.SmallShare;

    /// <summary>The side of a surface on which light of a direction counts; elements of that side that face away from the light are dark.</summary>
    /// <param name="surface">Index into the craft's surfaces.</param>
    /// <param name="lightDirectionBody">Direction of travel, body axes.</param>
    public LitSide LitSideOf(int surface, Vec3 lightDirectionBody) =>
        RegimeRays.SideOf(_surfaces[surface], lightDirectionBody);
}
