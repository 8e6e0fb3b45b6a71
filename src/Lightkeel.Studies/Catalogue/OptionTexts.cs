namespace Lightkeel.Studies.Catalogue;

/// <summary>What a front end collected, before anything is read: texts by option name, and changes of the design.</summary>
/// <param name="Texts">Texts by option name. A flag that is on has one text, <c>true</c>.</param>
/// <param name="Changes">Texts of the form <c>PATH=VALUE</c>.</param>
/// <param name="AllowOutsideFiles">True when a design may name files outside its folder.</param>
public sealed record OptionTexts(
    IReadOnlyDictionary<string, IReadOnlyList<string>> Texts,
    IReadOnlyList<string> Changes,
    bool AllowOutsideFiles = false
);
