using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Sections;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Designs;

/// <summary>A design file as text that can be read, varied by dotted paths, and read again.</summary>
/// <remarks>
/// Immutable: a change gives a new document that shares what it leaves alone. Input that is wrong is a value, a list of
/// faults; only the calls that must return something throw <see cref="DesignFaultException"/>. Safe to share between threads.
/// </remarks>
public sealed class DesignDocument
{
    private readonly TableNode _root;
    private readonly SideFiles _files;
    private readonly IReadOnlyList<DesignFault> _syntaxFaults;
    private readonly bool _isSyntaxBroken;
    private readonly byte[] _content;
    private readonly Change? _lastChange;

    // Numbers change many thousand times in an ensemble, and none of them can spoil a scatter.
    private readonly bool _isNumberChange;
    private DesignReading? _reading;
    private IReadOnlyList<DesignNumber>? _numbers;

    private DesignDocument(
        string source,
        byte[] content,
        TableNode root,
        SideFiles files,
        IReadOnlyList<DesignFault> syntaxFaults,
        bool isSyntaxBroken,
        Change? lastChange = null,
        bool isNumberChange = false
    )
    {
        _isNumberChange = isNumberChange;
        Source = source;
        _content = content;
        _root = root;
        _files = files;
        _syntaxFaults = syntaxFaults;
        _isSyntaxBroken = isSyntaxBroken;
        _lastChange = lastChange;
    }

    /// <summary>Name of the file, as the user gave it.</summary>
    public string Source { get; }

    /// <summary>The title; <c>untitled</c> when the file gives none that can be read.</summary>
    public string Title => (_root.Find("title") as TextNode)?.Text ?? "untitled";

    /// <summary>SHA-256 of the file's bytes, in hexadecimal; with changes, of the bytes followed by one line per change.</summary>
    public string Sha256
    {
        get
        {
            string changes = string.Concat(Changes.Select(c => $"\n{c.Path}={c.Value}"));
            return Convert.ToHexStringLower(SHA256.HashData([.. _content, .. Encoding.UTF8.GetBytes(changes)]));
        }
    }

    /// <summary>The file's text, and the changes made since as comments behind it.</summary>
    public string Text =>
        Encoding.UTF8.GetString(_content) + string.Concat(Changes.Select(c => $"\n# set {c.Path} = {c.Value}"));

    /// <summary>The changes made since the file was read, in order.</summary>
    public IReadOnlyList<(string Path, string Value)> Changes
    {
        get
        {
            List<(string, string)> changes = [];
            for (Change? change = _lastChange; change is not null; change = change.Before)
            {
                changes.Add((change.Path, change.Value));
            }
            changes.Reverse();
            return changes;
        }
    }

    /// <summary>Files beside the design that have been read for it.</summary>
    public IReadOnlyList<SideFile> SideFiles => _files.All;

    /// <summary>Every number of the design, as far as it could be read.</summary>
    public IReadOnlyList<DesignNumber> Numbers => _numbers ??= ReadNumbers();

    /// <summary>The design.</summary>
    /// <exception cref="DesignFaultException">The document has faults.</exception>
    public Design Design => Read().DesignOrThrow();

    /// <summary>Reads a file. A file that is missing, too large or not TOML gives a document with faults.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">How to read it.</param>
    public static DesignDocument Load(string path, DesignReadOptions? options = null)
    {
        SourcePosition start = new(path, 1, 1);
        const string accepted = "expected a design file in TOML, as \"lightkeel new ball FILE\" writes one";
        if (!Utf8Text.TryReadFile(path, DesignLimits.LargestDesignBytes, out byte[]? content, out string? what))
        {
            return Refused(path, [], new(new(path, 0, 0), $"the file {what}", accepted));
        }
        if (!Utf8Text.TryDecode(content, out string? text))
        {
            return Refused(path, content, new(start, "the file is not text in UTF-8", accepted));
        }
        string folder = options?.Folder ?? Path.GetDirectoryName(Path.GetFullPath(path)) ?? ".";
        return Parse(text, content, path, new SideFiles(folder, options?.AllowOutsideFiles ?? false));
    }

    /// <summary>Reads text.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="source">Name for messages.</param>
    /// <param name="options">How to read it; without a folder the design can use no files.</param>
    public static DesignDocument Parse(string text, string source = "design.toml", DesignReadOptions? options = null)
    {
        byte[] content = Encoding.UTF8.GetBytes(text);
        return content.Length > DesignLimits.LargestDesignBytes
            ? Refused(
                source,
                content,
                new(new(source, 1, 1), "the text is larger than 1 MB", "expected a design file in TOML")
            )
            : Parse(text, content, source, new SideFiles(options?.Folder, options?.AllowOutsideFiles ?? false));
    }

    /// <summary>Reads the document into a design, or into the list of everything that is wrong.</summary>
    public DesignReading Read() => _reading ??= ReadOnce();

    /// <summary>The document with a value changed, as by <c>--set PATH=VALUE</c>.</summary>
    /// <remarks>
    /// The value is written as in the file, quotes left out or not: <c>1.2 m</c>, <c>0.5</c>, <c>gaussian</c>, <c>["0 m", "1 m"]</c>.
    /// An absent optional key is added. When the word of a choice changes (a shape, a profile), the keys that only other
    /// choices have are dropped, and of two ways to say one thing the second. The value itself is checked when the document is read.
    /// </remarks>
    /// <param name="path">Dotted path, for instance <c>sail.canopy.half_angle</c> or <c>start.offset.x</c>.</param>
    /// <param name="text">The value.</param>
    /// <exception cref="DesignFaultException">The path leads nowhere, or the value is not TOML.</exception>
    public DesignDocument WithValue(string path, string text)
    {
        SourcePosition position = new($"--set {path}", 0, 0);
        Node value = FlagValue.Read(text, position);
        return Changed(new(path, position, (_, _) => value), path, text);
    }

    /// <summary>The document with a number changed, without going through text.</summary>
    /// <param name="path">Dotted path.</param>
    /// <param name="siValue">The value in SI units, in the dimension that the number has now.</param>
    /// <exception cref="DesignFaultException">The path leads to no number.</exception>
    public DesignDocument WithNumber(string path, double siValue)
    {
        SourcePosition position = new(path, 0, 0);
        PathChange change = new(path, position, (kind, old) => kind!.Put(position, siValue, old))
        {
            WantsNumber = true,
        };
        return Changed(change, path, siValue.ToString("R", System.Globalization.CultureInfo.InvariantCulture));
    }

    /// <summary>What a text means as the value of a number of this design, for the ends of an axis or of a range.</summary>
    /// <param name="path">Dotted path of the number.</param>
    /// <param name="text">The value with its unit, as in the file.</param>
    /// <returns>The value in SI units, inside the allowed range.</returns>
    /// <exception cref="DesignFaultException">The path leads to no number, or the text is no value for it.</exception>
    public double ParseNumber(string path, string text)
    {
        SourcePosition position = new(path, 0, 0);
        TextNode node = new(position, text, isFromFlag: true);
        NumberKind? found = null;
        PathChange change = new(path, position, Take) { WantsNumber = true };
        if (DesignSpecification.Root.Change(_root, change) is null)
        {
            throw new DesignFaultException([change.Fault!]);
        }
        return found!.TryRead(node, out Quantity quantity, out string what)
            ? quantity.SiValue
            : throw new DesignFaultException([new(position, what, found.Accepted)]);

        TextNode Take(NumberKind? kind, Node? replaced)
        {
            found = kind;
            return node;
        }
    }

    /// <summary>The document as JSON, values as they are written.</summary>
    public JsonObject ToJson() => (JsonObject)NodeJson.Of(_root)!;

    /// <summary>The document as TOML, changes included: text that reads back to the same design, to the last bit of every number.</summary>
    /// <remarks>Comments of the file are not kept.</remarks>
    public string ToToml() => TomlWriter.Write(_root);

    private static DesignDocument Parse(string text, byte[] content, string source, SideFiles files)
    {
        FaultList faults = new();
        TableNode root = TomlTree.Read(text, source, faults, out bool isBroken);
        return new(source, content, root, files, faults.ToList(), isBroken);
    }

    private static DesignDocument Refused(string source, byte[] content, DesignFault fault) =>
        new(
            source,
            content,
            TableNode.Empty(new(source, 1, 1)),
            new SideFiles(null, false),
            [fault],
            isSyntaxBroken: true
        );

    private DesignDocument Changed(PathChange change, string path, string text)
    {
        TableNode? root = DesignSpecification.Root.Change(_root, change);
        return root is null
            ? throw new DesignFaultException([change.Fault!])
            : new(
                Source,
                _content,
                root,
                _files,
                _syntaxFaults,
                _isSyntaxBroken,
                new(_lastChange, path, text),
                change.WantsNumber
            );
    }

    private DesignReading ReadOnce()
    {
        FaultList faults = new();
        foreach (DesignFault fault in _syntaxFaults)
        {
            faults.Add(fault.Position, fault.What, fault.Accepted);
        }
        Design? design = DesignSpecification.Read(new(_root, faults, _files, _isSyntaxBroken));
        if (faults.IsEmpty && design!.Scatters.Count > 0 && !_isNumberChange)
        {
            foreach (DesignFault fault in ScatterCheck.FaultsOf(this, design.Scatters))
            {
                faults.Add(fault.Position, fault.What, fault.Accepted);
            }
        }
        return faults.IsEmpty ? new(design, []) : new(null, faults.ToList());
    }

    private List<DesignNumber> ReadNumbers()
    {
        List<DesignNumber> numbers = [];
        DesignSpecification.Read(new(_root, new(), _files, _isSyntaxBroken) { Numbers = numbers });
        return numbers;
    }

    /// <summary>A change, linked to those before it.</summary>
    private sealed record Change(Change? Before, string Path, string Value);
}
