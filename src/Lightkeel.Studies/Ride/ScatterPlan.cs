using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Numbers of a design that differ from ride to ride.</summary>
internal sealed class ScatterPlan
{
    private readonly DesignDocument _document;
    private readonly IReadOnlyList<ScatterLaw> _drawn;

    private ScatterPlan(DesignDocument document, IReadOnlyList<ScatterLaw> drawn, IReadOnlyList<string> sentences) =>
        (_document, _drawn, Sentences) = (document, drawn, sentences);

    /// <summary>How many numbers differ.</summary>
    public int Count => _drawn.Count;

    /// <summary>What differs, in words.</summary>
    public IReadOnlyList<string> Sentences { get; }

    /// <summary>True when craft, beam and limits are the same for all rides.</summary>
    public bool ChangesStartOnly => _drawn.All(d => d.Path.StartsWith("start.", StringComparison.Ordinal));

    /// <summary>Prepares the scatters.</summary>
    /// <exception cref="InputRefusedException">A path or spread is wrong.</exception>
    public static ScatterPlan Of(DesignDocument document, IReadOnlyList<ScatterDesign> scatters)
    {
        IReadOnlyList<ScatterLaw> laws = ScatterLaws.Of(document, scatters);
        return new(
            document,
            laws,
            [.. scatters.Select(scatter => $"{scatter.Path}: {WordOf(scatter.Shape)}, {scatter.Spread}")]
        );
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
        foreach (ScatterLaw drawn in _drawn)
        {
            double value = drawn.Law.Quantile(new RandomDraws(seed, ride, $"scatter.{drawn.Path}").Uniform(0));
            document = document.WithNumber(drawn.Path, value);
        }
        DesignReading reading = document.Read();
        return reading.Design
            ?? throw new InputRefusedException(
                FormattableString.Invariant($"scatter, ride {ride}"),
                $"the numbers drawn make no design: {reading.Faults[0].Position} {reading.Faults[0].What}",
                "narrow the spread, or take uniform or truncated-normal"
            );
    }

    private static string WordOf(ScatterShape shape) =>
        shape switch
        {
            ScatterShape.Normal => "normal, standard deviation",
            ScatterShape.Uniform => "uniform within",
            ScatterShape.Triangular => "triangular within",
            _ => "truncated normal, standard deviation",
        };
}
