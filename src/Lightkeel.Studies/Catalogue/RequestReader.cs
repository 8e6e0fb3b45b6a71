using System.Globalization;

namespace Lightkeel.Studies.Catalogue;

/// <summary>Turns texts into a study's request; the same for every front end.</summary>
/// <remarks>All faults of all options are collected before the request is refused.</remarks>
public sealed class RequestReader
{
    private readonly IInputReader _reader;
    private readonly OptionTexts _texts;
    private readonly List<InputFault> _faults = [];
    private readonly List<DesignChange> _changes = [];

    private RequestReader(OptionTexts texts, IInputReader reader) => (_texts, _reader) = (texts, reader);

    /// <summary>Reads the request of a study.</summary>
    /// <param name="options">The study's options.</param>
    /// <param name="texts">What the user wrote.</param>
    /// <param name="reader">Reads quantities and designs.</param>
    /// <exception cref="InputRefusedException">Something is wrong; lists all faults.</exception>
    public static StudyRequest Read(IReadOnlyList<StudyOption> options, OptionTexts texts, IInputReader reader)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentNullException.ThrowIfNull(texts);
        ArgumentNullException.ThrowIfNull(reader);
        RequestReader work = new(texts, reader);
        return work.ReadAll(options);
    }

    private StudyRequest ReadAll(IReadOnlyList<StudyOption> options)
    {
        foreach (string change in _texts.Changes)
        {
            ReadChange(change);
        }
        bool canOpenDesigns = _faults.Count == 0;
        StudyRequest request = StudyRequest.Empty;
        foreach (StudyOption option in options)
        {
            if (option.Kind != OptionKind.Design || canOpenDesigns)
            {
                request = request.WithValues(option, ReadOption(option));
            }
        }
        return _faults.Count == 0 ? request : throw new InputRefusedException(_faults);
    }

    private void ReadChange(string text)
    {
        int equals = text.IndexOf('=', StringComparison.Ordinal);
        string path = equals < 0 ? "" : text[..equals].Trim();
        if (path.Length == 0)
        {
            Refuse(
                "--set",
                $"\"{text}\" does not name a value",
                "write PATH=VALUE, such as --set \"beam.power=200 MW\""
            );
            return;
        }
        _changes.Add(new(path, text[(equals + 1)..].Trim()));
    }

    private List<object> ReadOption(StudyOption option)
    {
        _ = _texts.Texts.TryGetValue(option.Name, out IReadOnlyList<string>? given);
        given ??= [];
        if (given.Count == 0)
        {
            if (option.IsRequired)
            {
                Refuse(option.Written, "is missing", option.Help);
            }
            given = option.Default is null ? [] : [option.Default];
        }
        if (given.Count > 1 && !option.IsRepeatable)
        {
            Refuse(
                option.Written,
                $"is given {given.Count.ToString(CultureInfo.InvariantCulture)} times",
                "give it once"
            );
        }
        List<object> values = [];
        foreach (string text in given)
        {
            if (ReadValue(option, text) is { } value)
            {
                values.Add(value);
            }
        }
        return values;
    }

    private object? ReadValue(StudyOption option, string text) =>
        option.Kind switch
        {
            OptionKind.Number => ReadNumber(option, text),
            OptionKind.Quantity => ReadQuantity(option, text),
            OptionKind.Integer => ReadInteger(option, text),
            OptionKind.File => ReadFile(option, text),
            OptionKind.Flag => ReadFlag(option, text),
            OptionKind.Choice => ReadChoice(option, text),
            OptionKind.Design => ReadDesign(text),
            OptionKind.StudyFile => ReadFile(option, text) is string path
                ? new DesignRequest(path, _changes, _texts.AllowOutsideFiles)
                : null,
            _ => text,
        };

    private object? ReadNumber(StudyOption option, string text)
    {
        if (
            !double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            || !double.IsFinite(value)
        )
        {
            return Refuse(
                option.Written,
                $"\"{text}\" is not a number",
                "write a number such as 0.25 or 1e-8, without a unit"
            );
        }
        return InRange(option, text, value) ? value : null;
    }

    private object? ReadQuantity(StudyOption option, string text)
    {
        string? fault = _reader.ReadQuantity(text, option.Unit!, out double value);
        if (fault is not null)
        {
            return Refuse(option.Written, fault, "");
        }
        return InRange(option, text, value) ? value : null;
    }

    private object? ReadInteger(StudyOption option, string text)
    {
        if (!long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long value))
        {
            return Refuse(option.Written, $"\"{text}\" is not a whole number", "write digits only, such as 1000");
        }
        return InRange(option, text, value) ? value : null;
    }

    private bool InRange(StudyOption option, string text, double value)
    {
        bool low = value < option.Minimum;
        if (low || value > option.Maximum)
        {
            string limit = (low ? option.Minimum : option.Maximum)!.Value.ToString("R", CultureInfo.InvariantCulture);
            string unit = option.Unit is null ? "" : " " + option.Unit;
            Refuse(
                option.Written,
                $"\"{text}\" is out of range",
                low ? $"at least {limit}{unit}" : $"at most {limit}{unit}"
            );
            return false;
        }
        return true;
    }

    private object? ReadFile(StudyOption option, string text)
    {
        if (Directory.Exists(text))
        {
            return Refuse(option.Written, $"\"{text}\" is a folder", "name a file");
        }
        return File.Exists(text) ? text : Refuse(option.Written, $"there is no file \"{text}\"", "check the path");
    }

    private object? ReadFlag(StudyOption option, string text) =>
        text switch
        {
            "true" => true,
            "false" => false,
            _ => Refuse(option.Written, $"\"{text}\" is neither true nor false", "give the flag alone"),
        };

    private object? ReadChoice(StudyOption option, string text)
    {
        if (option.Choices.Contains(text, StringComparer.Ordinal))
        {
            return text;
        }
        string? nearest = Output.NearestName.Of(text, option.Choices);
        string hint = nearest is null ? "" : $"did you mean \"{nearest}\"? ";
        return Refuse(
            option.Written,
            $"\"{text}\" is not one of its words",
            $"{hint}accepted: {string.Join(", ", option.Choices)}"
        );
    }

    private IOpenDesign? ReadDesign(string text)
    {
        try
        {
            return _reader.OpenDesign(new(text, _changes, _texts.AllowOutsideFiles));
        }
        catch (InputRefusedException refused)
        {
            _faults.AddRange(refused.Faults);
            return null;
        }
    }

    private object? Refuse(string where, string what, string accepted)
    {
        _faults.Add(new(where, what, accepted));
        return null;
    }
}
