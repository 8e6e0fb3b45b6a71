using System.Collections;
using System.Reflection;
using System.Text.Json.Serialization;
using Lightkeel.Studies.Catalogue;
using Xunit;

namespace Lightkeel.Conventions.Tests;

/// <summary>Every number in a result says its unit, in its C# name and in its JSON key.</summary>
public sealed class ResultNameTests
{
    private static readonly string[] UnitWords =
    [
        "Metres",
        "SquareMetres",
        "CubicMetres",
        "Kilograms",
        "Seconds",
        "Hertz",
        "PerSecond",
        "PerMetre",
        "PerHertz",
        "Newtons",
        "NewtonMetres",
        "NewtonsPerMetre",
        "NewtonsPerRadian",
        "Joules",
        "Watts",
        "WattsPerSquareMetre",
        "WattsPerKilogram",
        "Pascals",
        "Kelvin",
        "Radians",
        "MetresPerSecond",
        "MetresPerSecondSquared",
        "RadiansPerSecond",
        "KilogramSquareMetres",
        "KilogramsPerSquareMetre",
        "SquareMetresPerHertz",
        "Amperes",
        "Volts",
    ];

    // "Si" and "PerUnit": numbers of any design path, whose unit stands beside them in the result.
    private static readonly string[] DimensionlessWords =
    [
        "Si",
        "PerUnit",
        "Clearance",
        "RelativeWidth",
        "Size",
        "InPlane",
        "PerPower",
        "Width",
        "OffsetTilt",
        "Value",
        "Beta",
        "Gamma",
        "Rapidity",
        "Fraction",
        "Ratio",
        "Margin",
        "RelativeError",
        "Count",
        "Index",
        "Held",
        "Lost",
        "Rides",
        "Evaluations",
        "Jacobian",
        "Multiplier",
        "Probability",
        "Interval95",
        "Order",
        "Factor",
        "Number",
        "Seed",
        "Iterations",
        "Steps",
        "Tolerance",
        "Expected",
        "Computed",
        "Bounces",
        "Percentile",
        "Quality",
        "Phase",
        "Score",
        "Values",
        "X",
        "Y",
    ];

    private static readonly string[] UnitKeys =
    [
        "_m",
        "_m2",
        "_m3",
        "_kg",
        "_s",
        "_Hz",
        "_1_s",
        "_1_m",
        "_N",
        "_Nm",
        "_N_m",
        "_N_rad",
        "_J",
        "_W",
        "_W_m2",
        "_W_kg",
        "_Pa",
        "_K",
        "_rad",
        "_m_s",
        "_m_s2",
        "_rad_s",
        "_kg_m2",
        "_m2_Hz",
        "_rad2_Hz",
        "_1_Hz",
        "_g0",
        "_A",
        "_V",
    ];

    public static IEnumerable<Type> ResultTypes() =>
        Reach(typeof(IStudy).Assembly.GetTypes().Where(type => type.Name.EndsWith("Result", StringComparison.Ordinal)));

    [Fact]
    public void NumberProperties_EndInAUnitOrAWordWithoutDimension() => Assert.Empty(Nameless(ResultTypes()));

    [Fact]
    public void JsonKeys_OfDimensionalNumbers_EndInTheUnit() => Assert.Empty(WithoutKey(ResultTypes()));

    [Fact]
    public void NullableNumbers_HaveAReasonBesideThem() => Assert.Empty(Silent(ResultTypes()));

    [Fact]
    public void Checks_SeeWhatIsWrong()
    {
        HashSet<Type> types = Reach([typeof(FaultyResult)]);
        Assert.Equal(["FaultyPart.Speed"], Nameless(types));
        Assert.Equal(["FaultyPart.DepthJoules"], WithoutKey(types));
        Assert.Equal(["FaultyPart.DepthJoules"], Silent(types));
    }

    private static string[] Nameless(IEnumerable<Type> types) =>
        [
            .. types
                .SelectMany(Numbers)
                .Where(property => property.Name is not ("X" or "Y" or "Z")) // axes of a map: any number of a design
                .Where(property => !UnitWords.Concat(DimensionlessWords).Any(word => EndsWith(property, word)))
                .Select(NameOf),
        ];

    private static string[] WithoutKey(IEnumerable<Type> types) =>
        [
            .. types
                .SelectMany(Numbers)
                .Where(property => UnitWords.Any(word => EndsWith(property, word)))
                .Where(property => !UnitKeys.Any(unit => KeyOf(property).EndsWith(unit, StringComparison.Ordinal)))
                .Select(NameOf),
        ];

    private static string[] Silent(IEnumerable<Type> types) =>
        [
            .. types
                .SelectMany(Numbers)
                .Where(property => Nullable.GetUnderlyingType(property.PropertyType) is not null)
                .Where(property =>
                    !Shown(property.DeclaringType!).Any(other => KeyOf(other) == KeyOf(property) + "_reason")
                )
                .Select(NameOf),
        ];

    private static bool EndsWith(PropertyInfo property, string word) =>
        property.Name.EndsWith(word, StringComparison.Ordinal);

    private static string KeyOf(PropertyInfo property) =>
        property.GetCustomAttribute<JsonPropertyNameAttribute>()?.Name ?? "";

    private static string NameOf(PropertyInfo property) => $"{property.DeclaringType!.Name}.{property.Name}";

    /// <summary>The types and, again and again, the types of their properties, as far as they are our own.</summary>
    private static HashSet<Type> Reach(IEnumerable<Type> types)
    {
        HashSet<Type> reached = [];
        Queue<Type> open = new(types);
        while (open.TryDequeue(out Type? type))
        {
            bool own = type.Namespace?.StartsWith("Lightkeel.", StringComparison.Ordinal) == true && !type.IsEnum;
            if (own && reached.Add(type))
            {
                foreach (PropertyInfo property in Shown(type))
                {
                    open.Enqueue(ElementOf(property.PropertyType));
                }
            }
        }
        return reached;
    }

    private static IEnumerable<PropertyInfo> Numbers(Type type) =>
        Shown(type)
            .Where(property =>
                ElementOf(property.PropertyType) is { } element
                && (element == typeof(double) || element == typeof(float))
            );

    private static IEnumerable<PropertyInfo> Shown(Type type) =>
        type.GetProperties(BindingFlags.Public | BindingFlags.Instance)
            .Where(property =>
                property.GetCustomAttribute<JsonIgnoreAttribute>() is not { Condition: JsonIgnoreCondition.Always }
            )
            .Where(property => property.GetIndexParameters().Length == 0);

    /// <summary>What a list of lists holds in the end; nullable numbers count as numbers.</summary>
    private static Type ElementOf(Type type)
    {
        if (Nullable.GetUnderlyingType(type) is { } underlying)
        {
            return ElementOf(underlying);
        }
        if (type.IsArray)
        {
            return ElementOf(type.GetElementType()!);
        }
        bool list = type != typeof(string) && type.IsGenericType && typeof(IEnumerable).IsAssignableFrom(type);
        return list ? ElementOf(type.GetGenericArguments()[^1]) : type;
    }

    private sealed record FaultyPart(
        double Speed,
        [property: JsonPropertyName("depth")] double? DepthJoules,
        [property: JsonPropertyName("thrust_N")] double ThrustNewtons,
        double HeldFraction
    );

    private sealed record FaultyResult(IReadOnlyList<FaultyPart[]> Parts);
}
