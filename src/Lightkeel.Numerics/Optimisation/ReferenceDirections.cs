namespace Lightkeel.Numerics.Optimisation;

/// <summary>Evenly spread points on the plane where all coordinates sum to one.</summary>
/// <remarks>Source: SIAM J. Optim. 8, 631 (1998), DOI 10.1137/S1052623496307510.</remarks>
public static class ReferenceDirections
{
    /// <summary>All points whose coordinates are multiples of one over a number.</summary>
    /// <param name="aims">Coordinates, 2 or more.</param>
    /// <param name="divisions">The number, 1 or more.</param>
    public static IReadOnlyList<double[]> Lattice(int aims, int divisions)
    {
        _ = Require.AtLeast(2, aims);
        _ = Require.AtLeast(1, divisions);
        List<double[]> points = [];
        int[] counts = new int[aims];
        Fill(0, divisions);
        return points;

        void Fill(int coordinate, int left)
        {
            if (coordinate == aims - 1)
            {
                counts[coordinate] = left;
                points.Add([.. counts.Select(c => (double)c / divisions)]);
                return;
            }
            for (int c = 0; c <= left; c++)
            {
                counts[coordinate] = c;
                Fill(coordinate + 1, left - c);
            }
        }
    }

    /// <summary>The finest lattice with at most as many points as asked for, at least the corners.</summary>
    /// <param name="aims">Coordinates.</param>
    /// <param name="most">Most points.</param>
    public static IReadOnlyList<double[]> AtMost(int aims, int most)
    {
        int divisions = 1;
        while (divisions < 1000 && Count(aims, divisions + 1) <= most)
        {
            divisions++;
        }
        return Lattice(aims, divisions);
    }

    private static double Count(int aims, int divisions)
    {
        double count = 1;
        for (int k = 1; k < aims; k++)
        {
            count = count * (divisions + k) / k;
        }
        return Math.Round(count);
    }
}
