using Lightkeel.Physics.Motion;

namespace Lightkeel.Studies.Capture;

/// <summary>One number of a start, by its path in the design.</summary>
/// <param name="Path">Dotted path.</param>
/// <param name="Word">What it is, in a few words.</param>
/// <param name="Read">Reads it, SI.</param>
/// <param name="With">The same start with another value.</param>
internal sealed record StartField(
    string Path,
    string Word,
    Func<RideStart, double> Read,
    Func<RideStart, double, RideStart> With
)
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<StartField> All { get; } =
    [
        new("start.offset.x", "offset x", s => s.OffsetXMetres, (s, v) => s with { OffsetXMetres = v }),
        new("start.offset.y", "offset y", s => s.OffsetYMetres, (s, v) => s with { OffsetYMetres = v }),
        new("start.tilt.x", "tilt x", s => s.TiltXRadians, (s, v) => s with { TiltXRadians = v }),
        new("start.tilt.y", "tilt y", s => s.TiltYRadians, (s, v) => s with { TiltYRadians = v }),
        new(
            "start.velocity.x",
            "lateral velocity x",
            s => s.VelocityXMetresPerSecond,
            (s, v) => s with { VelocityXMetresPerSecond = v }
        ),
        new(
            "start.velocity.y",
            "lateral velocity y",
            s => s.VelocityYMetresPerSecond,
            (s, v) => s with { VelocityYMetresPerSecond = v }
        ),
        new("start.speed", "axial speed", s => s.SpeedMetresPerSecond, (s, v) => s with { SpeedMetresPerSecond = v }),
        new("start.spin", "spin", s => s.SpinRadiansPerSecond, (s, v) => s with { SpinRadiansPerSecond = v }),
        new(
            "start.rate.x",
            "rate of tilt x",
            s => s.TiltRateXRadiansPerSecond,
            (s, v) => s with { TiltRateXRadiansPerSecond = v }
        ),
        new(
            "start.rate.y",
            "rate of tilt y",
            s => s.TiltRateYRadiansPerSecond,
            (s, v) => s with { TiltRateYRadiansPerSecond = v }
        ),
        new("start.roll", "roll", s => s.RollRadians, (s, v) => s with { RollRadians = v }),
    ];

    /// <summary>True when the field is zero at the straight start on the axis of the beam, where release tolerances are counted from.</summary>
    public bool IsDeviation => Path is not ("start.speed" or "start.spin" or "start.roll");

    /// <summary>The field of a path; null when it is none of a start.</summary>
    public static StartField? Of(string path) => All.FirstOrDefault(f => f.Path == path);
}
