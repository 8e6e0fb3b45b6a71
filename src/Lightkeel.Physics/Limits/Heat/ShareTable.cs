using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>A share (absorption, emissivity) against temperature or wavelength, by measured points.</summary>
/// <remarks>
/// Between points straight in the logarithm of the share, so that exponential growth is met exactly; straight in the share itself beside
/// a zero. Before the first and after the last point the end values are carried on: <see cref="Covers"/> tells where that is.
/// Immutable; safe to share between threads.
/// </remarks>
public sealed class ShareTable
{
    private readonly double[] _at;
    private readonly double[] _share;

    /// <summary>Makes a table.</summary>
    /// <param name="places">Temperatures, K, or wavelengths, m: positive and rising, two or more.</param>
    /// <param name="shares">The share at each, 0 … 1.</param>
    /// <exception cref="ArgumentException">The numbers do not fit, or the places do not rise.</exception>
    public ShareTable(IReadOnlyList<double> places, IReadOnlyList<double> shares)
    {
        ArgumentNullException.ThrowIfNull(places);
        ArgumentNullException.ThrowIfNull(shares);
        if (places.Count < 2 || places.Count != shares.Count)
        {
            throw new ArgumentException("A table has two points or more, each with its share.", nameof(places));
        }
        for (int i = 0; i < places.Count; i++)
        {
            Require.Positive(places[i]);
            Require.Between(shares[i], 0, 1);
            if (i > 0 && !(places[i] > places[i - 1]))
            {
                throw new ArgumentException("The places of a table rise.", nameof(places));
            }
        }
        (_at, _share) = ([.. places], [.. shares]);
    }

    /// <summary>The places of the points.</summary>
    public IReadOnlyList<double> Places => _at;

    /// <summary>First place.</summary>
    public double First => _at[0];

    /// <summary>Last place.</summary>
    public double Last => _at[^1];

    /// <summary>Smallest share.</summary>
    public double Least => _share.Min();

    /// <summary>Largest share.</summary>
    public double Greatest => _share.Max();

    /// <summary>Whether a place lies within the points.</summary>
    public bool Covers(double place) => place >= First && place <= Last;

    /// <summary>Share at a place.</summary>
    public double At(double place)
    {
        if (!(place > First))
        {
            return _share[0];
        }
        if (place >= Last)
        {
            return _share[^1];
        }
        int i = Segment(place);
        double part = (place - _at[i]) / (_at[i + 1] - _at[i]);
        (double a, double b) = (_share[i], _share[i + 1]);
        return a > 0 && b > 0 ? a * Math.Exp(part * Math.Log(b / a)) : a + part * (b - a);
    }

    /// <summary>Slope of the logarithm of the share, per unit of place; zero beyond the ends; at a point that of the stretch after it.</summary>
    public double LogSlope(double place)
    {
        if (place < First || place >= Last)
        {
            return 0;
        }
        int i = Segment(place);
        (double a, double b) = (_share[i], _share[i + 1]);
        double width = _at[i + 1] - _at[i];
        return a > 0 && b > 0 ? Math.Log(b / a) / width
            : At(place) > 0 ? (b - a) / width / At(place)
            : 0;
    }

    private int Segment(double place)
    {
        (int low, int high) = (0, _at.Length - 1);
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            (low, high) = place >= _at[middle] ? (middle, high) : (low, middle);
        }
        return low;
    }
}
