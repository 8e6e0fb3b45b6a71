namespace Lightkeel.Physics.Units;

/// <summary>Reads the unit part of a quantity: symbols with powers, products, quotients and parentheses.</summary>
/// <remarks>
/// A product after a quotient without parentheses (<c>J/kg K</c>) has two readings and is refused. Powers are whole and
/// written <c>m^2</c> or <c>m²</c>. Parentheses are not nested: no unit in use needs it.
/// </remarks>
internal ref struct UnitExpression
{
    private const int DeepestParentheses = 1;
    private const int LargestExponent = 12;
    private const string Superscripts = "\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079";

    private readonly ReadOnlySpan<char> _text;
    private int _at;
    private string? _fault;

    private UnitExpression(ReadOnlySpan<char> text) => _text = text;

    /// <summary>Reads a whole unit; an empty text is the unit one.</summary>
    /// <returns>True with the unit, or false with what is wrong.</returns>
    public static bool TryRead(ReadOnlySpan<char> text, out UnitOfMeasure unit, out string? fault)
    {
        UnitExpression reader = new(text.Trim());
        unit = reader._text.IsEmpty ? UnitOfMeasure.One : reader.Product(0);
        if (reader._fault is null && reader._at < reader._text.Length)
        {
            reader.Fail($"unexpected \"{reader._text[reader._at]}\" in the unit \"{reader._text}\"");
        }
        if (reader._fault is null && !unit.IsReasonable)
        {
            reader.Fail($"the unit \"{reader._text}\" is beyond all use");
        }
        fault = reader._fault;
        return fault is null;
    }

    private UnitOfMeasure Product(int depth)
    {
        UnitOfMeasure result = Factor(depth);
        bool divided = false;
        while (_fault is null)
        {
            bool spaced = SkipSpaces();
            if (_at >= _text.Length || _text[_at] == ')')
            {
                break;
            }
            char next = _text[_at];
            if (next == '/')
            {
                divided = true;
                _at++;
                result = result.Times(Factor(depth).Inverse());
            }
            else if (next is '*' or '\u00b7' or '\u22c5' || spaced)
            {
                _at += next is '*' or '\u00b7' or '\u22c5' ? 1 : 0;
                if (divided)
                {
                    return Fail(
                        $"the unit \"{_text}\" can be read in two ways; put what is divided by in parentheses, as in J/(kg K)"
                    );
                }
                result = result.Times(Factor(depth));
            }
            else
            {
                return Fail($"unexpected \"{next}\" in the unit \"{_text}\"");
            }
        }
        return result;
    }

    private UnitOfMeasure Factor(int depth)
    {
        SkipSpaces();
        if (_fault is not null || _at >= _text.Length)
        {
            return Fail($"the unit \"{_text}\" ends too early");
        }
        if (_text[_at] == '(')
        {
            return Parenthesis(depth);
        }
        if (_text[_at] == '1' && (_at + 1 == _text.Length || !char.IsAsciiDigit(_text[_at + 1])))
        {
            _at++;
            return UnitOfMeasure.One;
        }
        int start = _at;
        while (_at < _text.Length && IsSymbolCharacter(_text[_at]))
        {
            _at++;
        }
        if (_at == start)
        {
            return Fail($"unexpected \"{_text[_at]}\" in the unit \"{_text}\"");
        }
        ReadOnlySpan<char> symbol = _text[start.._at];
        return UnitTable.TryFind(symbol, out UnitOfMeasure unit)
            ? Raised(unit)
            : Fail($"unknown unit \"{symbol}\"{UnitTable.Hint(symbol.ToString())}");
    }

    private UnitOfMeasure Parenthesis(int depth)
    {
        if (depth >= DeepestParentheses)
        {
            return Fail($"the unit \"{_text}\" has too many parentheses");
        }
        _at++;
        UnitOfMeasure inner = Product(depth + 1);
        if (_fault is not null)
        {
            return inner;
        }
        if (_at >= _text.Length)
        {
            return Fail($"a parenthesis is not closed in the unit \"{_text}\"");
        }
        _at++;
        return Raised(inner);
    }

    private UnitOfMeasure Raised(UnitOfMeasure unit)
    {
        if (_at >= _text.Length)
        {
            return unit;
        }
        if (char.IsAsciiDigit(_text[_at]))
        {
            return Fail($"a power in the unit \"{_text}\" lacks its sign: write m^2 or m²");
        }
        bool caret = _text[_at] == '^';
        _at += caret ? 1 : 0;
        bool negative = _at < _text.Length && (caret ? _text[_at] is '-' or '\u2212' : _text[_at] == '\u207b');
        _at += negative ? 1 : 0;
        int start = _at;
        int exponent = 0;
        while (_at < _text.Length && ExponentDigit(_text[_at], caret) is int digit and >= 0)
        {
            exponent = Math.Min(10 * exponent + digit, 1000);
            _at++;
        }
        if (_at == start)
        {
            return caret || negative ? Fail($"a power in the unit \"{_text}\" is not a whole number") : unit;
        }
        return exponent is > 0 and <= LargestExponent
            ? unit.Power(negative ? -exponent : exponent)
            : Fail($"a power in the unit \"{_text}\" is not between 1 and {LargestExponent}");
    }

    private static int ExponentDigit(char c, bool caret) =>
        caret ? (char.IsAsciiDigit(c) ? c - '0' : -1) : Superscripts.IndexOf(c, StringComparison.Ordinal);

    private static bool IsSymbolCharacter(char c) => char.IsLetter(c) || c is '%' or '\u00b0' or '\u00b5';

    private bool SkipSpaces()
    {
        int start = _at;
        while (_at < _text.Length && char.IsWhiteSpace(_text[_at]))
        {
            _at++;
        }
        return _at > start;
    }

    private UnitOfMeasure Fail(string fault)
    {
        _fault ??= fault;
        _at = _text.Length;
        return UnitOfMeasure.One;
    }
}
