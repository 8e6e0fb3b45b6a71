using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Physics.Motion;

namespace Lightkeel.Physics.Chance;

/// <summary>The beam of one ride: pointing, power and width noise, and drop-outs. One per ride.</summary>
/// <remarks>
/// The power cannot fall below zero: what a strong noise asks beyond is cut off. The width is multiplied by the exponential
/// of its noise, which stays positive and is the relative change to first order.
/// </remarks>
internal sealed class NoisyBeam : IBeamDisturbance
{
    private readonly Axes _lengths;
    private readonly Axes _angles;
    private readonly NoiseTrack[] _power;
    private readonly NoiseTrack[] _width;
    private readonly IReadOnlyList<DropOut> _dropOuts;
    private double _seconds = double.NaN;
    private BeamState _state;

    public NoisyBeam(IReadOnlyList<PreparedNoise> noises, IReadOnlyList<DropOut> dropOuts, ulong seed, ulong ride)
    {
        _lengths = Axes.Of(noises.Where(n => n.Source.Quantity == NoiseQuantity.PointingLength), seed, ride);
        _angles = Axes.Of(noises.Where(n => n.Source.Quantity == NoiseQuantity.PointingAngle), seed, ride);
        _power = Single(noises, NoiseQuantity.Power, seed, ride);
        _width = Single(noises, NoiseQuantity.Width, seed, ride);
        _dropOuts = dropOuts;
        BreaksSeconds = [.. dropOuts.SelectMany(d => d.BreaksSeconds).Distinct().Order()];
        HighestFrequencyHertz = noises.Count == 0 ? 0 : noises.Max(n => n.CutHertz);
    }

    /// <inheritdoc/>
    public IReadOnlyList<double> BreaksSeconds { get; }

    /// <inheritdoc/>
    public double HighestFrequencyHertz { get; }

    /// <inheritdoc/>
    public BeamState At(double sourceSeconds)
    {
        // Implicit steps ask for one time again and again.
        if (sourceSeconds != _seconds)
        {
            (_seconds, _state) = (sourceSeconds, Compute(sourceSeconds));
        }
        return _state;
    }

    private BeamState Compute(double t)
    {
        double power = Math.Max(0, 1 + Sum(_power, t));
        foreach (DropOut dropOut in _dropOuts)
        {
            power *= dropOut.FactorAt(t);
        }
        double width = _width.Length == 0 ? 1 : PortableMath.Exp(Sum(_width, t));
        return new(Sum(_lengths.X, t), Sum(_lengths.Y, t), power, width)
        {
            AngleXRadians = Sum(_angles.X, t),
            AngleYRadians = Sum(_angles.Y, t),
        };
    }

    private static double Sum(NoiseTrack[] tracks, double t)
    {
        double sum = 0;
        foreach (NoiseTrack track in tracks)
        {
            sum += track.At(t);
        }
        return sum;
    }

    private static NoiseTrack[] Single(
        IReadOnlyList<PreparedNoise> noises,
        NoiseQuantity quantity,
        ulong seed,
        ulong ride
    ) => [.. noises.Where(n => n.Source.Quantity == quantity).Select(n => n.Track(seed, ride, ""))];
}

/// <summary>The centre of mass of one ride, wandering in the body. One per ride.</summary>
internal sealed class NoisyBalance(IReadOnlyList<PreparedNoise> noises, double radius, ulong seed, ulong ride)
    : IImbalance
{
    private readonly Axes _axes = Axes.Of(noises, seed, ride);

    /// <inheritdoc/>
    public double HighestFrequencyHertz { get; } = noises.Max(n => n.CutHertz);

    /// <inheritdoc/>
    public (double X, double Y) ShiftMetres(double properSeconds) =>
        (radius * _axes.X.Sum(t => t.At(properSeconds)), radius * _axes.Y.Sum(t => t.At(properSeconds)));
}

/// <summary>Courses of noises with two axes, which have random numbers of their own.</summary>
internal readonly record struct Axes(NoiseTrack[] X, NoiseTrack[] Y)
{
    public static Axes Of(IEnumerable<PreparedNoise> noises, ulong seed, ulong ride)
    {
        PreparedNoise[] all = [.. noises];
        return new([.. all.Select(n => n.Track(seed, ride, ".x"))], [.. all.Select(n => n.Track(seed, ride, ".y"))]);
    }
}
