namespace Lightkeel.Studies.Catalogue;

/// <summary>What an option takes.</summary>
public enum OptionKind
{
    /// <summary>A pure number.</summary>
    Number,

    /// <summary>A number with a unit, such as <c>1.2 m</c>.</summary>
    Quantity,

    /// <summary>A whole number.</summary>
    Integer,

    /// <summary>Any text.</summary>
    Text,

    /// <summary>A file that exists.</summary>
    File,

    /// <summary>Nothing: the option is there or not.</summary>
    Flag,

    /// <summary>One of several words.</summary>
    Choice,

    /// <summary>A file that names a design, with the changes of flags; the study opens it.</summary>
    StudyFile,

    /// <summary>A design file, opened and checked before the study sees it.</summary>
    Design,
}
