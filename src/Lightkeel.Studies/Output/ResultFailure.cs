namespace Lightkeel.Studies.Output;

/// <summary>One reason why a command gave no result.</summary>
/// <param name="Where">Place of the fault: <c>file:line:column</c>, a flag, a path; null when there is none.</param>
/// <param name="What">What is wrong.</param>
/// <param name="Accepted">What would be accepted instead; null when nothing more can be said.</param>
public sealed record ResultFailure(string? Where, string What, string? Accepted);
