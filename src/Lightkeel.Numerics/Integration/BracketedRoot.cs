namespace Lightkeel.Numerics.Integration;

/// <summary>
/// Closes a bracket around a sign change by inverse quadratic interpolation where that is safe and by bisection elsewhere.
/// </summary>
/// <remarks>
/// Source: Advances in Engineering Software 28(3), 145–149 (1997), doi:10.1016/S0965-9978(96)00051-8. The caller evaluates
/// the function (ask and tell), so that neither a delegate nor memory is needed.
/// </remarks>
internal struct BracketedRoot
{
    private const int MostRounds = 200;
    private double _x1;
    private double _f1;
    private double _x2;
    private double _f2;
    private double _part;
    private int _rounds;

    /// <summary>Opens the bracket. The values have opposite signs; that at the near end is not zero.</summary>
    public BracketedRoot(double near, double nearValue, double far, double farValue)
    {
        (_x1, _f1, _x2, _f2) = (far, farValue, near, nearValue);
        _part = 0.5;
        _rounds = 0;
    }

    /// <summary>The next point to evaluate; false when the bracket is as narrow as <paramref name="width"/> or a zero is hit.</summary>
    public bool Ask(double width, out double x)
    {
        x = _x1 + _part * (_x2 - _x1);
        bool open = _f1 != 0 && _f2 != 0 && Math.Abs(_x2 - _x1) > width && _rounds < MostRounds;
        return open && x != _x1 && x != _x2;
    }

    /// <summary>Takes the value at the point asked for.</summary>
    /// <param name="x">The point.</param>
    /// <param name="value">Value there.</param>
    /// <param name="width">Width wanted.</param>
    public void Tell(double x, double value, double width)
    {
        _rounds++;
        (double x3, double f3) = (_x1, _f1);
        if (value > 0 != _f1 > 0)
        {
            (x3, f3) = (_x2, _f2);
            (_x2, _f2) = (_x1, _f1);
        }
        (_x1, _f1) = (x, value);
        double span = Math.Abs(_x2 - _x1);
        double edge = span > 0 ? Math.Min(0.5, 0.5 * width / span) : 0.5;
        _part = Math.Clamp(NextPart(x3, f3), edge, 1 - edge);
    }

    /// <summary>The end of the bracket where the function is zero or has the sign of the far side.</summary>
    /// <param name="farIsPositive">Sign on the far side.</param>
    public readonly double FarEnd(bool farIsPositive) => _f1 == 0 || _f1 > 0 == farIsPositive ? _x1 : _x2;

    // Inverse quadratic interpolation through three points where it is monotone, else the middle.
    private readonly double NextPart(double x3, double f3)
    {
        double xi = (_x1 - _x2) / (x3 - _x2);
        double phi = (_f1 - _f2) / (f3 - _f2);
        bool monotone = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
        if (!monotone)
        {
            return 0.5;
        }
        double part =
            _f1 / (_f2 - _f1) * f3 / (_f2 - f3) + (x3 - _x1) / (_x2 - _x1) * _f1 / (f3 - _f1) * _f2 / (f3 - _f2);
        return double.IsFinite(part) ? part : 0.5;
    }
}
