using Lightkeel.Numerics.Sampling.Distributions;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Ride;

/// <summary>Numbers of a design that differ from ride to ride.</summary>
internal sealed class ScatterPlan
{
    private const double CutDeviations = 3;
    private readonly DesignDocument _document;
    private readonly (string Path, Distribution Law)[] _drawn;

    private ScatterPlan(
        DesignDocument document,
        (string Path, Distribution Law)[] drawn,
        IReadOnlyList<string> sentences
    ) => (_document, _drawn, Sentences) = (document, drawn, sentences);

    /// <summary>How many numbers differ.</summary>
    public int Count => _drawn.Length;

    /// <summary>What differs, in words.</summary>
    public IReadOnlyList<string> Sentences { get; }

    /// <summary>True when craft, beam and limits are the same for all rides.</summary>
    public bool ChangesStartOnly => _drawn.All(d => d.Path.StartsWith("start.", StringComparison.Ordinal));

    /// <summary>Prepares the scatters.</summary>
    /// <exception cref="InputRefusedException">A path or spread is wrong.</exception>
    public static ScatterPlan Of(DesignDocument document, IReadOnlyList<ScatterDesign> scatters)
    {
        IReadOnlyList<DesignFault> faults = ScatterCheck.FaultsOf(document, scatters);
        if (faults.Count > 0)
        {
            throw new InputRefusedException([
                .. faults.Select(f => new InputFault(f.Position.ToString(), f.What, f.Accepted)),
            ]);
        }
        List<(string, Distribution)> drawn = [];
        List<string> sentences = [];
        foreach (ScatterDesign scatter in scatters)
        {
            (double value, double spread) = ScatterCheck.NumbersOf(document, scatter);
            drawn.Add((scatter.Path, LawOf(scatter.Shape, value, spread)));
            sentences.Add($"{scatter.Path}: {WordOf(scatter.Shape)}, {scatter.Spread}");
        }
        return new(document, [.. drawn], sentences);
    }

    /// <summary>Reads <c>PATH~distribution(spread)</c>.</summary>
    /// <exception cref="InputRefusedException">The text has another form.</exception>
    public static ScatterDesign Read(string text)
    {
        int tilde = text.IndexOf('~');
        int open = text.IndexOf('(', Math.Max(tilde, 0));
        string trimmed = text.TrimEnd();
        string word = tilde > 0 && open > tilde ? text[(tilde + 1)..open].Trim() : "";
        ScatterShape? shape = word switch
        {
            "normal" => ScatterShape.Normal,
            "uniform" => ScatterShape.Uniform,
            "triangular" => ScatterShape.Triangular,
            "truncated-normal" => ScatterShape.TruncatedNormal,
            _ => null,
        };
        if (shape is not { } known || !trimmed.EndsWith(')'))
        {
            throw new InputRefusedException(
                "--scatter",
                $"\"{text}\" is no scatter",
                "expected PATH~normal(SPREAD), with normal, uniform, triangular or truncated-normal, such as \"start.offset.x~normal(5 mm)\""
            );
        }
        return new()
        {
            Path = text[..tilde].Trim(),
            Shape = known,
            Spread = trimmed[(open + 1)..^1].Trim(),
            PathPosition = new($"--scatter {text}", 0, 0),
            SpreadPosition = new($"--scatter {text}", 0, 0),
        };
    }

    /// <summary>The design of one ride.</summary>
    /// <exception cref="InputRefusedException">What was drawn makes no design.</exception>
    public Design Draw(ulong seed, ulong ride)
    {
        DesignDocument document = _document;
        foreach ((string path, Distribution law) in _drawn)
        {
            double value = law.Quantile(new RandomDraws(seed, ride, $"scatter.{path}").Uniform(0));
            document = document.WithNumber(path, value);
        }
        DesignReading reading = document.Read();
        return reading.Design
            ?? throw new InputRefusedException(
                FormattableString.Invariant($"scatter, ride {ride}"),
                $"the numbers drawn make no design: {reading.Faults[0].Position} {reading.Faults[0].What}",
                "narrow the spread, or take uniform or truncated-normal"
            );
    }

    private static Distribution LawOf(ScatterShape shape, double value, double spread) =>
        shape switch
        {
            ScatterShape.Normal => new NormalDistribution(value, spread),
            ScatterShape.Uniform => new UniformDistribution(value - spread, value + spread),
            ScatterShape.Triangular => new TriangularDistribution(value - spread, value, value + spread),
            _ => new TruncatedNormalDistribution(
                value,
                spread,
                value - CutDeviations * spread,
                value + CutDeviations * spread
            ),
        };

    private static string WordOf(ScatterShape shape) =>
        shape switch
        {
            ScatterShape.Normal => "normal, standard deviation",
            ScatterShape.Uniform => "uniform within",
            ScatterShape.Triangular => "triangular within",
            _ => "truncated normal, standard deviation",
        };
}
