namespace Lightkeel.Studies.Catalogue;

/// <summary>Which design to open, and how.</summary>
/// <param name="Path">The file.</param>
/// <param name="Changes">Values to set before it is checked, in order.</param>
/// <param name="AllowOutsideFiles">True when files that it names may lie outside its folder.</param>
public sealed record DesignRequest(string Path, IReadOnlyList<DesignChange> Changes, bool AllowOutsideFiles);

/// <summary>A value to set in a design, from <c>--set PATH=VALUE</c>.</summary>
/// <param name="Path">Dotted path, such as <c>beam.radius</c>.</param>
/// <param name="Value">The value as text, such as <c>1.2 m</c>.</param>
public sealed record DesignChange(string Path, string Value);
