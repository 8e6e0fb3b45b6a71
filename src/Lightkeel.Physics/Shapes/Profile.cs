using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Shapes;

/// <summary>
/// Surface of revolution through tabulated points of its meridian, height against radius, interpolated by a
/// shape-preserving curve (see <see cref="PiecewiseCubic"/>); reference point: z = 0 on the axis, as tabulated.
/// </summary>
public sealed class Profile : SurfaceOfRevolution
{
    private readonly PiecewiseCubic _height;

    /// <summary>Builds a profile.</summary>
    /// <param name="radiiMetres">Radii, m, at least two, the first ≥ 0, strictly increasing.</param>
    /// <param name="heightsMetres">Heights along +z, m, as many.</param>
    /// <exception cref="ArgumentException">The table is too short, unsorted, negative or not finite.</exception>
    public Profile(ReadOnlySpan<double> radiiMetres, ReadOnlySpan<double> heightsMetres)
    {
        if (radiiMetres.Length > 0 && radiiMetres[0] < 0)
        {
            throw new ArgumentException(
                "A profile starts on the axis or outside it: the first radius is ≥ 0.",
                nameof(radiiMetres)
            );
        }
        // A meridian that starts on the axis of a smooth surface meets it at right angles only where the data say so;
        // no slope is forced, so that cones stay cones.
        _height = new(radiiMetres, heightsMetres);
        MeridianPiece[] pieces = new MeridianPiece[radiiMetres.Length - 1];
        for (int i = 0; i < pieces.Length; i++)
        {
            pieces[i] = new(radiiMetres[i], radiiMetres[i + 1]);
        }
        Pieces = pieces;
        MaximumRadiusMetres = radiiMetres[^1];
        double lowest = double.PositiveInfinity;
        double highest = double.NegativeInfinity;
        foreach (double height in heightsMetres)
        {
            lowest = Math.Min(lowest, height);
            highest = Math.Max(highest, height);
        }
        HeightRangeMetres = (lowest, highest);
        IsConcaveToLaser = heightsMetres[^1] < heightsMetres[0];
    }

    /// <inheritdoc/>
    public override string Kind => "profile";

    /// <inheritdoc/>
    public override IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <inheritdoc/>
    public override double MaximumRadiusMetres { get; }

    /// <inheritdoc/>
    public override (double Lowest, double Highest) HeightRangeMetres { get; }

    /// <inheritdoc/>
    public override bool IsFlat => HeightRangeMetres.Lowest == HeightRangeMetres.Highest;

    /// <inheritdoc/>
    public override bool IsConcaveToLaser { get; }

    /// <inheritdoc/>
    public override MeridianPoint At(int piece, double parameter)
    {
        (double c0, double c1, double c2, double c3) = _height.Piece(piece);
        double t = parameter - _height.Knots[piece];
        return Point(parameter, c0 + t * (c1 + t * (c2 + t * c3)), 1, c1 + t * (2 * c2 + t * 3 * c3));
    }
}
