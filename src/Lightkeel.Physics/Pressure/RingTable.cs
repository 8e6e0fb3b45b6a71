using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>Rings of one surface at the nodes of a Gauss-Kronrod pair along its meridian.</summary>
internal sealed class RingTable
{
    private RingTable(int capacity)
    {
        Rings = new Ring[capacity];
    }

    /// <summary>The rings, from the inner end outward.</summary>
    public Ring[] Rings { get; }

    /// <summary>Builds the rings of a surface.</summary>
    /// <param name="shape">The surface.</param>
    /// <param name="stretches">Stretches of the meridian: piece, start and end of the parameter.</param>
    /// <param name="pair">Rule for each stretch.</param>
    public static RingTable Build(
        SurfaceOfRevolution shape,
        IReadOnlyList<(int Piece, double Start, double End)> stretches,
        GaussKronrod pair
    )
    {
        RingTable table = new(stretches.Count * pair.Count);
        int at = 0;
        foreach ((int piece, double start, double end) in stretches)
        {
            double half = 0.5 * (end - start);
            for (int i = 0; i < pair.Count; i++)
            {
                MeridianPoint point = shape.At(piece, start + half * (1 + pair.Nodes[i]));
                double area = half * point.RadiusMetres * point.ArcRate;
                table.Rings[at++] = new(point, area * pair.KronrodWeights[i], area * pair.GaussWeights[i]);
            }
        }
        return table;
    }
}

/// <summary>One ring: its place on the meridian and its area per radian of azimuth under the two nested rules.</summary>
/// <param name="Point">Place and normal.</param>
/// <param name="FineWeight">Area per radian under the fine rule, m².</param>
/// <param name="CoarseWeight">Area per radian under the nested coarse rule, m²; zero where it has no node.</param>
internal readonly record struct Ring(MeridianPoint Point, double FineWeight, double CoarseWeight);
