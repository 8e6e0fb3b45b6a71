namespace Lightkeel.Studies.Output.Requirements;

/// <summary>Reads a condition into a tree, by recursive descent: one method per level of precedence.</summary>
internal sealed class ConditionParser
{
    private const int DeepestNesting = 100;
    private static readonly string[] Comparisons = ["==", "!=", "<", "<=", ">", ">="];
    private readonly string _condition;
    private readonly List<ConditionToken> _tokens;
    private int _next;
    private int _depth;

    private ConditionParser(string condition) => (_condition, _tokens) = (condition, ConditionReader.Read(condition));

    public static ConditionNode Parse(string condition)
    {
        ConditionParser parser = new(condition);
        if (parser.Peek.Kind == TokenKind.End)
        {
            throw new RequirementException(condition, 0, "The condition is empty.");
        }
        ConditionNode node = parser.ReadOr();
        if (parser.Peek.Kind != TokenKind.End)
        {
            throw parser.Unexpected("an operator or the end of the condition");
        }
        return node;
    }

    private ConditionToken Peek => _tokens[_next];

    private ConditionNode ReadOr()
    {
        if (++_depth > DeepestNesting)
        {
            throw new RequirementException(_condition, Peek.Position, "The condition is nested too deeply.");
        }
        ConditionNode left = ReadAnd();
        while (Accept("||") is int position)
        {
            left = new BinaryNode(position, "||", left, ReadAnd());
        }
        _depth--;
        return left;
    }

    private ConditionNode ReadAnd()
    {
        ConditionNode left = ReadComparison();
        while (Accept("&&") is int position)
        {
            left = new BinaryNode(position, "&&", left, ReadComparison());
        }
        return left;
    }

    /// <summary>A chain such as <c>1 &lt; x &lt;= 2</c> means that each comparison holds.</summary>
    private ConditionNode ReadComparison()
    {
        ConditionNode left = ReadSum();
        ConditionNode? chain = null;
        while (Peek.Kind == TokenKind.Symbol && Comparisons.Contains(Peek.Text))
        {
            ConditionToken symbol = _tokens[_next++];
            ConditionNode right = ReadSum();
            BinaryNode link = new(symbol.Position, symbol.Text, left, right);
            chain = chain is null ? link : new BinaryNode(symbol.Position, "&&", chain, link);
            left = right;
        }
        return chain ?? left;
    }

    private ConditionNode ReadSum()
    {
        ConditionNode left = ReadProduct();
        while (Peek.Is("+") || Peek.Is("-"))
        {
            ConditionToken symbol = _tokens[_next++];
            left = new BinaryNode(symbol.Position, symbol.Text, left, ReadProduct());
        }
        return left;
    }

    private ConditionNode ReadProduct()
    {
        ConditionNode left = ReadUnary();
        while (Peek.Is("*") || Peek.Is("/"))
        {
            ConditionToken symbol = _tokens[_next++];
            left = new BinaryNode(symbol.Position, symbol.Text, left, ReadUnary());
        }
        return left;
    }

    private ConditionNode ReadUnary()
    {
        Stack<ConditionToken> signs = [];
        while (Peek.Is("-") || Peek.Is("!") || Peek.Is("+"))
        {
            signs.Push(_tokens[_next++]);
        }
        ConditionNode operand = ReadPrimary();
        foreach (ConditionToken sign in signs)
        {
            operand = sign.Is("+") ? operand : new UnaryNode(sign.Position, sign.Text, operand);
        }
        return operand;
    }

    private ConditionNode ReadPrimary()
    {
        ConditionToken token = Peek;
        switch (token.Kind)
        {
            case TokenKind.Number:
                _next++;
                return new LiteralNode(token.Position, ConditionValue.Of(token.Number));
            case TokenKind.Text:
                _next++;
                return new LiteralNode(token.Position, ConditionValue.Of(token.Text));
            case TokenKind.Name:
                _next++;
                return ReadName(token);
            case TokenKind.Symbol when token.Text == "(":
                _next++;
                ConditionNode inner = ReadOr();
                Expect(")");
                return inner;
            default:
                throw Unexpected("a number, a quoted text, a key of the result or \"(\"");
        }
    }

    private ConditionNode ReadName(ConditionToken name)
    {
        switch (name.Text)
        {
            case "true" or "false":
                return new LiteralNode(name.Position, ConditionValue.Of(name.Text == "true"));
            case "null":
                return new LiteralNode(name.Position, ConditionValue.Null);
        }
        if (Accept("(") is not null)
        {
            return ReadCall(name);
        }
        List<PathStep> steps = [new(name.Position, name.Text, null)];
        while (true)
        {
            if (Accept(".") is not null)
            {
                ConditionToken key = Peek.Kind == TokenKind.Name ? _tokens[_next++] : throw Unexpected("a key");
                steps.Add(new(key.Position, key.Text, null));
            }
            else if (Accept("[") is int position)
            {
                steps.Add(ReadIndex(position));
            }
            else
            {
                return new PathNode(name.Position, steps);
            }
        }
    }

    private PathStep ReadIndex(int position)
    {
        int? index = null;
        if (Accept("*") is null)
        {
            int sign = Accept("-") is null ? 1 : -1;
            bool whole = Peek.Kind == TokenKind.Number && Peek.Number == Math.Floor(Peek.Number) && Peek.Number < 1e9;
            index = whole ? sign * (int)_tokens[_next++].Number : throw Unexpected("a whole number or *");
        }
        Expect("]");
        return new(position, null, index);
    }

    private CallNode ReadCall(ConditionToken name)
    {
        if (!ConditionFunctions.Names.Contains(name.Text))
        {
            throw new RequirementException(
                _condition,
                name.Position,
                $"There is no function \"{name.Text}\": {NearestName.Suggestion(name.Text, ConditionFunctions.Names)}"
            );
        }
        List<ConditionNode> arguments = [];
        if (Accept(")") is null)
        {
            do
            {
                arguments.Add(ReadOr());
            } while (Accept(",") is not null);
            Expect(")");
        }
        return new(name.Position, name.Text, arguments);
    }

    private int? Accept(string symbol) => Peek.Is(symbol) ? _tokens[_next++].Position : null;

    private void Expect(string symbol)
    {
        if (Accept(symbol) is null)
        {
            throw Unexpected($"\"{symbol}\"");
        }
    }

    private RequirementException Unexpected(string expected)
    {
        string found = Peek.Kind == TokenKind.End ? "the condition ends" : $"\"{Peek.Text}\" stands";
        return new(_condition, Peek.Position, $"Expected {expected}, but {found} here.");
    }
}
