namespace Lightkeel.Studies.Output;

/// <summary>Finds the name that a misspelt word most likely meant.</summary>
public static class NearestName
{
    /// <summary>The nearest of several names, or null when none is near.</summary>
    /// <remarks>
    /// Distance: the fewest insertions, deletions, substitutions and swaps of neighbours (optimal string alignment), letters
    /// compared without regard to case. Near means at most a third of the word's length, and at least one.
    /// A name that begins with the word, or ends with it after an underscore or hyphen, counts as near too.
    /// </remarks>
    /// <param name="word">The word as written.</param>
    /// <param name="names">The names that exist; the first of equals wins.</param>
    public static string? Of(string word, IEnumerable<string> names)
    {
        ArgumentNullException.ThrowIfNull(word);
        ArgumentNullException.ThrowIfNull(names);
        string? best = null;
        string? begins = null;
        int limit = Math.Max(1, Math.Min(4, (word.Length + 1) / 3));
        int bestDistance = limit + 1;
        foreach (string name in names)
        {
            int distance = Distance(word, name);
            if (distance < bestDistance)
            {
                (best, bestDistance) = (name, distance);
            }
            if (begins is null && IsPart(word, name))
            {
                begins = name;
            }
        }
        return best ?? begins;
    }

    /// <summary>A sentence such as <c>Did you mean "thrust_N"?</c>, or the names themselves when none is near and they are few.</summary>
    /// <param name="word">The word as written.</param>
    /// <param name="names">The names that exist.</param>
    public static string Suggestion(string word, IEnumerable<string> names)
    {
        string[] all = [.. names];
        string? nearest = Of(word, all);
        return nearest is not null ? $"did you mean \"{nearest}\"?"
            : all.Length is > 0 and <= 24 ? $"known: {string.Join(", ", all)}"
            : "";
    }

    private static bool IsPart(string word, string name) =>
        word.Length >= 2
        && (
            name.StartsWith(word, StringComparison.OrdinalIgnoreCase)
            || name.EndsWith("_" + word, StringComparison.OrdinalIgnoreCase)
            || name.EndsWith("-" + word, StringComparison.OrdinalIgnoreCase)
        );

    private static int Distance(string a, string b)
    {
        int[,] cost = new int[a.Length + 1, b.Length + 1];
        for (int i = 0; i <= a.Length; i++)
        {
            cost[i, 0] = i;
        }
        for (int j = 0; j <= b.Length; j++)
        {
            cost[0, j] = j;
        }
        for (int i = 1; i <= a.Length; i++)
        {
            for (int j = 1; j <= b.Length; j++)
            {
                int change = Same(a[i - 1], b[j - 1]) ? 0 : 1;
                int least = Math.Min(Math.Min(cost[i - 1, j], cost[i, j - 1]) + 1, cost[i - 1, j - 1] + change);
                bool swapped = i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]);
                cost[i, j] = swapped ? Math.Min(least, cost[i - 2, j - 2] + 1) : least;
            }
        }
        return cost[a.Length, b.Length];
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}
