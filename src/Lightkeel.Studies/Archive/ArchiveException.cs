namespace Lightkeel.Studies.Archive;

/// <summary>What is wrong with an archive.</summary>
public enum ArchiveFaultKind
{
    /// <summary>It cannot be written or made here: read-only, no such folder, no right.</summary>
    NotWritable,

    /// <summary>The disk is full.</summary>
    Full,

    /// <summary>Another process holds it.</summary>
    Locked,

    /// <summary>It is damaged, or is no archive, or of a newer program.</summary>
    Unusable,
}

/// <summary>An archive cannot be used; the message says where, why, and what to do.</summary>
public sealed class ArchiveException : Exception
{
    /// <summary>Creates the exception without a cause.</summary>
    public ArchiveException()
        : this("The archive cannot be used.") { }

    /// <summary>Creates the exception with its message.</summary>
    public ArchiveException(string message)
        : base(message) { }

    /// <summary>Creates the exception with its message and cause.</summary>
    public ArchiveException(string message, Exception innerException)
        : base(message, innerException) { }

    /// <summary>Creates the exception.</summary>
    /// <param name="kind">What is wrong.</param>
    /// <param name="place">The archive.</param>
    /// <param name="what">What is wrong, in words.</param>
    /// <param name="remedy">What to do.</param>
    /// <param name="cause">The cause.</param>
    public ArchiveException(ArchiveFaultKind kind, string place, string what, string remedy, Exception? cause = null)
        : base($"archive {place}: {what}; {remedy}", cause) =>
        (Kind, Place, What, Remedy) = (kind, place, what, remedy);

    /// <summary>What is wrong.</summary>
    public ArchiveFaultKind Kind { get; } = ArchiveFaultKind.Unusable;

    /// <summary>The archive.</summary>
    public string Place { get; } = "";

    /// <summary>What is wrong, in words.</summary>
    public string What { get; } = "";

    /// <summary>What to do.</summary>
    public string Remedy { get; } = "";
}
