using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>A point of a meridian as the light sees it.</summary>
/// <param name="Radius">Distance from the axis, m.</param>
/// <param name="Height">Height toward the laser, m.</param>
/// <param name="WallRadians">Signed inclination of the meridian, positive where it rises toward the laser outward.</param>
internal readonly record struct RegimeNode(double Radius, double Height, double WallRadians);

/// <summary>
/// The meridian of one or several coaxial surfaces, seen from the side that the light comes from, as one curve over a
/// running parameter: whole part = piece, fraction = place within it.
/// </summary>
internal sealed class RegimeCurve
{
    private readonly List<(SurfaceOfRevolution Shape, int Piece, double Shift)> _stretches = [];
    private readonly double _toward;

    /// <param name="parts">Shapes from the inside outward, each with the station of its reference point along the axis, m.</param>
    /// <param name="side">The side that takes the light.</param>
    public RegimeCurve(IEnumerable<(SurfaceOfRevolution Shape, double Station)> parts, LitSide side)
    {
        _toward = side == LitSide.Front ? -1 : 1;
        foreach ((SurfaceOfRevolution shape, double station) in parts)
        {
            for (int piece = 0; piece < shape.Pieces.Count; piece++)
            {
                _stretches.Add((shape, piece, station));
            }
        }
    }

    /// <summary>Number of pieces; the parameter runs from 0 to it.</summary>
    public int PieceCount => _stretches.Count;

    /// <summary>A point, given its piece, so that both ends of each piece are reached.</summary>
    public RegimeNode At(int piece, double fraction)
    {
        (SurfaceOfRevolution shape, int own, double station) = _stretches[piece];
        MeridianPiece range = shape.Pieces[own];
        double parameter = fraction >= 1 ? range.End : range.Start + fraction * (range.End - range.Start);
        MeridianPoint p = shape.At(own, parameter);
        // The front normal (z′, −r′) gives dz/dr = −n_r/n_z.
        double slope = Math.Atan2(p.NormalRadial, -p.NormalAxial);
        return new(p.RadiusMetres, _toward * (station + p.HeightMetres), _toward * slope);
    }
}
