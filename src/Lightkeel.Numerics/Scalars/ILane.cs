namespace Lightkeel.Numerics.Scalars;

/// <summary>A plain number (one value or several side by side) with the bit-level steps that elementary functions need.</summary>
/// <typeparam name="TSelf">The implementing number type.</typeparam>
public interface ILane<TSelf> : IScalar<TSelf>
    where TSelf : struct, ILane<TSelf>
{
    /// <summary>2^n where the argument is n + 1.5·2^52 and n is an integer in −1022 … 1023.</summary>
    static abstract TSelf PowerOfTwo(TSelf shiftedExponent);

    /// <summary>Splits a positive normal number into a mantissa in [1, 2) and an integer exponent.</summary>
    static abstract (TSelf Mantissa, TSelf Exponent) Split(TSelf x);
}
