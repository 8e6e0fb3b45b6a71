namespace Lightkeel.Numerics.Optimisation;

/// <summary>What a variable of a search may be.</summary>
public enum SearchVariableKind
{
    /// <summary>Any number between its ends.</summary>
    Real,

    /// <summary>Any whole number between its ends, with both.</summary>
    Whole,

    /// <summary>One of several things without order, by number from 0.</summary>
    Category,
}

/// <summary>A variable of a search.</summary>
/// <param name="Kind">What it may be.</param>
/// <param name="Lower">Least value.</param>
/// <param name="Upper">Greatest value.</param>
public readonly record struct SearchVariable(SearchVariableKind Kind, double Lower, double Upper)
{
    /// <summary>A real variable.</summary>
    public static SearchVariable Real(double lower, double upper) => new(SearchVariableKind.Real, lower, upper);

    /// <summary>A whole number.</summary>
    public static SearchVariable Whole(long lower, long upper) => new(SearchVariableKind.Whole, lower, upper);

    /// <summary>One of several things.</summary>
    public static SearchVariable Category(int count) => new(SearchVariableKind.Category, 0, count - 1);

    /// <summary>The allowed value nearest to a value.</summary>
    public double Nearest(double value)
    {
        double inside = Math.Clamp(value, Lower, Upper);
        return Kind == SearchVariableKind.Real ? inside : Math.Round(inside, MidpointRounding.AwayFromZero);
    }

    /// <summary>The allowed value at a share of the range: each whole value is equally likely for an even share.</summary>
    /// <param name="share">0 to 1.</param>
    public double At(double share) =>
        Kind == SearchVariableKind.Real
            ? Lower + share * (Upper - Lower)
            : Math.Min(Upper, Lower + Math.Floor(share * (Upper - Lower + 1)));
}
