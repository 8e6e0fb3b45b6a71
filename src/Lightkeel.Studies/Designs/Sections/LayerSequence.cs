using System.Globalization;

namespace Lightkeel.Studies.Designs.Sections;

/// <summary>Reads the order of a film's layers: names, groups in parentheses, and repeats after ^.</summary>
internal static class LayerSequence
{
    private const int MostLayers = 400;

    /// <summary>Reads an order.</summary>
    /// <param name="text">As written, such as <c>(H L)^8 H</c>.</param>
    /// <param name="known">Names of the layers.</param>
    /// <returns>The names in order, or what is wrong.</returns>
    public static (IReadOnlyList<string> Order, string? Fault) Read(string text, IReadOnlyList<string> known)
    {
        Reader reader = new(text, known);
        List<string>? order = reader.Group(isInner: false);
        return order is null ? ([], reader.Fault) : (order, order.Count == 0 ? "it names no layer" : null);
    }

    private sealed class Reader(string text, IReadOnlyList<string> known)
    {
        private int _at;

        public string? Fault { get; private set; }

        public List<string>? Group(bool isInner)
        {
            List<string> order = [];
            while (true)
            {
                Skip();
                if (_at == text.Length)
                {
                    return isInner ? Fail("a parenthesis is not closed") : order;
                }
                List<string>? part;
                switch (text[_at])
                {
                    case ')':
                        _at++;
                        return isInner ? order : Fail("a parenthesis is closed that was not opened");
                    case '(':
                        _at++;
                        part = Group(isInner: true);
                        break;
                    default:
                        part = Name();
                        break;
                }
                if (part is null || Repeats() is not { } times)
                {
                    return null;
                }
                if (order.Count + (long)times * part.Count > MostLayers)
                {
                    return Fail($"it has more than {MostLayers} layers");
                }
                for (int i = 0; i < times; i++)
                {
                    order.AddRange(part);
                }
            }
        }

        private List<string>? Name()
        {
            int start = _at;
            while (_at < text.Length && (char.IsAsciiLetterOrDigit(text[_at]) || text[_at] is '-' or '_'))
            {
                _at++;
            }
            string name = text[start.._at];
            return known.Contains(name) ? [name]
                : name.Length > 0 ? Fail($"\"{name}\" is no layer")
                : Fail($"the character '{text[_at]}' at place {_at + 1} has no meaning");
        }

        private int? Repeats()
        {
            Skip();
            if (_at == text.Length || text[_at] != '^')
            {
                return 1;
            }
            _at++;
            Skip();
            int start = _at;
            while (_at < text.Length && char.IsAsciiDigit(text[_at]))
            {
                _at++;
            }
            if (
                int.TryParse(text.AsSpan(start, _at - start), CultureInfo.InvariantCulture, out int times)
                && times is >= 1 and <= MostLayers
            )
            {
                return times;
            }
            Fail($"^ must be followed by a whole number from 1 to {MostLayers}");
            return null;
        }

        private void Skip()
        {
            while (_at < text.Length && char.IsWhiteSpace(text[_at]))
            {
                _at++;
            }
        }

        private List<string>? Fail(string fault)
        {
            Fault ??= fault;
            return null;
        }
    }
}
