namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>An integral over all rays of a pose.</summary>
/// <param name="Sum">Per watt, forces over c, body axes.</param>
/// <param name="Error">Relative errors of the value and of the slopes by the offsets.</param>
/// <param name="Rays">Rays followed.</param>
internal readonly record struct RayAnswer(RaySum Sum, RayTriple Error, long Rays);

/// <summary>
/// Integrates over the azimuth: equal spacings, doubled while that pays, which converge faster than any power where bounces
/// change along smooth lines; else panels that are halved where the error is.
/// </summary>
internal sealed class RayIntegral
{
    // Below this share of all the beam's momentum a force is as good as none, as in ErrorScale.
    private const double DarkForce = 1e-12;
    private const double SmallSlope = 1e-2;
    private const double Rounding = 2e-15;
    private const int FirstCount = 16;
    private const int MostEqual = 256;
    private const int Depth = 10;

    private readonly RayFan _fan;
    private readonly RayLine _line;
    private readonly double _accuracy;
    private readonly double _lengthMetres;
    private readonly bool _withSlopes;
    private readonly long _budget;

    private RayIntegral(RayFan fan, double lengthMetres, double accuracy, bool withSlopes, long budget)
    {
        (_fan, _lengthMetres, _accuracy, _withSlopes, _budget) = (fan, lengthMetres, accuracy, withSlopes, budget);
        _line = new(fan, lengthMetres, withSlopes);
    }

    /// <summary>Integrates until the relative errors are as asked or the rays are used up; the answer says which errors were reached.</summary>
    /// <param name="fan">The rays.</param>
    /// <param name="lengthMetres">Length over which the beam changes by its own size, m.</param>
    /// <param name="accuracy">Relative accuracy asked.</param>
    /// <param name="withSlopes">Whether slopes by the offsets are asked too.</param>
    /// <param name="budget">Most rays, about.</param>
    public static RayAnswer Of(RayFan fan, double lengthMetres, double accuracy, bool withSlopes, long budget)
    {
        RayIntegral integral = new(fan, lengthMetres, accuracy, withSlopes, budget);
        RayDemand demand = integral.Demand();
        return integral.Equal(demand) ?? integral.Panels(demand);
    }

    // A coarse look, to know how large the answer is.
    private RayDemand Demand()
    {
        RaySum sum = default;
        for (int i = 0; i < FirstCount; i++)
        {
            sum.Add(2 * Math.PI / FirstCount, _line.At(2 * Math.PI * i / FirstCount, default).Sum);
        }
        RayTriple size = Sizes(sum);
        double perRadian = 1 / (2 * Math.PI);
        RayTriple allowed = new(
            0.05 * _accuracy * size.Value * perRadian,
            0.05 * _accuracy * size.ByX * perRadian,
            0.05 * _accuracy * size.ByY * perRadian
        );
        return new(new(size.Value * perRadian, size.ByX * perRadian, size.ByY * perRadian), allowed, Depth);
    }

    private RayTriple Sizes(in RaySum sum)
    {
        double force = Math.Max(sum.Block(0).Force.Length, DarkForce);
        if (!_withSlopes)
        {
            return new(force, double.PositiveInfinity, double.PositiveInfinity);
        }
        // Both offsets share one scale: the larger of their slopes.
        double reach = _fan.Scene.ReachMetres;
        double slope = Math.Max(Math.Max(sum.Size(1, reach), sum.Size(2, reach)), SmallSlope * force / _lengthMetres);
        return new(force, slope, slope);
    }

    private RayAnswer? Equal(in RayDemand demand)
    {
        if (_fan.Tangents().Count > 0)
        {
            // Lines from outside a shadow: the integral over the azimuth has ends.
            return null;
        }
        RaySum even = default;
        double lineErrors0 = 0;
        double lineErrors1 = 0;
        double lineErrors2 = 0;
        double last = double.PositiveInfinity;
        RaySum coarse = default;
        for (int count = FirstCount; count <= MostEqual; count *= 2)
        {
            bool isFirst = count == FirstCount;
            for (int i = isFirst ? 0 : 1; i < count; i += isFirst ? 1 : 2)
            {
                (RaySum line, RayTriple error) = _line.At(2 * Math.PI * i / count, demand);
                even.Add(1, line);
                lineErrors0 += error.Value;
                lineErrors1 += error.ByX;
                lineErrors2 += error.ByY;
            }
            double step = 2 * Math.PI / count;
            RaySum fine = default;
            fine.Add(step, even);
            if (!isFirst)
            {
                RayTriple sizes = Sizes(fine);
                RaySum difference = fine;
                difference.Add(-1, coarse);
                RayTriple between = Relative(difference, sizes);
                RayTriple total = new(
                    ErrorScale.Credit(between.Value) + step * lineErrors0 / sizes.Value + Rounding,
                    ErrorScale.Credit(between.ByX) + step * lineErrors1 / sizes.ByX + Rounding,
                    ErrorScale.Credit(between.ByY) + step * lineErrors2 / sizes.ByY + Rounding
                );
                if (Worst(total) <= _accuracy)
                {
                    return new(fine, total, _line.Rays);
                }
                double worst = Worst(between);
                // Kinks and jumps: doubling brings little.
                if (worst > 0.05 * last || _line.Rays > _budget)
                {
                    return null;
                }
                last = worst;
            }
            coarse = fine;
        }
        return null;
    }

    private RayAnswer Panels(in RayDemand demand) => RayAzimuth.Integrate(_line, demand, _accuracy, _budget, this);

    /// <summary>Azimuths whose lines touch the shadow of a rim, 0 … 2π.</summary>
    public IReadOnlyList<double> Tangents => _fan.Tangents();

    /// <summary>Errors of a sum of differences over the sizes of the answer.</summary>
    public RayTriple Relative(in RaySum difference, in RayTriple sizes)
    {
        double reach = _fan.Scene.ReachMetres;
        return new(
            difference.Size(0, reach) / sizes.Value,
            difference.Size(1, reach) / sizes.ByX,
            difference.Size(2, reach) / sizes.ByY
        );
    }

    /// <summary>Sizes that errors of an answer are compared with.</summary>
    public RayTriple SizesOf(in RaySum sum) => Sizes(sum);

    /// <summary>Size of a difference, block by block.</summary>
    public RayTriple Absolute(in RaySum difference)
    {
        double reach = _fan.Scene.ReachMetres;
        return new(difference.Size(0, reach), difference.Size(1, reach), difference.Size(2, reach));
    }

    private double Worst(in RayTriple t) => _withSlopes ? Math.Max(t.Value, Math.Max(t.ByX, t.ByY)) : t.Value;
}
