namespace Lightkeel.Numerics.Sampling.Draws;

/// <summary>Four independent, uniformly distributed 64-bit words: the output of one generator call.</summary>
/// <param name="Word0">First word.</param>
/// <param name="Word1">Second word.</param>
/// <param name="Word2">Third word.</param>
/// <param name="Word3">Fourth word.</param>
public readonly record struct RandomBlock(ulong Word0, ulong Word1, ulong Word2, ulong Word3)
{
    /// <summary>One of the four words.</summary>
    /// <param name="index">0, 1, 2 or 3.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index is not 0 to 3.</exception>
    public ulong this[int index] =>
        index switch
        {
            0 => Word0,
            1 => Word1,
            2 => Word2,
            3 => Word3,
            _ => throw new ArgumentOutOfRangeException(nameof(index), index, "A block has words 0 to 3."),
        };
}
