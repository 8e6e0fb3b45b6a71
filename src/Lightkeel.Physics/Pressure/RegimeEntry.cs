using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>One surface by itself: its axis, its limits on both sides, and the sentences that its verdicts need.</summary>
internal sealed class RegimeEntry
{
    private readonly Vec3 _axis;
    private readonly Side _front;
    private readonly Side _back;
    private readonly bool _takesAll;

    public RegimeEntry(PlacedSurface surface)
    {
        _axis = surface.BodyFromSurface.Column2;
        RegimeOfSurface regime = RegimeOfSurface.Of(surface);
        _front = new(regime.Front);
        _back = new(regime.Back);
        _takesAll = regime.Front.TakesAll && regime.Back.TakesAll;
    }

    public RegimeVerdict For(Vec3 light, double length)
    {
        if (_takesAll)
        {
            return new(_front.Proven, 0);
        }
        RegimeAngle angle = RegimeAngle.Between(_axis, light);
        // Edge-on light belongs to both sides: the convex one takes it.
        bool isEdgeOn = Math.Abs(angle.Along) <= RegimeOfSurface.EdgeRadians * length;
        bool isFront = isEdgeOn ? _front.Limits.TakesAll : angle.Along > 0;
        return isFront ? _front.For(angle, length) : _back.For(angle.Reversed, length);
    }

    /// <summary>How far light may lean from a direction on every azimuth, rad; negative when that direction is refused.</summary>
    public double Headroom(Vec3 light)
    {
        if (_takesAll)
        {
            return Math.PI;
        }
        double tilt = RegimeAngle.Between(_axis, light).Radians;
        return Math.Max(Room(_front.Limits, tilt), Room(_back.Limits, Math.PI - tilt));
    }

    private static double Room(RegimeSide side, double tilt)
    {
        double room = side.LimitRadians - tilt;
        return side.LimitRadians >= 0 && room >= -RegimeOfSurface.EdgeRadians ? Math.Max(0, room) : -1;
    }

    private sealed class Side
    {
        private readonly RegimeBound _proven;
        private readonly RegimeBound _limit;
        private readonly RegimeStatement _edge;
        private readonly RegimeStatement _sampled;
        private readonly RegimeStatement _refused;

        public Side(RegimeSide limits)
        {
            Limits = limits;
            _proven = RegimeBound.Of(limits.ProvenRadians);
            _limit = RegimeBound.Of(limits.LimitRadians);
            bool exists = limits.LimitRadians >= 0;
            string limit = RegimeStatement.Degrees(Math.Max(0, limits.LimitRadians));
            Proven = new(true, RegimeCertainty.Proven, limits.Why);
            _edge = new(
                true,
                RegimeCertainty.AtLimit,
                $"{limits.Why} This is exactly at its limit of {limit} of tilt."
            );
            _sampled = new(
                true,
                RegimeCertainty.Sampled,
                $"{limits.Why} Up to {limit} of tilt this rests on a search over pairs of its points and on traced rays."
            );
            string accepted = exists ? $"tilts up to {limit} are single-bounce" : "no tilt is single-bounce";
            _refused = new(
                false,
                RegimeCertainty.Proven,
                "At a tilt of ",
                $" against its own axis, {limits.Beyond}; {accepted} as designed. Following further bounces takes the engine that traces rays."
            );
        }

        public RegimeSide Limits { get; }

        public RegimeStatement Proven { get; }

        public RegimeVerdict For(RegimeAngle angle, double length)
        {
            if (!_limit.Holds(angle, length))
            {
                return new(_refused, angle.Radians);
            }
            bool isEdge = Limits.LimitIsExact && _limit.Excess(angle) >= -RegimeOfSurface.EdgeRadians * length;
            return new(
                isEdge ? _edge
                    : _proven.Holds(angle, length) ? Proven
                    : _sampled,
                0
            );
        }
    }
}
