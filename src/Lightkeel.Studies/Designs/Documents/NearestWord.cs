namespace Lightkeel.Studies.Designs.Documents;

/// <summary>Finds the known word that a misspelt one most likely stands for.</summary>
/// <remarks>Restricted edit distance: insertion, deletion, substitution and exchange of neighbours each count one.</remarks>
internal static class NearestWord
{
    private const int LongestWord = 64;

    /// <summary>The nearest known word, or null when none is near enough to be meant.</summary>
    public static string? Of(string word, IEnumerable<string> known)
    {
        string? best = null;
        int bestDistance = int.MaxValue;
        if (word.Length > LongestWord)
        {
            return null;
        }
        foreach (string candidate in known)
        {
            int distance = Distance(Plain(word), Plain(candidate));
            if (distance < bestDistance)
            {
                (best, bestDistance) = (candidate, distance);
            }
        }
        return bestDistance <= Math.Max(1, word.Length / 3) ? best : null;
    }

    /// <summary>A phrase <c>, did you mean "waist"?</c>, or nothing.</summary>
    public static string Suggestion(string word, IEnumerable<string> known) =>
        Of(word, known) is { } nearest ? $" (did you mean \"{nearest}\"?)" : "";

    private static string Plain(string word) => word.ToLowerInvariant().Replace('-', '_');

    private static int Distance(string a, string b)
    {
        int[,] d = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
        {
            d[i, 0] = i;
        }
        for (int j = 0; j <= b.Length; j++)
        {
            d[0, j] = j;
        }
        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int change = d[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                d[i, j] = Math.Min(change, Math.Min(d[i - 1, j], d[i, j - 1]) + 1);
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    d[i, j] = Math.Min(d[i, j], d[i - 2, j - 2] + 1);
                }
            }
        }
        return d[a.Length, b.Length];
    }
}
