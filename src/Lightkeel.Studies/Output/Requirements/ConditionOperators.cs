namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Operators of conditions, entry by entry where an operand is a list.</summary>
/// <remarks>
/// Logic is three-valued (Kleene): what does not exist is neither true nor false, "unknown and false" is false, "unknown or
/// true" is true. A division by zero or an overflow gives an unknown, not a number.
/// </remarks>
internal static class ConditionOperators
{
    /// <summary>Applies an operator; a string instead of a value is a fault of types.</summary>
    public static ConditionValue Binary(string symbol, ConditionValue left, ConditionValue right, out string? fault)
    {
        fault = null;
        if (left.Kind == ValueKind.List || right.Kind == ValueKind.List)
        {
            return Broadcast(symbol, left, right, out fault);
        }
        return symbol switch
        {
            "&&" or "||" => Logic(symbol, left, right, out fault),
            "==" or "!=" => Equality(symbol, left, right, out fault),
            "<" or "<=" or ">" or ">=" => Order(symbol, left, right, out fault),
            _ => Arithmetic(symbol, left, right, out fault),
        };
    }

    /// <summary>Applies a sign or a negation.</summary>
    public static ConditionValue Unary(string symbol, ConditionValue operand, out string? fault)
    {
        fault = null;
        if (operand.Kind == ValueKind.List)
        {
            ConditionValue[] results = new ConditionValue[operand.Entries!.Count];
            for (int i = 0; i < results.Length && fault is null; i++)
            {
                results[i] = Unary(symbol, operand.Entries[i], out fault);
            }
            return ConditionValue.Of(results);
        }
        if (operand.IsUnknown)
        {
            return operand;
        }
        ValueKind needed = symbol == "!" ? ValueKind.Truth : ValueKind.Number;
        if (operand.Kind != needed)
        {
            fault = $"{symbol} needs {(symbol == "!" ? "true or false" : "a number")}, not {operand.Describe()}.";
            return ConditionValue.Null;
        }
        return symbol == "!" ? ConditionValue.Of(!operand.IsTrue) : ConditionValue.Of(-operand.Number);
    }

    /// <summary>A finite number, or an unknown with the reason.</summary>
    public static ConditionValue Finite(double value, string reason) =>
        double.IsFinite(value) ? ConditionValue.Of(value) : ConditionValue.Unknown(reason);

    private static ConditionValue Broadcast(string symbol, ConditionValue left, ConditionValue right, out string? fault)
    {
        fault = null;
        int count = (left.Entries ?? right.Entries)!.Count;
        if (left.Entries is not null && right.Entries is not null && left.Entries.Count != right.Entries.Count)
        {
            fault = $"{symbol} stands between {left.Describe()} and {right.Describe()}.";
            return ConditionValue.Null;
        }
        ConditionValue[] results = new ConditionValue[count];
        for (int i = 0; i < count && fault is null; i++)
        {
            results[i] = Binary(symbol, left.Entries?[i] ?? left, right.Entries?[i] ?? right, out fault);
        }
        return ConditionValue.Of(results);
    }

    private static ConditionValue Logic(string symbol, ConditionValue left, ConditionValue right, out string? fault)
    {
        fault = null;
        foreach (ConditionValue side in (ReadOnlySpan<ConditionValue>)[left, right])
        {
            if (side.Kind is not (ValueKind.Truth or ValueKind.Unknown))
            {
                fault = $"{symbol} needs true or false on both sides, not {side.Describe()}.";
                return ConditionValue.Null;
            }
        }
        bool decides = symbol == "||";
        foreach (ConditionValue side in (ReadOnlySpan<ConditionValue>)[left, right])
        {
            if (side.Kind == ValueKind.Truth && side.IsTrue == decides)
            {
                return side;
            }
        }
        return left.IsUnknown ? left : right;
    }

    private static ConditionValue Equality(string symbol, ConditionValue left, ConditionValue right, out string? fault)
    {
        fault = null;
        bool wanted = symbol == "==";
        if (left.Kind == ValueKind.Null || right.Kind == ValueKind.Null)
        {
            ConditionValue other = left.Kind == ValueKind.Null ? right : left;
            return ConditionValue.Of(other.Kind is ValueKind.Unknown or ValueKind.Null == wanted);
        }
        if (left.IsUnknown || right.IsUnknown)
        {
            return left.IsUnknown ? left : right;
        }
        if (left.Kind != right.Kind || left.Kind == ValueKind.Record)
        {
            fault = $"{symbol} stands between {left.Describe()} and {right.Describe()}.";
            return ConditionValue.Null;
        }
        bool equal =
            left.Kind == ValueKind.Text
                ? string.Equals(left.Text, right.Text, StringComparison.Ordinal)
                : left.Number == right.Number;
        return ConditionValue.Of(equal == wanted);
    }

    private static ConditionValue Order(string symbol, ConditionValue left, ConditionValue right, out string? fault)
    {
        if (NotNumbers(symbol, left, right, out fault) is { } early)
        {
            return early;
        }
        (double a, double b) = (left.Number, right.Number);
        return ConditionValue.Of(
            symbol switch
            {
                "<" => a < b,
                "<=" => a <= b,
                ">" => a > b,
                _ => a >= b,
            }
        );
    }

    private static ConditionValue Arithmetic(
        string symbol,
        ConditionValue left,
        ConditionValue right,
        out string? fault
    )
    {
        if (NotNumbers(symbol, left, right, out fault) is { } early)
        {
            return early;
        }
        (double a, double b) = (left.Number, right.Number);
        return symbol switch
        {
            "+" => Finite(a + b, "the sum overflows"),
            "-" => Finite(a - b, "the difference overflows"),
            "*" => Finite(a * b, "the product overflows"),
            _ => Finite(a / b, b == 0 ? "divided by zero" : "the quotient overflows"),
        };
    }

    private static ConditionValue? NotNumbers(
        string symbol,
        ConditionValue left,
        ConditionValue right,
        out string? fault
    )
    {
        fault = null;
        foreach (ConditionValue side in (ReadOnlySpan<ConditionValue>)[left, right])
        {
            if (side.Kind is not (ValueKind.Number or ValueKind.Unknown))
            {
                fault = $"{symbol} needs numbers on both sides, not {side.Describe()}.";
                return ConditionValue.Null;
            }
        }
        return left.IsUnknown ? left
            : right.IsUnknown ? right
            : null;
    }
}
