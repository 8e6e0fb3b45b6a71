using System.Globalization;
using System.Text.RegularExpressions;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using DesignNumber = Lightkeel.Studies.Designs.Specification.DesignNumber;

namespace Lightkeel.Studies.Models;

/// <summary>One axis of a map or of a basin: a number of the design and the values it takes.</summary>
/// <param name="Path">Dotted path of the number.</param>
/// <param name="Values">Values, SI, ascending, two or more.</param>
/// <param name="IsLogarithmic">True when neighbours have equal ratios.</param>
/// <param name="Unit">SI unit; empty for a pure number.</param>
/// <param name="Own">The design's own value, SI.</param>
public sealed partial record DesignAxis(
    string Path,
    IReadOnlyList<double> Values,
    bool IsLogarithmic,
    string Unit,
    double Own
)
{
    private const int MostValues = 4096;
    private const string Form =
        "write PATH=A..B:N with units, such as \"sail.canopy.half_angle=60 deg..85 deg:64\"; N:log for equal ratios";

    /// <summary>True when the number belongs to the masses alone, so that no light depends on it.</summary>
    public bool IsOfMassOnly =>
        Path.StartsWith("mass.", StringComparison.Ordinal)
        || Path.StartsWith("craft.", StringComparison.Ordinal)
        || (
            Path.StartsWith("sail.", StringComparison.Ordinal)
            && Path.EndsWith(".areal_density", StringComparison.Ordinal)
        );

    /// <summary>Reads an axis.</summary>
    /// <param name="document">The design.</param>
    /// <param name="flag">The flag it was given by, for messages.</param>
    /// <param name="text"><c>PATH=A..B:N</c> or <c>PATH=A..B:N:log</c>.</param>
    /// <exception cref="InputRefusedException">It is none.</exception>
    public static DesignAxis Read(DesignDocument document, string flag, string text)
    {
        ArgumentNullException.ThrowIfNull(document);
        Match match = AxisForm().Match(text);
        if (!match.Success)
        {
            throw new InputRefusedException(flag, $"\"{text}\" is no axis", Form);
        }
        string path = match.Groups["path"].Value;
        double first = End(document, flag, path, match.Groups["a"].Value);
        double last = End(document, flag, path, match.Groups["b"].Value);
        bool read = int.TryParse(
            match.Groups["n"].Value,
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out int count
        );
        if (!read || count < 2 || count > MostValues)
        {
            throw new InputRefusedException(
                flag,
                match.Groups["n"].Value == "1"
                    ? "one value is asked for"
                    : $"{match.Groups["n"].Value} values are asked for",
                $"an axis has from 2 to {MostValues} values"
            );
        }
        bool logarithmic = match.Groups["log"].Success;
        if (!(first < last))
        {
            throw new InputRefusedException(
                flag,
                $"the axis of {path} does not ascend",
                "write the smaller end first, as in A..B with A below B"
            );
        }
        if (logarithmic && !(first > 0))
        {
            throw new InputRefusedException(
                flag,
                $"an axis of equal ratios cannot begin at {match.Groups["a"].Value}",
                "begin above zero, or leave :log out"
            );
        }
        DesignNumber number = document.Numbers.FirstOrDefault(n => n.Path == path) ?? Added(document, path, first);
        if (number.Kind.IsWhole && (logarithmic || (last - first) % (count - 1) != 0))
        {
            throw new InputRefusedException(
                flag,
                $"{path} is a whole number and cannot take the values between",
                "choose N so that the steps are whole"
            );
        }
        return new(
            path,
            Spread(first, last, count, logarithmic),
            logarithmic,
            UnitOf(number.Dimension),
            number.SiValue
        );
    }

    /// <summary>An axis of equal steps.</summary>
    /// <param name="document">The design.</param>
    /// <param name="path">Dotted path of the number.</param>
    /// <param name="first">First value, SI.</param>
    /// <param name="last">Last value, SI, above the first.</param>
    /// <param name="count">How many values, two or more.</param>
    public static DesignAxis Even(DesignDocument document, string path, double first, double last, int count)
    {
        ArgumentNullException.ThrowIfNull(document);
        DesignNumber number = document.Numbers.FirstOrDefault(n => n.Path == path) ?? Added(document, path, first);
        return new(path, Spread(first, last, count, false), false, UnitOf(number.Dimension), number.SiValue);
    }

    /// <summary>The axis as one line: different axes have different lines.</summary>
    public string ToText() =>
        FormattableString.Invariant(
            $"{Path}={Values[0]:R}..{Values[^1]:R}:{Values.Count}{(IsLogarithmic ? ":log" : "")}"
        );

    /// <summary>Where a value lies on the axis, in columns from the first, linear in the scale of the axis.</summary>
    public double Coordinate(double value) => IsLogarithmic ? Math.Log(value) : value;

    /// <summary>The inverse of <see cref="Coordinate"/>.</summary>
    public double Value(double coordinate) => IsLogarithmic ? Math.Exp(coordinate) : coordinate;

    private static double End(DesignDocument document, string flag, string path, string text)
    {
        try
        {
            return document.ParseNumber(path, text.Trim());
        }
        catch (DesignFaultException e)
        {
            throw new InputRefusedException([
                .. e.Faults.Select(f => new InputFault(flag, $"{f.Position}: {f.What}", f.Accepted)),
            ]);
        }
    }

    // A number that the design does not have yet, but takes.
    private static DesignNumber Added(DesignDocument document, string path, double value) =>
        document.WithNumber(path, value).Numbers.First(n => n.Path == path);

    private static double[] Spread(double first, double last, int count, bool logarithmic)
    {
        double[] values = new double[count];
        double ratio = logarithmic ? Math.Log(last / first) : 0;
        for (int i = 0; i < count; i++)
        {
            double share = (double)i / (count - 1);
            values[i] = logarithmic ? first * Math.Exp(share * ratio) : first + share * (last - first);
        }
        (values[0], values[^1]) = (first, last);
        return values;
    }

    private static string UnitOf(Dimension dimension) => dimension == Dimension.None ? "" : dimension.ToString();

    [GeneratedRegex(@"^\s*(?<path>[^=\s]+)\s*=\s*(?<a>.+?)\s*\.\.\s*(?<b>.+?)\s*:\s*(?<n>\d+)\s*(?<log>:\s*log)?\s*$")]
    private static partial Regex AxisForm();
}
