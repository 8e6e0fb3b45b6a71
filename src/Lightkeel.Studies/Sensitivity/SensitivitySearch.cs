using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;
using DesignNumber = Lightkeel.Studies.Designs.Specification.DesignNumber;
using Interval = Lightkeel.Studies.Designs.Specification.Interval;

namespace Lightkeel.Studies.Sensitivity;

/// <summary>Slopes of all metrics by one number, or why there are none.</summary>
/// <param name="Number">The number.</param>
/// <param name="Scale">By what it is measured.</param>
/// <param name="Slopes">One per metric; null where the metric has no single continuation beside the design.</param>
/// <param name="Methods">How each was obtained.</param>
/// <param name="Reason">Why there are none at all; null when there are.</param>
internal sealed record NumberSlopes(
    DesignNumber Number,
    NumberScale Scale,
    IReadOnlyList<SlopeEstimate?> Slopes,
    IReadOnlyList<string> Methods,
    string? Reason
);

/// <summary>Differentiates the metrics by every number that they read.</summary>
/// <remarks>
/// Forces and stiffness come from the engine's exact derivatives by pose (dual numbers). By the power of the beam the metrics that are
/// linear in the light, and without spin their roots, are differentiated exactly. By all other numbers the metrics are differenced at
/// three steps on both sides (at four on one side where a range ends) and extrapolated; each slope carries its error. Safe to run on any
/// number of threads; results do not depend on it.
/// </remarks>
internal sealed class SensitivitySearch
{
    // The widest step over the number's own size: the sixth power of it is far below the error of the forces.
    private const double WidestStep = 0.01;
    private const double NarrowestStep = 1e-4;
    private const string Power = "beam.power";

    private readonly SensitivityInput _input;
    private readonly double _accuracy;
    private readonly WellProbe? _well;

    public SensitivitySearch(SensitivityInput input, StudyContext context)
    {
        _input = input;
        _accuracy = Math.Min(context.Accuracy, 1e-11);
        Assessment = Assess(input.Design.Model);
        _well = input.WithWell ? WellProbe.Of(input.Design.Model, Assessment.Trim.Pose!.Value, input.Engine) : null;
        Metrics = [.. MetricReading.Of(input.Design.Model, Assessment, Assessment.Report, _well).Select(m => m!)];
    }

    /// <summary>The design as it is.</summary>
    public RidingAssessment Assessment { get; }

    /// <summary>Its metrics.</summary>
    public IReadOnlyList<Metric> Metrics { get; }

    /// <summary>Slopes by every number that is read, in the order of the file.</summary>
    public IReadOnlyList<NumberSlopes> Run(StudyContext context)
    {
        DesignNumber[] numbers =
        [
            .. _input.Design.Document.Numbers.Where(n => !n.Kind.IsWhole && VerdictNumbers.AreRead(n.Path)),
        ];
        NumberSlopes[] slopes = new NumberSlopes[numbers.Length];
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
                slopes[i] = One(numbers[i]);
                context.Progress.Report("slopes", Interlocked.Increment(ref done), numbers.Length);
            }
        );
        return slopes;
    }

    private RidingAssessment Assess(DesignModel model) =>
        RidingAssessment.Of(
            model.Craft,
            model.Beam,
            EngineChoice.Build(_input.Engine, model, _accuracy),
            model.Design.Start.SpinRadiansPerSecond,
            model.Design.Start.SpeedMetresPerSecond
        );

    private NumberSlopes One(DesignNumber number)
    {
        NumberScale scale = NumberScale.Of(number, _input.Design.Model);
        string? reason = null;
        for (double step = WidestStep; step >= NarrowestStep; step *= 0.25)
        {
            (Stencil? stencil, reason) = Around(number, step * scale.Size);
            bool narrower = step * 0.25 >= NarrowestStep;
            // A verdict that changes inside the step hides slopes: try nearer before giving them up.
            if (stencil is { } found && (found.IsWhole || !narrower))
            {
                return Slopes(number, scale, found);
            }
        }
        return new(number, scale, [], [], reason ?? "the verdict changes beside the present value.");
    }

    private NumberSlopes Slopes(DesignNumber number, NumberScale scale, Stencil stencil)
    {
        List<SlopeEstimate?> slopes = [];
        List<string> methods = [];
        for (int k = 0; k < Metrics.Count; k++)
        {
            Metric metric = Metrics[k];
            if (number.Path == Power && metric.Power != PowerLaw.Unknown)
            {
                double share = metric.Power switch
                {
                    PowerLaw.Linear => 1,
                    PowerLaw.Root => 0.5,
                    _ => 0,
                };
                slopes.Add(new(share * metric.Value / number.SiValue, share * metric.Noise / number.SiValue));
                methods.Add("exact");
                continue;
            }
            slopes.Add(stencil.Slope(k, metric));
            methods.Add(stencil.Method);
        }
        return new(number, scale, slopes, methods, null);
    }

    private (Stencil? Stencil, string? Reason) Around(DesignNumber number, double h)
    {
        Interval range = number.Kind.Range;
        double v = number.SiValue;
        bool down = range.Contains(v - h);
        bool up = range.Contains(v + h);
        (IReadOnlyList<Metric?>[]? above, string? blockedUp) = up ? Three(number, h) : (null, "the range ends there");
        (IReadOnlyList<Metric?>[]? below, string? blockedDown) = down
            ? Three(number, -h)
            : (null, "the range ends there");
        if (above is null && below is null)
        {
            return (null, $"no value beside the present one could be computed: {blockedUp ?? blockedDown}");
        }
        // One side alone needs one more value for as good an estimate.
        if (below is null && At(number, h / 8) is { } nearUp)
        {
            above = [.. above!, nearUp];
        }
        if (above is null && At(number, -h / 8) is { } nearDown)
        {
            below = [.. below!, nearDown];
        }
        return (new(h, below, above), null);
    }

    private (IReadOnlyList<Metric?>[]?, string?) Three(DesignNumber number, double h)
    {
        IReadOnlyList<Metric?>[] values = new IReadOnlyList<Metric?>[3];
        string? why = null;
        for (int i = 0; i < 3; i++)
        {
            if (At(number, h / (1 << i), m => why = m) is not { } metrics)
            {
                return (null, why);
            }
            values[i] = metrics;
        }
        return (values, null);
    }

    private IReadOnlyList<Metric?>? At(DesignNumber number, double change, Action<string>? refused = null)
    {
        try
        {
            double value = number.SiValue + change;
            DesignModel model = DesignModel.Build(_input.Design.Document.WithNumber(number.Path, value).Design);
            return MetricReading.Of(model, Assess(model), Assessment.Report, _well);
        }
        catch (Exception e)
            when (e
                    is InputRefusedException
                        or DesignFaultException
                        or PressureUnavailableException
                        or ArithmeticException
            )
        {
            refused?.Invoke(e.Message);
            return null;
        }
    }

    /// <summary>Metrics at three steps on both sides, or at four on one.</summary>
    private sealed record Stencil(double Step, IReadOnlyList<Metric?>[]? Below, IReadOnlyList<Metric?>[]? Above)
    {
        public string Method => Below is not null && Above is not null ? "central" : "one-sided";

        public bool IsWhole => (Below ?? []).Concat(Above ?? []).All(side => side.All(m => m is not null));

        public SlopeEstimate? Slope(int metric, Metric present)
        {
            double[]? below = Values(Below, metric);
            double[]? above = Values(Above, metric);
            if ((Below is not null && below is null) || (Above is not null && above is null))
            {
                return null;
            }
            return (below, above) switch
            {
                ({ } b, { } a) => ExtrapolatedSlope.Central(b, a, Step, present.Noise),
                (null, { Length: 4 } a) => ExtrapolatedSlope.OneSided(present.Value, a, Step, present.Noise),
                ({ Length: 4 } b, null) => ExtrapolatedSlope.OneSided(present.Value, b, -Step, present.Noise),
                _ => null,
            };
        }

        private static double[]? Values(IReadOnlyList<Metric?>[]? side, int metric) =>
            side is null || side.Any(m => m[metric] is null) ? null : [.. side.Select(m => m[metric]!.Value)];
    }
}
