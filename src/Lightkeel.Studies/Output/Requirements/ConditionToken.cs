namespace Lightkeel.Studies.Output.Requirements;

internal enum TokenKind
{
    Number,
    Text,
    Name,
    Symbol,
    End,
}

/// <summary>A word of a condition. <see cref="Text"/> is the symbol, the name, or the content of a quoted text.</summary>
internal readonly record struct ConditionToken(TokenKind Kind, string Text, double Number, int Position)
{
    public bool Is(string symbol) => Kind == TokenKind.Symbol && Text == symbol;
}
