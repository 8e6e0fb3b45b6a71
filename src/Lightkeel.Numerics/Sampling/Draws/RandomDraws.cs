namespace Lightkeel.Numerics.Sampling.Draws;

/// <summary>
/// All random numbers of one source in one ride, addressed by (seed, ride, source, step, draw): any one can be computed
/// alone, anywhere and in any order, to the same bits.
/// </summary>
/// <remarks>
/// The generator's key is (seed, source); its counter is (draw / 4, step, ride, 0). Distinct addresses are distinct
/// counters, so streams never overlap whatever their length. Each step holds up to 2⁶⁴ draws. A value type without
/// state; the default value is the stream of seed 0, ride 0, source 0. Safe to share between threads.
/// </remarks>
/// <param name="Seed">The study's seed.</param>
/// <param name="Ride">Index of the ride (or of the sample) in its ensemble.</param>
/// <param name="Source">What is being drawn; see <see cref="SourceNamed"/>.</param>
public readonly record struct RandomDraws(ulong Seed, ulong Ride, ulong Source)
{
    /// <summary>The stream of a named source.</summary>
    /// <param name="seed">The study's seed.</param>
    /// <param name="ride">Index of the ride.</param>
    /// <param name="source">Name of the source, such as "noise.pointing.x"; two names give two independent streams.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public RandomDraws(ulong seed, ulong ride, string source)
        : this(seed, ride, SourceNamed(source)) { }

    /// <summary>A number for a source's name: FNV-1a, 64 bits, over its UTF-16 code units, low byte first.</summary>
    /// <remarks>
    /// Source of the hash: IETF draft "The FNV Non-Cryptographic Hash Algorithm" (draft-eastlake-fnv). The number is
    /// part of the seed contract: a name keeps its draws from version to version.
    /// </remarks>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public static ulong SourceNamed(string name)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ulong hash = 0xCBF29CE484222325;
        foreach (char c in name)
        {
            hash = unchecked((hash ^ (byte)c) * 0x100000001B3);
            hash = unchecked((hash ^ (byte)(c >> 8)) * 0x100000001B3);
        }
        return hash;
    }

    /// <summary>Draws 4·index to 4·index + 3 of a step, as raw words.</summary>
    public RandomBlock Block(ulong step, ulong index = 0) => Philox4x64.Block(Seed, Source, index, step, Ride, 0);

    /// <summary>One raw 64-bit draw of a step.</summary>
    public ulong Word(ulong step, ulong draw = 0) => Block(step, draw / 4)[(int)(draw % 4)];

    /// <summary>One uniform draw in the open interval (0, 1): 2⁵² values, see <see cref="UnitInterval.Open"/>.</summary>
    public double Uniform(ulong step, ulong draw = 0) => UnitInterval.Open(Word(step, draw));

    /// <summary>One standard normal draw; draws 2j and 2j + 1 come from the same pair of words.</summary>
    public double Normal(ulong step, ulong draw = 0)
    {
        RandomBlock block = Block(step, draw / 4);
        (double first, double second) =
            draw % 4 < 2
                ? NormalPair.FromWords(block.Word0, block.Word1)
                : NormalPair.FromWords(block.Word2, block.Word3);
        return draw % 2 == 0 ? first : second;
    }

    /// <summary>An integer from 0 to <paramref name="count"/> − 1, each exactly equally likely.</summary>
    /// <remarks>
    /// The high half of word × count, rejecting the few words that would favour some results: ACM Transactions on
    /// Modeling and Computer Simulation 29(1), 3 (2019), doi:10.1145/3230636. A rejected word is followed by later words of
    /// the same step, which callers of this method must therefore not use otherwise.
    /// </remarks>
    /// <param name="step">Step that this integer owns.</param>
    /// <param name="count">Number of possible results, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count is zero.</exception>
    public ulong Below(ulong step, ulong count)
    {
        ArgumentOutOfRangeException.ThrowIfZero(count);
        ulong least = unchecked(0 - count) % count;
        for (ulong index = 0; ; index++)
        {
            RandomBlock block = Block(step, index);
            for (int w = 0; w < 4; w++)
            {
                ulong high = Math.BigMul(block[w], count, out ulong low);
                if (low >= least)
                {
                    return high;
                }
            }
        }
    }

    /// <summary>Fills a span with the uniform draws 0, 1, 2 … of a step; equal to <see cref="Uniform"/> one by one.</summary>
    public void FillUniform(ulong step, Span<double> draws)
    {
        for (int i = 0; i < draws.Length; i += 4)
        {
            RandomBlock block = Block(step, (ulong)i / 4);
            for (int w = 0; w < 4 && i + w < draws.Length; w++)
            {
                draws[i + w] = UnitInterval.Open(block[w]);
            }
        }
    }

    /// <summary>Fills a span with the normal draws 0, 1, 2 … of a step; equal to <see cref="Normal"/> one by one.</summary>
    public void FillNormal(ulong step, Span<double> draws)
    {
        int whole = draws.Length & ~3;
        for (int i = 0; i < whole; i += 4)
        {
            RandomBlock block = Block(step, (ulong)i / 4);
            (draws[i], draws[i + 1]) = NormalPair.FromWords(block.Word0, block.Word1);
            (draws[i + 2], draws[i + 3]) = NormalPair.FromWords(block.Word2, block.Word3);
        }
        for (int i = whole; i < draws.Length; i++)
        {
            draws[i] = Normal(step, (ulong)i);
        }
    }
}
