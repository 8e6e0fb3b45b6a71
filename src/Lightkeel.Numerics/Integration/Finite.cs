namespace Lightkeel.Numerics.Integration;

/// <summary>Whether numbers are finite: no NaN leaves a run.</summary>
internal static class Finite
{
    /// <summary>True when every number is finite.</summary>
    public static bool All(ReadOnlySpan<double> values)
    {
        foreach (double value in values)
        {
            if (!double.IsFinite(value))
            {
                return false;
            }
        }
        return true;
    }
}
