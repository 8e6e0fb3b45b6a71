using System.Collections.Concurrent;
using System.Security.Cryptography;
using System.Text;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Search;

/// <summary>A study file bound to its design: what is varied, aimed at and limited. Immutable; safe to share between threads.</summary>
public sealed class SearchProblem
{
    private readonly ConcurrentDictionary<string, DesignDocument> _variants = new(StringComparer.Ordinal);

    internal SearchProblem(SearchFile file, string source, string text, OpenedDesign design, SearchBinding binding)
    {
        (File, Source, Text, Design) = (file, source, text, design);
        (Variables, Profiles, Aims, Limits) = (binding.Variables, binding.Profiles, binding.Aims, binding.Limits);
        ChoiceChanges = binding.ChoiceChanges;
        Scatters = ScatterLaws.Of(design.Document, file.Scatters);
    }

    internal SearchFile File { get; }

    /// <summary>Name of the study file.</summary>
    public string Source { get; }

    /// <summary>Title of the search.</summary>
    public string Title => File.Title;

    /// <summary>Its text.</summary>
    public string Text { get; }

    /// <summary>SHA-256 of its text.</summary>
    public string Sha256 => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Text)));

    /// <summary>The design that is varied.</summary>
    public OpenedDesign Design { get; }

    internal IReadOnlyList<SearchNumber> Variables { get; }

    internal IReadOnlyList<SearchProfile> Profiles { get; }

    internal IReadOnlyList<SearchAim> Aims { get; }

    internal IReadOnlyList<SearchLimit> Limits { get; }

    /// <summary>What each choice of a variable sets; empty for numbers.</summary>
    internal IReadOnlyList<IReadOnlyList<IReadOnlyList<(string Path, string Value)>>> ChoiceChanges { get; }

    internal IReadOnlyList<ScatterLaw> Scatters { get; }

    /// <summary>Opens a study file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="changes">Changes of the design, as by --set.</param>
    /// <param name="allowOutsideFiles">True when files may lie outside the study's folder.</param>
    /// <exception cref="Catalogue.InputRefusedException">It has faults; all are listed.</exception>
    public static SearchProblem Open(
        string path,
        IReadOnlyList<Catalogue.DesignChange>? changes = null,
        bool allowOutsideFiles = false
    ) => SearchOpening.Open(path, changes ?? [], allowOutsideFiles);

    /// <summary>A place with the genes of what does not exist there at their lower ends, and all others inside their ranges.</summary>
    internal double[] Canonical(IReadOnlyList<double> genes)
    {
        double[] place = new double[Variables.Count];
        for (int i = 0; i < place.Length; i++)
        {
            place[i] = Variables[i].Gene.Nearest(genes[i]);
        }
        for (int i = 0; i < place.Length; i++)
        {
            place[i] = Variables[i].IsActive(place) ? place[i] : Variables[i].Gene.Lower;
        }
        return place;
    }

    /// <summary>Which combination of choices a place has, as one number.</summary>
    internal int KindOf(IReadOnlyList<double> genes)
    {
        int kind = 0;
        for (int i = 0; i < Variables.Count; i++)
        {
            kind = Variables[i].IsChoice ? kind * Variables[i].Words.Count + (int)genes[i] : kind;
        }
        return kind;
    }

    /// <summary>The choices of a place in words; empty where there are none.</summary>
    internal string KindText(IReadOnlyList<double> genes) =>
        string.Join(", ", Variables.Select((v, i) => v.IsChoice ? v.Words[(int)genes[i]] : null).OfType<string>());

    /// <summary>The design at a place.</summary>
    /// <exception cref="DesignFaultException">A change leads nowhere there.</exception>
    internal DesignDocument DocumentAt(IReadOnlyList<double> genes)
    {
        double[] values = [.. Variables.Select((v, i) => v.Value(genes[i]))];
        DesignDocument document = Variant(genes);
        foreach (SearchProfile profile in Profiles)
        {
            if (Variables[profile.First].IsActive(genes))
            {
                document = profile.Put(document, values);
            }
        }
        for (int i = 0; i < Variables.Count; i++)
        {
            if (!Variables[i].IsChoice && Variables[i].IsActive(genes) && !IsOfProfile(i))
            {
                document = document.WithNumber(Variables[i].Name, values[i]);
            }
        }
        return document;
    }

    /// <summary>The design under the choices of a place.</summary>
    internal DesignDocument Variant(IReadOnlyList<double> genes)
    {
        string key = string.Join(',', Variables.Select((v, i) => v.IsChoice ? (int)genes[i] : -1));
        return _variants.GetOrAdd(
            key,
            _ =>
            {
                DesignDocument document = Design.Document;
                for (int i = 0; i < Variables.Count; i++)
                {
                    if (Variables[i].IsChoice)
                    {
                        document = Changed(document, ChoiceChanges[i][(int)genes[i]]);
                    }
                }
                return document;
            }
        );
    }

    internal static DesignDocument Changed(DesignDocument document, IReadOnlyList<(string Path, string Value)> changes)
    {
        foreach ((string path, string value) in changes)
        {
            document = document.WithValue(path, value);
        }
        return document;
    }

    private bool IsOfProfile(int variable) => Profiles.Any(p => variable >= p.First && variable < p.First + p.Count);
}
