using System.Collections.Concurrent;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Equally spaced azimuths around a full ring (the trapezoid rule, which converges spectrally on a circle), those of the
/// nested half-size rule first.
/// </summary>
internal sealed class AzimuthRule
{
    private static readonly ConcurrentDictionary<int, AzimuthRule> Rules = new();

    /// <summary>Sizes of the ladder; all are multiples of 16, so that each half fills whole vectors.</summary>
    public static readonly int[] Ladder = [16, 32, 48, 64, 96, 128, 192, 256, 384, 512, 768, 1024];

    private AzimuthRule(int count)
    {
        Cosines = new double[count];
        Sines = new double[count];
        for (int j = 0; j < count; j++)
        {
            int slot = (j & 1) == 0 ? j / 2 : count / 2 + j / 2;
            (Sines[slot], Cosines[slot]) = Math.SinCos(2 * Math.PI * j / count);
        }
    }

    /// <summary>Number of azimuths.</summary>
    public int Count => Cosines.Length;

    /// <summary>Cosines of the azimuths.</summary>
    public double[] Cosines { get; }

    /// <summary>Sines of the azimuths.</summary>
    public double[] Sines { get; }

    /// <summary>The shared rule of a given size.</summary>
    public static AzimuthRule Of(int count) => Rules.GetOrAdd(count, static n => new(n));
}
