using Lightkeel.Numerics.Integration;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>Keeps what a ride records. A stretch that starts where another ended does not record that instant twice.</summary>
internal sealed class RideRecorder(RideField field, double smallestPeakMetres) : IRunSink
{
    private readonly List<RideRecord> _records = [];
    private readonly List<RideRecord> _peaks = [];

    /// <summary>Index of the peak event in the present stretch; −1 when peaks are not watched.</summary>
    public int PeakIndex { get; set; } = -1;

    public IReadOnlyList<RideRecord> Records => _records;

    public IReadOnlyList<RideRecord> Peaks => _peaks;

    public double LargestOffset { get; private set; }

    public double LargestTilt { get; private set; }

    public void Record(double time, ReadOnlySpan<double> state)
    {
        if (_records.Count > 0 && _records[^1].TimeSeconds == time)
        {
            return;
        }
        RideRecord record = At(time, RideState.Read(state));
        Note(record.State);
        _records.Add(record);
    }

    public void RecordEvent(in EventOccurrence occurrence, ReadOnlySpan<double> state)
    {
        RideState at = RideState.Read(state);
        // On the axis rounding makes peaks of its own.
        if (occurrence.Index == PeakIndex && at.OffsetMetres > smallestPeakMetres)
        {
            RideRecord record = At(occurrence.Time, at);
            Note(record.State);
            _peaks.Add(record);
        }
    }

    /// <summary>Takes a state into the largest offset and tilt.</summary>
    public void Note(in RideState state)
    {
        LargestOffset = Math.Max(LargestOffset, state.OffsetMetres);
        LargestTilt = Math.Max(LargestTilt, state.TiltRadians);
    }

    /// <summary>What is recorded of a state.</summary>
    public RideRecord At(double time, in RideState state)
    {
        double source = state.SourceSeconds(time);
        (double power, BeamState beam) = field.LightAt(source);
        double scale = field.SpreadAt(state.PositionMetres.Z) * beam.WidthFactor;
        double doppler = Illumination.SeenFrom(state.VelocityMetresPerSecond).IrradianceFactor;
        return new(
            time,
            source,
            state,
            field.Body.Rate(state.BodyAngularMomentum),
            beam,
            power,
            power * doppler / (scale * scale),
            scale
        );
    }
}
