namespace Lightkeel.Numerics.Sampling.Draws;

/// <summary>The counter-based generator Philox4x64 with ten rounds: a keyed bijection of 256-bit counters.</summary>
/// <remarks>
/// No state: the same key and counter give the same four words on any machine, in any order. Distinct counters under
/// one key never give the same block. Source: Proceedings of the International Conference for High Performance
/// Computing, Networking, Storage and Analysis (SC'11), article 16 (2011), doi:10.1145/2063384.2063405.
/// </remarks>
public static class Philox4x64
{
    private const ulong Multiplier0 = 0xD2E7470EE14C6C93;
    private const ulong Multiplier1 = 0xCA5A826395121157;
    private const ulong KeyStep0 = 0x9E3779B97F4A7C15;
    private const ulong KeyStep1 = 0xBB67AE8584CAA73B;
    private const int Rounds = 10;

    /// <summary>The four words that belong to a key and a counter.</summary>
    /// <param name="key0">Low word of the key.</param>
    /// <param name="key1">High word of the key.</param>
    /// <param name="counter0">Lowest word of the counter.</param>
    /// <param name="counter1">Second word of the counter.</param>
    /// <param name="counter2">Third word of the counter.</param>
    /// <param name="counter3">Highest word of the counter.</param>
    public static RandomBlock Block(
        ulong key0,
        ulong key1,
        ulong counter0,
        ulong counter1,
        ulong counter2,
        ulong counter3
    )
    {
        for (int round = 0; round < Rounds; round++)
        {
            ulong high0 = Math.BigMul(Multiplier0, counter0, out ulong low0);
            ulong high1 = Math.BigMul(Multiplier1, counter2, out ulong low1);
            (counter0, counter1, counter2, counter3) = (high1 ^ counter1 ^ key0, low1, high0 ^ counter3 ^ key1, low0);
            unchecked
            {
                key0 += KeyStep0;
                key1 += KeyStep1;
            }
        }
        return new RandomBlock(counter0, counter1, counter2, counter3);
    }
}
