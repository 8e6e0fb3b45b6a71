using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>What a ride watches for. Those that end a stretch only are not reasons to end the ride.</summary>
internal enum RideMark
{
    OffBeam,
    TiltLimit,
    Ground,
    TargetSpeed,
    LightOff,
    Break,
    SpotEdge,
    Peak,
}

/// <summary>The events of one stretch of a ride.</summary>
internal sealed class RideEvents
{
    private readonly List<RideMark> _marks = [];
    private readonly List<EventWatch> _watches = [];

    public RideEvents(RideSetup setup, RideLimits limits, bool findPeaks, double nextBreak)
    {
        if (limits.LostAtMetres is { } lost)
        {
            Add(
                RideMark.OffBeam,
                "off the beam",
                EventDirection.Rising,
                (_, s) => double.Hypot(s[0], s[1]) - lost,
                RideBounds.Offset(lost)
            );
        }
        if (limits.TiltLimitRadians is { } tilt)
        {
            Add(
                RideMark.TiltLimit,
                "tilt limit",
                EventDirection.Rising,
                (_, s) => TiltOf(s) - tilt,
                RideBounds.Tilt(tilt)
            );
        }
        if (limits.GroundMetres is { } ground)
        {
            Add(RideMark.Ground, "ground", EventDirection.Falling, (_, s) => s[2] - ground, RideBounds.Of(2, ground));
        }
        if (limits.TargetBeta is { } beta)
        {
            double celerity = Illumination.LightSpeed * beta / Math.Sqrt((1 - beta) * (1 + beta));
            Add(
                RideMark.TargetSpeed,
                "target speed",
                EventDirection.Rising,
                (_, s) => s[5] - celerity,
                RideBounds.Of(5, celerity)
            );
        }
        if (limits.EndAtLightOff && setup.Schedule.LightOffSeconds is { } off)
        {
            Add(
                RideMark.LightOff,
                "light off",
                EventDirection.Rising,
                (t, s) => SourceTime(t, s) - off,
                RideBounds.SourceTime(off)
            );
        }
        if (double.IsFinite(nextBreak))
        {
            Add(
                RideMark.Break,
                "break",
                EventDirection.Rising,
                (t, s) => SourceTime(t, s) - nextBreak,
                RideBounds.SourceTime(nextBreak)
            );
        }
        if (setup.Director is { } director)
        {
            double edge = director.HoldDistanceMetres;
            Add(RideMark.SpotEdge, "spot edge", EventDirection.Either, (_, s) => s[2] - edge, RideBounds.Of(2, edge));
        }
        if (findPeaks)
        {
            Add(
                RideMark.Peak,
                "largest offset",
                EventDirection.Falling,
                (_, s) => s[0] * s[3] + s[1] * s[4],
                RideBounds.Turning,
                EventAction.Continue
            );
        }
    }

    /// <summary>The events as the integrator wants them.</summary>
    public IReadOnlyList<EventWatch> Watches => _watches;

    /// <summary>What an event of the integrator means.</summary>
    public RideMark MarkOf(in EventOccurrence occurrence) => _marks[occurrence.Index];

    /// <summary>Index of an event among the watches, or null when it is not watched.</summary>
    public int? IndexOf(RideMark mark) => _marks.IndexOf(mark) is var i and >= 0 ? i : null;

    private static double SourceTime(double time, ReadOnlySpan<double> s) => time - s[2] / Illumination.LightSpeed;

    private static double TiltOf(ReadOnlySpan<double> s)
    {
        Vec3 axis = RideState.AxisOf(new(s[6], s[7], s[8], s[9]));
        return Math.Atan2(double.Hypot(axis.X, axis.Y), axis.Z);
    }

    private void Add(
        RideMark mark,
        string name,
        EventDirection direction,
        Func value,
        CanReach canVanish,
        EventAction action = EventAction.Stop
    )
    {
        _marks.Add(mark);
        _watches.Add(new(name, new Function(value, canVanish), direction, action));
    }

    private delegate double Func(double time, ReadOnlySpan<double> state);

    private sealed class Function(Func value, CanReach canVanish) : IEventFunction
    {
        public double Value(double time, ReadOnlySpan<double> state) => value(time, state);

        public bool CanVanish(double from, double to, ReadOnlySpan<double> low, ReadOnlySpan<double> high) =>
            canVanish(from, to, low, high);
    }
}
