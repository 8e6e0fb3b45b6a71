namespace Lightkeel.Physics.Units;

/// <summary>A unit as an exact decimal shift with a quotient of two plain numbers beside it.</summary>
/// <remarks>
/// Keeping the power of ten apart lets <c>1.064 um</c> give the very bits of the literal 1.064e-6: the shift is made in the
/// decimal text before it is rounded. The SI value of a number x in this unit is <c>x·10^Shift·Numerator/Denominator</c>.
/// </remarks>
internal readonly record struct UnitOfMeasure(double Numerator, double Denominator, int Shift, Dimension Dimension)
{
    private const int LargestPower = 24;

    public static UnitOfMeasure One => new(1, 1, 0, Dimension.None);

    /// <summary>True when the factor to SI is a power of ten, so that conversion is exact in the decimal text.</summary>
    public bool IsDecimal => Numerator == 1 && Denominator == 1;

    /// <summary>False when the powers or the factor have grown beyond all use.</summary>
    public bool IsReasonable =>
        Dimension.LargestPower <= LargestPower
        && Math.Abs(Shift) <= 400
        && double.IsNormal(Numerator)
        && double.IsNormal(Denominator);

    public UnitOfMeasure Times(UnitOfMeasure other) =>
        new(
            Numerator * other.Numerator,
            Denominator * other.Denominator,
            Shift + other.Shift,
            Dimension * other.Dimension
        );

    public UnitOfMeasure Inverse() => new(Denominator, Numerator, -Shift, Dimension.None / Dimension);

    public UnitOfMeasure Power(int exponent)
    {
        UnitOfMeasure factor = exponent < 0 ? Inverse() : this;
        UnitOfMeasure result = One;
        for (int i = 0; i < Math.Abs(exponent); i++)
        {
            result = result.Times(factor);
        }
        return result;
    }
}
