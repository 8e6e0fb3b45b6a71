using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Hosts.TestProgram;

/// <summary>Reads designs of one line per value, <c>key = value</c>, and lengths in m or cm.</summary>
internal sealed class ArtificialReader : IInputReader
{
    public string? ReadQuantity(string text, string unit, out double siValue)
    {
        siValue = 0;
        string[] parts = text.Split(' ');
        double factor = parts is [_, "cm"] ? 0.01 : 1;
        bool read = double.TryParse(parts[0], NumberStyles.Float, CultureInfo.InvariantCulture, out double value);
        if (!read || parts.Length != 2 || parts[1] is not ("m" or "cm"))
        {
            return $"\"{text}\" is not a length; write one such as \"1.2 m\"";
        }
        siValue = value * factor;
        return null;
    }

    public IOpenDesign OpenDesign(DesignRequest request)
    {
        if (!File.Exists(request.Path))
        {
            throw new InputRefusedException(request.Path, "there is no such file", "check the path");
        }
        string text = File.ReadAllText(request.Path);
        List<InputFault> faults = [];
        string? title = null;
        int number = 0;
        foreach (string line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            number++;
            string[] pair = line.Split('=', 2, StringSplitOptions.TrimEntries);
            if (pair[0] is not ("title" or "power"))
            {
                faults.Add(new($"{request.Path}:{number}:1", $"unknown key \"{pair[0]}\"", "known: title, power"));
            }
            title = pair[0] == "title" ? pair[1].Trim('"') : title;
        }
        foreach (DesignChange change in request.Changes)
        {
            text += $"{change.Path} = {change.Value}\n";
            title = change.Path == "title" ? change.Value : title;
        }
        return faults.Count > 0 ? throw new InputRefusedException(faults) : new ArtificialDesign(title, text);
    }
}

/// <summary>A design that was read.</summary>
internal sealed record ArtificialDesign(string? Title, string Text) : IOpenDesign
{
    public string Sha256 { get; } = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)));
}
