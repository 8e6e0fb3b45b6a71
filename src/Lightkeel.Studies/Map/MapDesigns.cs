using System.Collections.Concurrent;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>The design at values of the axes. Where the axes belong to different sections of the file, each value of an axis is read once.</summary>
/// <remarks>
/// A section of the file becomes a part of the design that no other section's numbers go into, so parts read apart are put
/// together. Safe to ask from several threads.
/// </remarks>
internal sealed class MapDesigns
{
    private static readonly string[] Sections = ["beam", "sail", "surface", "mass", "craft", "start"];
    private readonly DesignDocument _document;
    private readonly IReadOnlyList<DesignAxis> _axes;
    private readonly string[] _sections;
    private readonly bool _isApart;
    private readonly ConcurrentDictionary<double, Design>[] _parts;

    public MapDesigns(DesignDocument document, IReadOnlyList<DesignAxis> axes)
    {
        (_document, _axes) = (document, axes);
        _sections = [.. axes.Select(a => a.Path.Split('.')[0])];
        _isApart = _sections.Distinct().Count() == axes.Count && _sections.All(Sections.Contains);
        _parts = [.. axes.Select(_ => new ConcurrentDictionary<double, Design>())];
    }

    /// <summary>The design at values of the axes, one per axis.</summary>
    /// <exception cref="DesignFaultException">The design is refused there.</exception>
    public Design At(ReadOnlySpan<double> values)
    {
        if (!_isApart)
        {
            DesignDocument changed = _document;
            for (int i = 0; i < _axes.Count; i++)
            {
                changed = changed.WithNumber(_axes[i].Path, values[i]);
            }
            return changed.Design;
        }
        Design design = Part(0, values[0]);
        for (int i = 1; i < _axes.Count; i++)
        {
            design = With(design, Part(i, values[i]), _sections[i]);
        }
        return design;
    }

    private Design Part(int axis, double value) =>
        _parts[axis].GetOrAdd(value, v => _document.WithNumber(_axes[axis].Path, v).Design);

    private static Design With(Design design, Design other, string section) =>
        section switch
        {
            "beam" => design with { Beam = other.Beam },
            "sail" => design with { Sails = other.Sails },
            "surface" => design with { Surfaces = other.Surfaces },
            "mass" => design with { Masses = other.Masses },
            "craft" => design with { Craft = other.Craft },
            "start" => design with { Start = other.Start },
            _ => throw new ArgumentException($"The section {section} has no part of its own.", nameof(section)),
        };
}
