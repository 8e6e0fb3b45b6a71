namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Questions about columns of numbers.</summary>
internal static class Sequence
{
    /// <summary>The place of the first value that is not larger than the one before; -1 when there is none.</summary>
    public static int FirstNotIncreasing(IReadOnlyList<double> values)
    {
        for (int i = 1; i < values.Count; i++)
        {
            if (!(values[i] > values[i - 1]))
            {
                return i;
            }
        }
        return -1;
    }
}
