using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;

namespace Lightkeel.Studies.Designs.Tables;

/// <summary>A file that a design uses, read once.</summary>
public sealed class SideFile
{
    private readonly ConcurrentDictionary<FileField, (ColumnData?, IReadOnlyList<DesignFault>)> _tables = new();
    private readonly string _text;

    internal SideFile(string name, string text, byte[] content)
    {
        Name = name;
        _text = text;
        Sha256 = Convert.ToHexStringLower(SHA256.HashData(content));
    }

    /// <summary>The name as the design gives it.</summary>
    public string Name { get; }

    /// <summary>SHA-256 of its bytes, in hexadecimal.</summary>
    public string Sha256 { get; }

    /// <summary>Its text.</summary>
    public string Text => _text;

    /// <summary>The file read as the table that a field wants.</summary>
    internal (ColumnData? Data, IReadOnlyList<DesignFault> Faults) Table(FileField field) =>
        _tables.GetOrAdd(
            field,
            f =>
            {
                FaultList faults = new();
                ColumnData? data = CsvTable.Read(_text, Name, f, faults);
                return (data, faults.ToList());
            }
        );
}
