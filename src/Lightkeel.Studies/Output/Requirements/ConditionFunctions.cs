namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Functions that a condition may call.</summary>
internal static class ConditionFunctions
{
    public static readonly IReadOnlyList<string> Names =
    [
        "abs",
        "sqrt",
        "min",
        "max",
        "sum",
        "count",
        "all",
        "any",
        "near",
    ];

    public static ConditionValue Call(string name, IReadOnlyList<ConditionValue> arguments, out string? fault)
    {
        fault = ArgumentFault(name, arguments.Count);
        if (fault is not null)
        {
            return ConditionValue.Null;
        }
        return name switch
        {
            "abs" => Map(arguments[0], name, v => ConditionValue.Of(Math.Abs(v)), out fault),
            "sqrt" => Map(arguments[0], name, Root, out fault),
            "count" => Count(arguments[0], out fault),
            "all" or "any" => Join(name == "all" ? "&&" : "||", name == "all", arguments[0], out fault),
            "near" => Near(arguments, out fault),
            _ => Reduce(name, arguments, out fault),
        };
    }

    private static string? ArgumentFault(string name, int count)
    {
        (int least, int most) = name switch
        {
            "near" => (3, 3),
            "min" or "max" or "sum" => (1, int.MaxValue),
            _ => (1, 1),
        };
        string wanted =
            most == int.MaxValue ? "one argument or more"
            : most == 1 ? "one argument"
            : "three arguments";
        return count >= least && count <= most ? null
            : name == "near" ? "near(a, b, r) takes three arguments: two numbers and the relative difference allowed."
            : $"{name}() takes {wanted}.";
    }

    private static ConditionValue Root(double value) =>
        value < 0 ? ConditionValue.Unknown("square root of a negative number") : ConditionValue.Of(Math.Sqrt(value));

    private static ConditionValue Map(
        ConditionValue value,
        string name,
        Func<double, ConditionValue> function,
        out string? fault
    )
    {
        fault = null;
        if (value.Entries is not null)
        {
            ConditionValue[] results = new ConditionValue[value.Entries.Count];
            for (int i = 0; i < results.Length && fault is null; i++)
            {
                results[i] = Map(value.Entries[i], name, function, out fault);
            }
            return ConditionValue.Of(results);
        }
        if (value.Kind == ValueKind.Number)
        {
            return function(value.Number);
        }
        fault = value.IsUnknown ? null : $"{name}() needs a number, not {value.Describe()}.";
        return value;
    }

    private static ConditionValue Count(ConditionValue value, out string? fault)
    {
        fault = value.Kind is ValueKind.List or ValueKind.Unknown
            ? null
            : $"count() needs a list, not {value.Describe()}.";
        return value.Entries is null ? value : ConditionValue.Of(value.Entries.Count);
    }

    private static ConditionValue Join(string symbol, bool start, ConditionValue value, out string? fault)
    {
        fault = null;
        ConditionValue joined = ConditionValue.Of(start);
        foreach (ConditionValue entry in Flatten([value]))
        {
            joined = ConditionOperators.Binary(symbol, joined, entry, out fault);
            if (fault is not null)
            {
                break;
            }
        }
        return joined;
    }

    private static ConditionValue Reduce(string name, IReadOnlyList<ConditionValue> arguments, out string? fault)
    {
        fault = null;
        double? total = name == "sum" ? 0 : null;
        foreach (ConditionValue entry in Flatten(arguments))
        {
            if (entry.IsUnknown)
            {
                return entry;
            }
            if (entry.Kind != ValueKind.Number)
            {
                fault = $"{name}() needs numbers, not {entry.Describe()}.";
                return entry;
            }
            total = name switch
            {
                "sum" => total + entry.Number,
                "min" => Math.Min(total ?? entry.Number, entry.Number),
                _ => Math.Max(total ?? entry.Number, entry.Number),
            };
        }
        return total is double value
            ? ConditionOperators.Finite(value, "the sum overflows")
            : ConditionValue.Unknown($"{name}() of an empty list");
    }

    private static ConditionValue Near(IReadOnlyList<ConditionValue> arguments, out string? fault)
    {
        fault = null;
        foreach (ConditionValue argument in arguments)
        {
            if (argument.Kind != ValueKind.Number)
            {
                fault = argument.IsUnknown ? null : $"near() needs numbers, not {argument.Describe()}.";
                return argument;
            }
        }
        (double a, double b, double allowed) = (arguments[0].Number, arguments[1].Number, arguments[2].Number);
        return ConditionValue.Of(Math.Abs(a - b) <= allowed * Math.Max(Math.Abs(a), Math.Abs(b)));
    }

    private static IEnumerable<ConditionValue> Flatten(IEnumerable<ConditionValue> values) =>
        values.SelectMany(value => value.Entries is null ? [value] : Flatten(value.Entries));
}
