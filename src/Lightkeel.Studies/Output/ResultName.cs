namespace Lightkeel.Studies.Output;

/// <summary>Rule for names that become file names.</summary>
public static class ResultName
{
    /// <summary>Returns the name when it is made of lower-case letters, digits and single hyphens.</summary>
    /// <exception cref="ArgumentException">It is not.</exception>
    public static string Require(string name)
    {
        ArgumentException.ThrowIfNullOrEmpty(name);
        bool good =
            name.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-')
            && name[0] != '-'
            && name[^1] != '-'
            && !name.Contains("--", StringComparison.Ordinal);
        return good
            ? name
            : throw new ArgumentException(
                $"\"{name}\" must be made of lower-case letters, digits and single hyphens.",
                nameof(name)
            );
    }
}
