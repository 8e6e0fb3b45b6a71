using Lightkeel.Numerics.Sampling.Elementary;

namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>A smooth positive curve through points on double-logarithmic paper, with power laws beyond both ends.</summary>
/// <remarks>Integrals between knots are kept as running sums; parts of a piece use eight-point Gauss–Legendre.</remarks>
internal sealed class LogLogCurve
{
    private readonly double[] _x;
    private readonly double[] _logX;
    private readonly double[] _integralBelow;
    private readonly CubicSpline _logOfLog;
    private readonly PowerLawPiece _first;
    private readonly PowerLawPiece _last;

    /// <summary>Builds the curve through (x, y), both above zero, x increasing.</summary>
    /// <param name="x">Abscissae.</param>
    /// <param name="y">Ordinates.</param>
    /// <param name="firstExponent">Exponent below the first point, above −1.</param>
    /// <param name="lastExponent">Exponent above the last point, below −1.</param>
    public LogLogCurve(double[] x, double[] y, double firstExponent, double lastExponent)
    {
        _x = x;
        _logX = Array.ConvertAll(x, PortableMath.Log);
        _logOfLog = new CubicSpline(_logX, Array.ConvertAll(y, PortableMath.Log), firstExponent, lastExponent);
        _first = new PowerLawPiece(x[0], y[0], firstExponent);
        _last = new PowerLawPiece(x[^1], y[^1], lastExponent);
        _integralBelow = new double[x.Length];
        _integralBelow[0] = _first.IntegralFromZero(x[0]);
        for (int i = 1; i < x.Length; i++)
        {
            _integralBelow[i] = _integralBelow[i - 1] + Part(_logX[i - 1], _logX[i]);
        }
    }

    /// <summary>Value at x &gt; 0.</summary>
    public double At(double x)
    {
        if (x <= _x[0])
        {
            return _first.At(x);
        }
        return x >= _x[^1] ? _last.At(x) : PortableMath.Exp(_logOfLog.Value(PortableMath.Log(x)));
    }

    /// <summary>Integral between 0 ≤ from &lt; to ≤ ∞.</summary>
    public double Integral(double from, double to)
    {
        if (from >= _x[^1])
        {
            return Between(from, to);
        }
        int i = from <= _x[0] ? 0 : UpperKnot(from);
        int j = to >= _x[^1] ? _x.Length - 1 : UpperKnot(to) - 1;
        if (i > j)
        {
            return Between(from, to);
        }
        double head = from < _x[i] ? Between(from, _x[i]) : 0;
        double tail = to > _x[j] ? Between(_x[j], to) : 0;
        return head + (_integralBelow[j] - _integralBelow[i]) + tail;
    }

    // Index of the first knot at or above x, which lies within the table or below it.
    private int UpperKnot(double x)
    {
        int at = Array.BinarySearch(_x, x);
        return Math.Min(at >= 0 ? at : ~at, _x.Length - 1);
    }

    // Integral of a stretch that crosses no knot.
    private double Between(double from, double to)
    {
        if (to <= _x[0])
        {
            return from > 0 ? _first.Integral(from, to) : _first.IntegralFromZero(to);
        }
        if (from >= _x[^1])
        {
            return double.IsPositiveInfinity(to) ? _last.IntegralToInfinity(from) : _last.Integral(from, to);
        }
        double start = PortableMath.Log(from);
        return Part(start, start + PortableMath.Log1p((to - from) / from));
    }

    private double Part(double fromLog, double toLog) =>
        GaussLegendre.Integrate(t => PortableMath.Exp(_logOfLog.Value(t) + t), fromLog, toLog, 1);
}
