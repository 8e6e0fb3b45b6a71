using System.Globalization;

namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Cuts a condition into its words.</summary>
internal static class ConditionReader
{
    private static readonly string[] TwoLetterSymbols = ["&&", "||", "==", "!=", "<=", ">="];
    private const string OneLetterSymbols = "<>!+-*/()[],.";

    public static List<ConditionToken> Read(string condition)
    {
        List<ConditionToken> tokens = [];
        int at = 0;
        while (at < condition.Length)
        {
            if (char.IsWhiteSpace(condition[at]))
            {
                at++;
                continue;
            }
            ConditionToken token = Next(condition, at, out int length);
            tokens.Add(token);
            at += length;
        }
        tokens.Add(new(TokenKind.End, "", 0, condition.Length));
        return tokens;
    }

    private static ConditionToken Next(string condition, int at, out int length)
    {
        char first = condition[at];
        if (
            char.IsAsciiDigit(first)
            || (first == '.' && at + 1 < condition.Length && char.IsAsciiDigit(condition[at + 1]))
        )
        {
            return ReadNumber(condition, at, out length);
        }
        if (char.IsAsciiLetter(first) || first == '_')
        {
            length = 1;
            while (at + length < condition.Length && IsNamePart(condition[at + length]))
            {
                length++;
            }
            return new(TokenKind.Name, condition.Substring(at, length), 0, at);
        }
        if (first is '"' or '\'')
        {
            return ReadText(condition, at, out length);
        }
        return ReadSymbol(condition, at, out length);
    }

    private static bool IsNamePart(char c) => char.IsAsciiLetterOrDigit(c) || c == '_';

    private static ConditionToken ReadNumber(string condition, int at, out int length)
    {
        length = 0;
        while (at + length < condition.Length && IsNumberPart(condition, at, length))
        {
            length++;
        }
        string text = condition.Substring(at, length);
        bool read = double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value);
        if (!read || !double.IsFinite(value))
        {
            throw new RequirementException(condition, at, $"\"{text}\" is not a finite number.");
        }
        if (at + length < condition.Length && IsNamePart(condition[at + length]))
        {
            throw new RequirementException(
                condition,
                at + length,
                "A number stands without a unit: it is compared in the unit that its key ends in."
            );
        }
        return new(TokenKind.Number, text, value, at);
    }

    private static bool IsNumberPart(string condition, int start, int length)
    {
        char c = condition[start + length];
        if (char.IsAsciiDigit(c) || c == '.')
        {
            return true;
        }
        if (c is 'e' or 'E')
        {
            int next = start + length + 1;
            next += next < condition.Length && condition[next] is '+' or '-' ? 1 : 0;
            return next < condition.Length && char.IsAsciiDigit(condition[next]);
        }
        return c is '+' or '-' && length > 0 && condition[start + length - 1] is 'e' or 'E';
    }

    private static ConditionToken ReadText(string condition, int at, out int length)
    {
        int end = condition.IndexOf(condition[at], at + 1);
        if (end < 0)
        {
            throw new RequirementException(condition, at, "The quotation mark is never closed.");
        }
        length = end - at + 1;
        return new(TokenKind.Text, condition.Substring(at + 1, length - 2), 0, at);
    }

    private static ConditionToken ReadSymbol(string condition, int at, out int length)
    {
        foreach (string symbol in TwoLetterSymbols)
        {
            if (string.CompareOrdinal(condition, at, symbol, 0, 2) == 0)
            {
                length = 2;
                return new(TokenKind.Symbol, symbol, 0, at);
            }
        }
        length = 1;
        char c = condition[at];
        if (OneLetterSymbols.Contains(c, StringComparison.Ordinal))
        {
            return new(TokenKind.Symbol, c.ToString(), 0, at);
        }
        string hint = c switch
        {
            '=' => " Equality is written ==.",
            '&' => " \"And\" is written &&.",
            '|' => " \"Or\" is written ||.",
            _ => "",
        };
        throw new RequirementException(condition, at, $"\"{c}\" has no meaning here.{hint}");
    }
}
