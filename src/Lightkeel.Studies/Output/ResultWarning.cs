namespace Lightkeel.Studies.Output;

/// <summary>Something that the reader of a result must know before using it.</summary>
/// <param name="Code">A stable word for programs, lower case with hyphens, such as <c>single-bounce-only</c>.</param>
/// <param name="Text">One or more sentences for people.</param>
/// <param name="Where">The place it concerns, such as a path in the design; null when it concerns the whole.</param>
public sealed record ResultWarning(string Code, string Text, string? Where = null);
