namespace Lightkeel.Physics.Chance.Escape;

/// <summary>
/// How likely a loss is from an orbit in the time that is left, by stochastic averaging: the score that leads a splitting. It
/// makes the splitting scatter less and does not enter its estimate.
/// </summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed class LossOutlook
{
    // The averaged probabilities are good to about 1e-11; below, the distance from the edge alone counts.
    private const double Least = 1e-10;
    private const int Times = 20;
    private readonly OrbitPlane _plane;
    private readonly int _cells;
    private readonly int _degrees;
    private readonly double _first;
    private readonly double _ratio;
    private readonly double[][] _held;

    private LossOutlook(OrbitPlane plane, int cells, int degrees, double first, double ratio, double[][] held) =>
        (_plane, _cells, _degrees, _first, _ratio, _held) = (plane, cells, degrees, first, ratio, held);

    /// <summary>Prepares the outlook; null where the averaged equations have no answer.</summary>
    /// <param name="escape">The averaged escape.</param>
    /// <param name="durationSeconds">Length of a ride, s.</param>
    /// <param name="threads">Threads that may work at once.</param>
    public static LossOutlook? Of(AveragedEscape escape, double durationSeconds, int threads)
    {
        ArgumentNullException.ThrowIfNull(escape);
        double first = Math.Min(0.02 * durationSeconds, 1 / escape.Mesh.Well.FrequencyHertz);
        double ratio = Math.Pow(durationSeconds / first, 1.0 / (Times - 1));
        double[]?[] held = new double[]?[Times];
        Parallel.For(
            0,
            Times,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            i => held[i] = escape.HeldBy(first * Math.Pow(ratio, i))
        );
        return held.Any(h => h is null)
            ? null
            : new(
                new(escape.Mesh.Well),
                escape.Mesh.Count,
                escape.Mesh.Mass.Size,
                first,
                ratio,
                [.. held.Select(h => h!)]
            );
    }

    /// <summary>The score of a state.</summary>
    /// <param name="distance">Distance from the middle, m.</param>
    /// <param name="radialSpeed">Speed outward, m/s.</param>
    /// <param name="turnSpeed">Speed across, m/s, not negative.</param>
    /// <param name="leftSeconds">Time left, s, not negative.</param>
    public double Score(double distance, double radialSpeed, double turnSpeed, double leftSeconds)
    {
        if (_plane.Locate(distance, radialSpeed, turnSpeed) is not { } at)
        {
            // On its way out, but not yet beyond the edge.
            return 0;
        }
        double place = Math.Clamp(Math.Log(Math.Max(leftSeconds, _first) / _first) / Math.Log(_ratio), 0, Times - 1);
        int early = Math.Min((int)place, Times - 2);
        double late = place - early;
        double low = Math.Log(
            Math.Max(Least, 1 - EscapeMesh.ValueAt(_held[early], _cells, _degrees, at.Share, at.Form))
        );
        double high = Math.Log(
            Math.Max(Least, 1 - EscapeMesh.ValueAt(_held[early + 1], _cells, _degrees, at.Share, at.Form))
        );
        return (1 - late) * low + late * high - (1 - at.Share);
    }
}
