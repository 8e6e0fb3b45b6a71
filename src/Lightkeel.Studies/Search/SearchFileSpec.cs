using System.Text.Json.Nodes;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Search;

/// <summary>The keys of a study file: the one description that reads it and writes its schema.</summary>
internal static class SearchFileSpec
{
    private static readonly TextField Title = TextField.Free("title", "Title of the search.", "untitled search");

    private static readonly TextField DesignFile = TextField.Needed(
        "design",
        "The design that is varied: a design file, by its place from the study file.",
        "base.toml"
    );

    private static readonly TextField ChoiceName = TextField.Name("name", "Name of the choice.", isRequired: true);

    private static readonly TextListField Changes = new(
        "set",
        "What is set in the design for this choice, as --set would: PATH=VALUE, in order. An empty list leaves the design as it is.",
        "sail.canopy.shape=sphere"
    );

    private static readonly TablesField<ChoiceDesign> Choices = new(
        "choice",
        new TableSpec<ChoiceDesign>(
            "One of several variants of the design.",
            [ChoiceName, Changes],
            t => new(t.Get(ChoiceName)!, t.Get(Changes), t.Position)
        ),
        fewest: 0,
        most: 32
    );

    private static readonly TextField VaryName = TextField.Name(
        "name",
        "Name of what is varied; needed for choices, else the path stands for it.",
        isRequired: false
    );

    private static readonly TextField Path = TextField.Free(
        "path",
        "Dotted path of a number of the design; with points, of a sail or of beam.",
        ""
    );

    private static readonly ScalarTextField From = new("from", "Least value, with the unit of the number.", "0.5 m");

    private static readonly ScalarTextField To = new("to", "Greatest value, with the unit of the number.", "2 m");

    private static readonly WordField<bool> Scale = new(
        false,
        "scale",
        "Whether equal steps or equal ratios count the same.",
        ("linear", false, "Equal steps."),
        ("log", true, "Equal ratios; the least value is above zero.")
    );

    private static readonly OptionalNumberField Points = new(
        "points",
        NumberKind.Whole(2, 64, "5"),
        "Free points of a smooth profile from the axis outward: heights of a sail, or relative irradiances of the beam."
    );

    private static readonly ScalarTextField Radius = new(
        "radius",
        "Radius at which a profile with points ends.",
        "1.5 m"
    );

    private static readonly TextField When = TextField.Free(
        "when",
        "The choice under which this exists, as NAME=CHOICE; several choices by commas.",
        ""
    );

    private static readonly TablesField<VaryDesign> Vary = new(
        "vary",
        new TableSpec<VaryDesign>(
            "Something that the search may change: a number, a profile, or a choice between variants.",
            [VaryName, Path, From, To, Scale, Points, Radius, When, Choices],
            BuildVary
        ),
        fewest: 1,
        most: 64
    );

    private static readonly WordField<SearchStatistic> Statistic = new(
        SearchStatistic.Nominal,
        "statistic",
        "How the quantity of a scattered design becomes one number.",
        ("nominal", SearchStatistic.Nominal, "Its value at the design itself."),
        ("mean", SearchStatistic.Mean, "The mean over the scatter."),
        ("quantile", SearchStatistic.Quantile, "The quantile that `quantile` names."),
        ("worst", SearchStatistic.Worst, "The worst value that the samples met.")
    );

    private static readonly OptionalNumberField Quantile = new(
        "quantile",
        NumberKind.Pure(Interval.Open(0, 1), "0.05"),
        "Share of the samples below the value, with statistic = \"quantile\"."
    );

    private static readonly TextField Minimise = TextField.Free("minimise", "Quantity to make small.", "");

    private static readonly TextField Maximise = TextField.Free("maximise", "Quantity to make large.", "");

    private static readonly TablesField<AimDesign> Aim = new(
        "aim",
        new TableSpec<AimDesign>(
            "What the search is to make small or large.",
            [Minimise, Maximise, Statistic, Quantile],
            t =>
                new(
                    Given(t, Minimise),
                    Given(t, Maximise),
                    t.Get(Statistic),
                    t.Get(Quantile),
                    PositionOf(t, Minimise, Maximise)
                ),
            new OneGroupOf([Minimise], [Maximise])
        ),
        fewest: 1,
        most: 8
    );

    private static readonly TextField Quantity = TextField.Needed(
        "quantity",
        "Name of the quantity that is limited.",
        "film_temperature_K"
    );

    private static readonly ScalarTextField AtLeast = new("at_least", "Least value that is allowed.", "0.1 J");

    private static readonly ScalarTextField AtMost = new("at_most", "Greatest value that is allowed.", "900 K");

    private static readonly TablesField<LimitDesign> Limit = new(
        "limit",
        new TableSpec<LimitDesign>(
            "What must hold for every design of the front.",
            [Quantity, AtLeast, AtMost, Statistic, Quantile],
            t =>
                new(
                    t.Get(Quantity)!,
                    t.Get(AtLeast),
                    t.Get(AtMost),
                    t.Get(Statistic),
                    t.Get(Quantile),
                    PositionOf(t, Quantity),
                    PositionOf(t, AtLeast),
                    PositionOf(t, AtMost)
                )
        ),
        fewest: 0,
        most: 32
    );

    private static readonly WordField<SearchMethodKind> Kind = new(
        SearchMethodKind.Hybrid,
        "kind",
        "How the search works.",
        ("nsga2", SearchMethodKind.NsgaII, "Evolution by fronts and crowding, for one to three aims."),
        ("nsga3", SearchMethodKind.NsgaIII, "Evolution by reference directions, for three aims and more."),
        (
            "cma-es",
            SearchMethodKind.CmaEs,
            "Covariance matrix adaptation with restarts, for one aim over real numbers."
        ),
        ("gradient", SearchMethodKind.Gradient, "Descent by gradients from the design itself, for one aim."),
        ("hybrid", SearchMethodKind.Hybrid, "Evolution, then gradients from each member of its front.")
    );

    private static readonly NumberField Population = new(
        "population",
        NumberKind.Whole(0, 10_000, "100"),
        "Members of a generation; 0 for the usual number.",
        0
    );

    private static readonly NumberField Evaluations = new(
        "evaluations",
        NumberKind.Whole(10, 100_000_000, "10000"),
        "Designs that the search may look at before it polishes and verifies.",
        10_000
    );

    private static readonly NumberField Stall = new(
        "stall",
        NumberKind.Whole(0, 1_000_000, "50"),
        "Ends when so many generations in a row have brought nothing; 0 for never.",
        0
    );

    private static readonly NumberField Samples = new(
        "samples",
        NumberKind.Whole(2, 4096, "16"),
        "Samples of the scatter for each design, the same for all.",
        16
    );

    private static readonly NumberField PolishMembers = new(
        "polish_members",
        NumberKind.Whole(0, 1000, "24"),
        "How many members of the front are polished by gradients.",
        24
    );

    private static readonly NumberField PolishSteps = new(
        "polish_steps",
        NumberKind.Whole(1, 1000, "20"),
        "Most gradients for each of them.",
        20
    );

    private static readonly NumberField ExploreAccuracy = new(
        "explore_accuracy",
        NumberKind.Pure(Interval.Closed(1e-12, 1e-3), "1e-6"),
        "Relative accuracy of forces while exploring.",
        1e-6
    );

    private static readonly WordField<string> Engine = new(
        "quadrature",
        "engine",
        "Which engine measures while exploring and polishing; members are verified by the one that fits them.",
        ("quadrature", "quadrature", "Fast; designs that light meets more than once count as not feasible."),
        ("auto", "auto", "Rays where light meets the craft more than once: some hundred times slower there.")
    );

    private static readonly FlagField WithRide = new(
        "verify_ride",
        "Flies every member of the front by the full equations before it is reported, and drops those that are lost.",
        true
    );

    private static readonly TableField<MethodDesign> Method = new(
        "method",
        new TableSpec<MethodDesign>(
            "How the search works.",
            [
                Kind,
                Population,
                Evaluations,
                Stall,
                Samples,
                PolishMembers,
                PolishSteps,
                ExploreAccuracy,
                Engine,
                WithRide,
            ],
            t =>
                new()
                {
                    Kind = t.Get(Kind),
                    Population = (int)t.Get(Population),
                    Evaluations = (int)t.Get(Evaluations),
                    Stall = (int)t.Get(Stall),
                    Samples = (int)t.Get(Samples),
                    PolishMembers = (int)t.Get(PolishMembers),
                    PolishSteps = (int)t.Get(PolishSteps),
                    ExploreAccuracy = t.Get(ExploreAccuracy),
                    Engine = t.Get(Engine),
                    WithRide = t.Get(WithRide),
                }
        ),
        TablePresence.Defaulted
    );

    private static readonly TableSpec<SearchFile> Document = new(
        "A search over variants of one design.",
        [Title, DesignFile, Vary, Aim, Limit, ScatterSpec.Section, Method],
        t =>
            new()
            {
                Title = t.Get(Title)!,
                Design = t.Get(DesignFile)!,
                DesignPosition = PositionOf(t, DesignFile),
                Varies = t.Get(Vary),
                Aims = t.Get(Aim),
                Limits = t.Get(Limit),
                Scatters = t.Get(ScatterSpec.Section),
                Method = t.Get(Method)!,
            }
    );

    /// <summary>Reads a text; faults go into the list.</summary>
    public static SearchFile? Read(string text, string source, FaultList faults)
    {
        TableNode root = TomlTree.Read(text, source, faults, out bool isBroken);
        SearchFile? file = Document.Read(
            new(new(root, faults, new SideFiles(null, false), isBroken), root, root.Position, null, "")
        );
        return faults.IsEmpty ? file : null;
    }

    /// <summary>The JSON Schema (draft 2020-12) of a study file.</summary>
    public static JsonObject JsonSchema()
    {
        JsonObject schema = new()
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["title"] = "Lightkeel search",
            ["$defs"] = new JsonObject
            {
                ["quantity"] = new JsonObject { ["type"] = "string", ["pattern"] = QuantityPattern.WithUnit },
            },
        };
        foreach ((string key, JsonNode? value) in Document.Schema())
        {
            schema[key] = value?.DeepClone();
        }
        return schema;
    }

    private static VaryDesign BuildVary(TableReading t)
    {
        VaryDesign vary = new()
        {
            Name = Given(t, VaryName),
            Path = Given(t, Path),
            From = t.Get(From),
            To = t.Get(To),
            IsLogarithmic = t.Get(Scale),
            Points = (int?)t.Get(Points),
            Radius = t.Get(Radius),
            When = Given(t, When),
            Choices = t.Get(Choices),
            Position = t.Position,
            PathPosition = PositionOf(t, Path),
            FromPosition = PositionOf(t, From),
            ToPosition = PositionOf(t, To),
            RadiusPosition = PositionOf(t, Radius),
            WhenPosition = PositionOf(t, When),
        };
        if (t.IsSound && WrongForm(vary) is { } fault)
        {
            t.Context.Faults.Add(t.Position, $"{t.Path}: {fault.What}", fault.Accepted);
        }
        return vary;
    }

    private static (string What, string Accepted)? WrongForm(VaryDesign v)
    {
        if (v.Choices.Count > 0)
        {
            return v.Path is not null || v.From is not null || v.To is not null || v.Points is not null
                    ? ("has choices and a path or bounds", "give [[vary.choice]] tables alone, or path, from and to")
                : v.Name is null ? ("has choices and no name", "give it a name, which `when` can refer to")
                : v.Choices.Count == 1 ? ("has one choice alone", "give two [[vary.choice]] tables or more")
                : null;
        }
        return v.Path is null ? ("names nothing", "give path, from and to, or a name with [[vary.choice]] tables")
            : v.From is null || v.To is null ? ($"lacks {(v.From is null ? "from" : "to")}", "give from and to")
            : v.Points is not null && v.Radius is null
                ? ("has points without a radius", "give the radius at which the profile ends")
            : v.Points is null && v.Radius is not null
                ? ("has a radius without points", "give points, or leave radius out")
            : v.Points is not null && v.IsLogarithmic ? ("has points on a logarithmic scale", "leave scale out")
            : null;
    }

    private static string? Given(TableReading table, TextField field)
    {
        string? text = table.Get(field);
        return table.Has(field) && !string.IsNullOrEmpty(text) ? text : null;
    }

    private static SourcePosition PositionOf(TableReading table, params ReadOnlySpan<Field> fields)
    {
        foreach (Field field in fields)
        {
            if (table.Node?.Find(field.Key) is { } node)
            {
                return node.Position;
            }
        }
        return table.Position;
    }
}
