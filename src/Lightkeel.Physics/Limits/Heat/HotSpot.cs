using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Limits.Heat;

/// <summary>The brightest element of a surface.</summary>
/// <param name="Place">Where it is.</param>
/// <param name="LightWattsPerSquareMetre">I μ there, W/m², of a film as in <see cref="SurfaceLighting.WarmingLightAt(in SurfacePlace)"/>.</param>
/// <remarks>
/// A true maximum: the surface is sampled at an eighth of the length over which beam and shape change, and every local
/// maximum among the samples is followed until its place is known to 1e-8 of the sampling step, so that the value is
/// good to 1e-12 of itself.
/// </remarks>
public readonly record struct HotSpot(SurfacePlace Place, double LightWattsPerSquareMetre)
{
    private const double Golden = 0.6180339887498949;
    private const int LeastSamples = 24;
    private const int MostSamples = 2000;

    /// <summary>Finds it.</summary>
    public static HotSpot Of(SurfaceLighting lighting)
    {
        ArgumentNullException.ThrowIfNull(lighting);
        SurfaceOfRevolution shape = lighting.Surface.Shape;
        HotSpot best = default;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            double[] at = Samples(lighting, p);
            HotSpot found = lighting.IsAxisymmetric ? AlongMeridian(lighting, p, at) : OverPiece(lighting, p, at);
            best = found.LightWattsPerSquareMetre > best.LightWattsPerSquareMetre ? found : best;
        }
        return best;
    }

    /// <summary>Parameters of a piece spaced by an eighth of what changes over it.</summary>
    internal static double[] Samples(SurfaceLighting lighting, int piece)
    {
        SurfaceOfRevolution shape = lighting.Surface.Shape;
        (double start, double end) = shape.Pieces[piece];
        double length = 0;
        for (int i = 0; i < 16; i++)
        {
            length += (end - start) / 16 * shape.At(piece, start + (i + 0.5) / 16 * (end - start)).ArcRate;
        }
        int count = (int)Math.Clamp(8 * length / lighting.FeatureMetres, LeastSamples, MostSamples);
        double[] at = new double[count + 1];
        for (int i = 0; i <= count; i++)
        {
            at[i] = start + (end - start) * i / count;
        }
        return at;
    }

    private static HotSpot AlongMeridian(SurfaceLighting lighting, int piece, double[] at)
    {
        double Value(double u) => lighting.WarmingLightAt(new SurfacePlace(piece, u, 0));
        double[] values = [.. at.Select(Value)];
        HotSpot best = default;
        for (int i = 0; i < at.Length; i++)
        {
            bool rises = i == 0 || values[i] >= values[i - 1];
            bool falls = i == at.Length - 1 || values[i] >= values[i + 1];
            if (!rises || !falls || values[i] == 0)
            {
                continue;
            }
            double u = Refined(Value, at[Math.Max(0, i - 1)], at[Math.Min(at.Length - 1, i + 1)]);
            u = Value(u) >= values[i] ? u : at[i];
            double light = Value(u);
            best = light > best.LightWattsPerSquareMetre ? new(new(piece, u, 0), light) : best;
        }
        return best;
    }

    // Golden section to 1e-8 of the bracket; ends included by the caller.
    private static double Refined(Func<double, double> value, double low, double high)
    {
        double width = high - low;
        double left = high - Golden * width;
        double right = low + Golden * width;
        (double atLeft, double atRight) = (value(left), value(right));
        double least = 1e-8 * width;
        while (high - low > least)
        {
            if (atLeft >= atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - Golden * (high - low);
                atLeft = value(left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + Golden * (high - low);
                atRight = value(right);
            }
        }
        return 0.5 * (low + high);
    }

    private static HotSpot OverPiece(SurfaceLighting lighting, int piece, double[] at)
    {
        int around = Math.Clamp(
            (int)(8 * 2 * Math.PI * lighting.Surface.Shape.MaximumRadiusMetres / lighting.FeatureMetres),
            24,
            256
        );
        double step = 2 * Math.PI / around;
        double[,] values = new double[at.Length, around];
        for (int i = 0; i < at.Length; i++)
        {
            MeridianPoint m = lighting.Surface.Shape.At(piece, at[i]);
            for (int k = 0; k < around; k++)
            {
                values[i, k] = lighting.WarmingLightAt(m, k * step);
            }
        }
        HotSpot best = default;
        for (int i = 0; i < at.Length; i++)
        {
            for (int k = 0; k < around; k++)
            {
                if (values[i, k] > 0 && IsPeak(values, i, k))
                {
                    HotSpot found = Climbed(lighting, piece, at, i, k * step, step);
                    best = found.LightWattsPerSquareMetre > best.LightWattsPerSquareMetre ? found : best;
                }
            }
        }
        return best;
    }

    private static bool IsPeak(double[,] values, int i, int k)
    {
        int around = values.GetLength(1);
        for (int di = -1; di <= 1; di++)
        {
            for (int dk = -1; dk <= 1; dk++)
            {
                int row = i + di;
                if (row < 0 || row >= values.GetLength(0) || (di == 0 && dk == 0))
                {
                    continue;
                }
                if (values[row, (k + dk + around) % around] > values[i, k])
                {
                    return false;
                }
            }
        }
        return true;
    }

    // Compass search: eight neighbours, half the step when none is brighter.
    private static HotSpot Climbed(SurfaceLighting lighting, int piece, double[] at, int i, double azimuth, double step)
    {
        double u = at[i];
        double move = at[1] - at[0];
        double turn = step;
        double light = lighting.WarmingLightAt(new SurfacePlace(piece, u, azimuth));
        double least = 1e-8 * move;
        while (move > least)
        {
            bool moved = false;
            for (int n = 0; n < 9 && !moved; n++)
            {
                double v = Math.Clamp(u + (n / 3 - 1) * move, at[0], at[^1]);
                double a = azimuth + (n % 3 - 1) * turn;
                double there = lighting.WarmingLightAt(new SurfacePlace(piece, v, a));
                if (there > light * (1 + 1e-15))
                {
                    (u, azimuth, light, moved) = (v, a, there, true);
                }
            }
            if (!moved)
            {
                (move, turn) = (0.5 * move, 0.5 * turn);
            }
        }
        return new(new(piece, u, azimuth), light);
    }
}
