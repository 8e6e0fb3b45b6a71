using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using DesignNumber = Lightkeel.Studies.Designs.Specification.DesignNumber;
using Interval = Lightkeel.Studies.Designs.Specification.Interval;

namespace Lightkeel.Studies.Check;

/// <summary>Margins and sensitivities of every number of a design that its linear stability depends on.</summary>
internal static class CheckMargins
{
    /// <summary>Searches all numbers, in the order of the file, on several threads.</summary>
    public static IReadOnlyList<CheckedMargin> Find(
        DesignDocument document,
        StabilityReport report,
        string engine,
        StudyContext context
    )
    {
        DesignNumber[] numbers = [.. document.Numbers.Where(n => IsRead(n))];
        CheckedMargin[] margins = new CheckedMargin[numbers.Length];
        ParallelOptions options = new()
        {
            MaxDegreeOfParallelism = context.Threads,
            CancellationToken = context.Cancellation,
        };
        int done = 0;
        Parallel.For(
            0,
            numbers.Length,
            options,
            i =>
            {
                margins[i] = One(document, numbers[i], report, engine, context.Accuracy);
                context.Progress.Report("margins", Interlocked.Increment(ref done), numbers.Length);
            }
        );
        return margins;
    }

    // Marks the end of what a design accepts (shares that sum to one), which is no limit of the craft.
    private const string Refused = "The design is refused there: ";

    private static double? Unknown(MarginSide side) =>
        side.Sentence.Contains(Refused, StringComparison.Ordinal) ? null : side.NotComputableBeyond;

    private static bool IsRead(DesignNumber number) =>
        !number.Kind.IsWhole
        && VerdictNumbers.AreRead(number.Path)
        && !(
            number.IsDefault && number.SiValue == 0 && !number.Path.StartsWith("start.spin", StringComparison.Ordinal)
        );

    private static CheckedMargin One(
        DesignDocument document,
        DesignNumber number,
        StabilityReport report,
        string engine,
        double accuracy
    )
    {
        StabilityReport Analyse(double value)
        {
            try
            {
                DesignModel model = DesignModel.Build(document.WithNumber(number.Path, value).Design);
                return CheckStudy.Assess(model, engine, accuracy).Report;
            }
            catch (Exception e) when (e is InputRefusedException or Designs.Documents.DesignFaultException)
            {
                throw new PressureUnavailableException(Refused + e.Message, e);
            }
            catch (ArithmeticException e)
            {
                throw new PressureUnavailableException(e.Message, e);
            }
        }
        (double smallest, double largest) = Bounds(number);
        StabilityMargin margin = StabilityMargins.Find(
            new(number.Path, number.SiValue, smallest, largest),
            value => value == number.SiValue ? report : Analyse(value)
        );
        return Reading(number, margin);
    }

    // Open ends are approached to a millionth of the way: at the end itself the design would be refused. Further than a
    // twentieth or a hundredfold nobody moves a number of a design.
    private static (double Smallest, double Largest) Bounds(DesignNumber number)
    {
        Interval range = number.Kind.Range;
        double low = range.Minimum;
        double high = range.Maximum;
        double present = number.SiValue;
        if (double.IsFinite(low) && !range.IncludesMinimum)
        {
            low += 1e-6 * (present - low);
        }
        if (double.IsFinite(high) && !range.IncludesMaximum)
        {
            high -= 1e-6 * (high - present);
        }
        double far = 100 * Math.Abs(present);
        double near = 0.05 * Math.Abs(present);
        if (present == 0)
        {
            far = 10;
        }
        low = Math.Max(low, present > 0 && range.Minimum >= 0 ? near : -far);
        high = Math.Min(high, present < 0 && range.Maximum <= 0 ? -near : far);
        return (Math.Min(low, present), Math.Max(high, present));
    }

    private static CheckedMargin Reading(DesignNumber number, StabilityMargin margin)
    {
        double? nearest = null;
        if (number.SiValue != 0)
        {
            double?[] distances =
            [
                margin.Downward.ChangeAt is { } d ? Math.Abs(d - number.SiValue) : null,
                margin.Upward.ChangeAt is { } u ? Math.Abs(u - number.SiValue) : null,
            ];
            nearest = distances.Min() / Math.Abs(number.SiValue);
        }
        return new()
        {
            Path = number.Path,
            ValueSi = number.SiValue,
            Dimension = number.Dimension,
            Unit = UnitOf(number.Dimension),
            LowerSi = margin.Downward.ChangeAt,
            LowerReason = margin.Downward.ChangeAt is null ? margin.Downward.Sentence : null,
            NotComputableBelowSi = Unknown(margin.Downward),
            NotComputableBelowReason = Unknown(margin.Downward) is null ? null : margin.Downward.Sentence,
            LowerVerdict = margin.Downward.Becomes?.Word(),
            UpperSi = margin.Upward.ChangeAt,
            UpperReason = margin.Upward.ChangeAt is null ? margin.Upward.Sentence : null,
            NotComputableAboveSi = Unknown(margin.Upward),
            NotComputableAboveReason = Unknown(margin.Upward) is null ? null : margin.Upward.Sentence,
            UpperVerdict = margin.Upward.Becomes?.Word(),
            RelativeMarginFraction = nearest,
            RelativeMarginReason =
                nearest is not null ? null
                : number.SiValue == 0 ? "The present value is zero; see lower and upper."
                : "The verdict does not change within the range that was searched.",
            Modes =
            [
                .. margin.Sensitivities.Select(s => new CheckedSensitivity(
                    s.FrequencySlope,
                    s.FrequencySlope is null ? s.Reason ?? "It does not exist." : null,
                    s.GrowthSlope,
                    s.GrowthSlope is null ? s.Reason ?? "It does not exist." : null
                )),
            ],
        };
    }

    // The coherent SI unit by its own name where it has one: W rather than kg m^2/s^3.
    internal static string UnitOf(Dimension dimension)
    {
        string named = DimensionName.Of(dimension).Unit;
        bool coherent =
            named.Length > 0 && Quantity.TryParse("1 " + named, out Quantity one, out _) && one.SiValue == 1;
        return dimension == Dimension.None ? ""
            : coherent ? named
            : dimension.ToString();
    }
}
