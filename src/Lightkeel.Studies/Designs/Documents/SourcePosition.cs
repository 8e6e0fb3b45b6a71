namespace Lightkeel.Studies.Designs.Documents;

/// <summary>A place in a design or in a file beside it; also a <c>--set</c> flag, which has no line.</summary>
/// <param name="Source">File name as the user gave it, or the flag.</param>
/// <param name="Line">Line, counted from 1; 0 where lines mean nothing.</param>
/// <param name="Column">Column, counted from 1; 0 where columns mean nothing.</param>
public readonly record struct SourcePosition(string Source, int Line, int Column)
{
    /// <summary>Writes <c>file:line:column</c>.</summary>
    public override string ToString() => Line > 0 ? $"{Source}:{Line}:{Column}" : Source;
}
