using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Models.Quantities;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Search;

/// <summary>Looks up in the design and in the list of quantities what a study file names; every fault goes into the list.</summary>
internal sealed class SearchBinding
{
    private readonly DesignDocument _document;
    private readonly FaultList _faults;
    private readonly List<SearchNumber> _variables = [];
    private readonly List<SearchProfile> _profiles = [];
    private readonly List<IReadOnlyList<IReadOnlyList<(string Path, string Value)>>> _changes = [];

    private SearchBinding(DesignDocument document, FaultList faults) => (_document, _faults) = (document, faults);

    public IReadOnlyList<SearchNumber> Variables => _variables;

    public IReadOnlyList<SearchProfile> Profiles => _profiles;

    public IReadOnlyList<IReadOnlyList<IReadOnlyList<(string Path, string Value)>>> ChoiceChanges => _changes;

    public IReadOnlyList<SearchAim> Aims { get; private set; } = [];

    public IReadOnlyList<SearchLimit> Limits { get; private set; } = [];

    public static SearchBinding Of(SearchFile file, DesignDocument document, FaultList faults)
    {
        SearchBinding binding = new(document, faults);
        foreach (VaryDesign vary in file.Varies.Where(v => v.Choices.Count > 0))
        {
            binding.BindChoice(vary);
        }
        foreach (VaryDesign vary in file.Varies.Where(v => v.Choices.Count == 0))
        {
            binding.BindNumber(vary);
        }
        SearchAimBinding aims = new(file, faults);
        binding.Aims = aims.Aims();
        binding.Limits = aims.Limits();
        foreach (DesignFault fault in ScatterCheck.FaultsOf(document, file.Scatters))
        {
            faults.Add(fault.Position, fault.What, fault.Accepted);
        }
        aims.CheckMethod(binding.Variables);
        return binding;
    }

    private void BindChoice(VaryDesign vary)
    {
        if (!IsNew(vary.Name!, vary.Position))
        {
            return;
        }
        List<IReadOnlyList<(string, string)>> all = [];
        foreach (ChoiceDesign choice in vary.Choices)
        {
            List<(string Path, string Value)> changes = [];
            foreach (string text in choice.Changes)
            {
                int equals = text.IndexOf('=', StringComparison.Ordinal);
                if (equals <= 0)
                {
                    _faults.Add(
                        choice.Position,
                        $"vary.{vary.Name}.choice.{choice.Name}: \"{text}\" sets nothing",
                        "write PATH=VALUE, such as \"sail.canopy.shape=sphere\""
                    );
                    continue;
                }
                changes.Add((text[..equals].Trim(), text[(equals + 1)..].Trim()));
            }
            try
            {
                SearchProblem.Changed(_document, changes);
            }
            catch (DesignFaultException e)
            {
                AddAll(e, choice.Position, $"vary.{vary.Name}.choice.{choice.Name}");
            }
            all.Add(changes);
        }
        _variables.Add(
            new(vary.Name!, "", 0, vary.Choices.Count - 1, false, true, [.. vary.Choices.Select(c => c.Name)])
            {
                When = WhenOf(vary),
            }
        );
        _changes.Add(all);
    }

    private void BindNumber(VaryDesign vary)
    {
        if (vary.Points is { } points)
        {
            BindProfile(vary, points);
        }
        else if (IsNew(vary.Path!, vary.PathPosition) && RangeOf(vary) is { } range)
        {
            Add(
                new(vary.Path!, range.Unit, range.From, range.To, vary.IsLogarithmic, range.IsWhole, [])
                {
                    When = WhenOf(vary),
                }
            );
        }
    }

    private void Add(SearchNumber variable)
    {
        _variables.Add(variable);
        _changes.Add([]);
    }

    private (double From, double To, string Unit, bool IsWhole)? RangeOf(VaryDesign vary)
    {
        DesignDocument document = VariantFor(vary);
        int before = _faults.Count;
        double from = Read(document, vary.Path!, vary.From!, vary.FromPosition, vary.PathPosition);
        double to =
            _faults.Count == before ? Read(document, vary.Path!, vary.To!, vary.ToPosition, vary.PathPosition) : 0;
        if (_faults.Count > before)
        {
            return null;
        }
        if (!(from < to))
        {
            _faults.Add(vary.ToPosition, $"vary {vary.Label}: to is not above from", "write the smaller end as from");
        }
        else if (vary.IsLogarithmic && !(from > 0))
        {
            _faults.Add(
                vary.FromPosition,
                $"vary {vary.Label}: a logarithmic scale cannot begin at {vary.From}",
                "begin above zero, or leave scale out"
            );
        }
        DesignNumber? number = NumberOf(document, vary.Path!, from);
        if (number is null)
        {
            _faults.Add(
                vary.PathPosition,
                $"vary {vary.Label}: {vary.Path} is no number of this design",
                "expected the path of one number"
            );
            return null;
        }
        bool whole = number.Kind.IsWhole;
        if (whole && vary.IsLogarithmic)
        {
            _faults.Add(
                vary.FromPosition,
                $"vary {vary.Label}: a whole number has no logarithmic scale",
                "leave scale out"
            );
        }
        string unit = number.Dimension == Dimension.None ? "" : number.Dimension.ToString();
        return _faults.Count == before ? (from, to, unit, whole) : null;
    }

    private static DesignNumber? NumberOf(DesignDocument document, string path, double value) =>
        document.WithNumber(path, value).Numbers.FirstOrDefault(n => n.Path == path);

    private double Read(
        DesignDocument document,
        string path,
        string text,
        SourcePosition position,
        SourcePosition pathPosition
    )
    {
        try
        {
            return document.ParseNumber(path, text);
        }
        catch (DesignFaultException e)
        {
            bool leads = document.Numbers.Any(n => n.Path == path);
            AddAll(e, leads ? position : pathPosition, $"vary {path}");
            return 0;
        }
    }

    private void BindProfile(VaryDesign vary, int points)
    {
        bool beam = vary.Path == "beam";
        DesignDocument document = VariantFor(vary);
        if (!beam && !document.Design.Sails.Any(s => "sail." + s.Name == vary.Path))
        {
            string[] known = [.. document.Design.Sails.Select(s => "sail." + s.Name), "beam"];
            _faults.Add(
                vary.PathPosition,
                $"vary {vary.Path}: a profile belongs to a sail or to beam. {NearestName.Suggestion(vary.Path!, known)}",
                $"expected one of {string.Join(", ", known)}"
            );
            return;
        }
        Dimension dimension = beam ? Dimension.None : Dimension.OfLength;
        int before = _faults.Count;
        double from = Number(vary.From!, dimension, vary.FromPosition, vary);
        double to = Number(vary.To!, dimension, vary.ToPosition, vary);
        double radius = Number(vary.Radius!, Dimension.OfLength, vary.RadiusPosition, vary);
        if (_faults.Count == before && (!(from < to) || !(radius > 0) || (beam && from < 0)))
        {
            _faults.Add(
                vary.FromPosition,
                $"vary {vary.Path}: the profile has no room",
                "expected from below to, a radius above zero, and irradiances of zero or more"
            );
        }
        if (_faults.Count > before || !IsNew(vary.Path!, vary.PathPosition))
        {
            return;
        }
        _profiles.Add(new(vary.Path!, _variables.Count, points, radius));
        for (int i = 0; i < points; i++)
        {
            string name = beam ? $"beam.values.{i}" : $"{vary.Path}.points.{i + 1}.height";
            Add(new(name, beam ? "" : "m", from, to, false, false, []) { When = WhenOf(vary) });
        }
    }

    private double Number(string text, Dimension dimension, SourcePosition position, VaryDesign vary)
    {
        if (Quantity.TryParse(text, dimension, out double value, out string? fault))
        {
            return value;
        }
        _faults.Add(
            position,
            $"vary {vary.Path}: {fault}",
            dimension == Dimension.None ? "expected a pure number" : "expected a length such as \"0.2 m\""
        );
        return 0;
    }

    // The design under the first choice that a variable exists under.
    private DesignDocument VariantFor(VaryDesign vary)
    {
        if (WhenOf(vary) is not { } when)
        {
            return _document;
        }
        try
        {
            return SearchProblem.Changed(_document, _changes[when.Variable][when.Choices[0]]);
        }
        catch (DesignFaultException)
        {
            // Told where the choice stands.
            return _document;
        }
    }

    private (int Variable, IReadOnlyList<int> Choices)? WhenOf(VaryDesign vary)
    {
        if (vary.When is not { } text)
        {
            return null;
        }
        int equals = text.IndexOf('=', StringComparison.Ordinal);
        string name = equals < 0 ? text.Trim() : text[..equals].Trim();
        int variable = _variables.FindIndex(v => v.IsChoice && v.Name == name);
        string[] words = equals < 0 ? [] : text[(equals + 1)..].Split(',', StringSplitOptions.TrimEntries);
        int[] choices = variable < 0 ? [] : [.. words.Select(w => _variables[variable].Words.ToList().IndexOf(w))];
        if (variable < 0 || choices.Length == 0 || choices.Contains(-1))
        {
            IEnumerable<string> known =
                variable < 0
                    ? _variables.Where(v => v.IsChoice).Select(v => v.Name + "=CHOICE")
                    : _variables[variable].Words.Select(w => $"{name}={w}");
            _faults.Add(
                vary.WhenPosition,
                $"vary {vary.Label}: when = \"{text}\" names no choice",
                known.Any() ? $"expected one of {string.Join(", ", known)}" : "give a [[vary]] with choices first"
            );
            return null;
        }
        return (variable, choices);
    }

    private bool IsNew(string name, SourcePosition position)
    {
        if (_variables.All(v => v.Name != name) && _profiles.All(p => p.Path != name))
        {
            return true;
        }
        _faults.Add(position, $"vary {name} is given twice", "give each path and each name once");
        return false;
    }

    private void AddAll(DesignFaultException e, SourcePosition position, string where)
    {
        foreach (DesignFault fault in e.Faults)
        {
            _faults.Add(position, $"{where}: {fault.What}", fault.Accepted);
        }
    }
}
