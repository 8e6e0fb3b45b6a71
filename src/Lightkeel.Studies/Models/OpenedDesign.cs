using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;

namespace Lightkeel.Studies.Models;

/// <summary>A design file that was read without fault, with the changes of <c>--set</c> in it.</summary>
public sealed class OpenedDesign : IOpenDesign
{
    private OpenedDesign(DesignDocument document, DesignModel model) => (Document, Model) = (document, model);

    /// <summary>The document, for changing numbers.</summary>
    public DesignDocument Document { get; }

    /// <summary>Craft and beam.</summary>
    public DesignModel Model { get; }

    /// <inheritdoc/>
    public string? Title => Document.Title.Length > 0 ? Document.Title : null;

    /// <inheritdoc/>
    public string Sha256 => Document.Sha256;

    /// <summary>Reads a document and builds its models.</summary>
    /// <exception cref="InputRefusedException">The document has faults; all are listed.</exception>
    public static OpenedDesign From(DesignDocument document)
    {
        ArgumentNullException.ThrowIfNull(document);
        return new(document, DesignModel.Build(Checked(document)));
    }

    /// <summary>Opens a design file.</summary>
    /// <exception cref="InputRefusedException">The file or a change to it has faults; all are listed.</exception>
    public static OpenedDesign Open(DesignRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        DesignDocument document = DesignDocument.Load(
            request.Path,
            new DesignReadOptions { AllowOutsideFiles = request.AllowOutsideFiles }
        );
        if (request.Changes.Count > 0 && document.Read().Design is null && document.Title.Length == 0)
        {
            // A file that is not even TOML cannot be changed; its own faults say more than those of the changes.
            Checked(document);
        }
        try
        {
            foreach (DesignChange change in request.Changes)
            {
                document = document.WithValue(change.Path, change.Value);
            }
        }
        catch (DesignFaultException e)
        {
            throw Refused(e.Faults);
        }
        return From(document);
    }

    private static Design Checked(DesignDocument document)
    {
        DesignReading reading = document.Read();
        return reading.Design ?? throw Refused(reading.Faults);
    }

    private static InputRefusedException Refused(IReadOnlyList<DesignFault> faults) =>
        new([.. faults.Select(f => new InputFault(f.Position.ToString(), f.What, f.Accepted))]);
}
