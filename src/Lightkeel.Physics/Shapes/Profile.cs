using Lightkeel.Numerics.LinearAlgebra;
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
        SteepestSlope = FindSteepestSlope();
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

    /// <summary>Greatest |dz/dr| anywhere on the profile.</summary>
    internal double SteepestSlope { get; }

    /// <summary>Whether the meridian's second derivative never takes the sign opposite to <paramref name="sign"/>.</summary>
    internal bool BendsOnlyToward(int sign)
    {
        // The second derivative is linear on a piece, so its ends decide; rounding of straight tables is forgiven.
        double forgiven = -1e-9 * SteepestSlope / MaximumRadiusMetres;
        for (int i = 0; i < Pieces.Count; i++)
        {
            (_, _, double c2, double c3) = _height.Piece(i);
            double length = Pieces[i].End - Pieces[i].Start;
            if (sign * 2 * c2 < forgiven || sign * (2 * c2 + 6 * c3 * length) < forgiven)
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>Whether the heights never move opposite to <paramref name="sign"/> as the radius grows.</summary>
    internal bool RisesOnlyToward(int sign)
    {
        ReadOnlySpan<double> knots = _height.Knots;
        for (int i = 1; i < knots.Length; i++)
        {
            if (sign * (_height.Value(knots[i]) - _height.Value(knots[i - 1])) < 0)
            {
                return false;
            }
        }
        return true;
    }

    /// <inheritdoc/>
    public override double FirstMeeting(Vec3 originMetres, Vec3 direction, double beyondMetres)
    {
        double size = MaximumRadiusMetres + HeightRangeMetres.Highest - HeightRangeMetres.Lowest;
        return ProfileRay.FirstMeeting(_height, SteepestSlope, size, originMetres, direction, beyondMetres);
    }

    private double FindSteepestSlope()
    {
        double steepest = 0;
        for (int i = 0; i < Pieces.Count; i++)
        {
            (_, double c1, double c2, double c3) = _height.Piece(i);
            double length = Pieces[i].End - Pieces[i].Start;
            // The slope is quadratic in t: extreme at the ends or where its own derivative vanishes.
            double turn = c3 != 0 ? Math.Clamp(-c2 / (3 * c3), 0, length) : 0;
            foreach (double t in (ReadOnlySpan<double>)[0, turn, length])
            {
                steepest = Math.Max(steepest, Math.Abs(c1 + t * (2 * c2 + t * 3 * c3)));
            }
        }
        return steepest;
    }
}
