namespace Lightkeel.Physics.Pressure;

/// <summary>Largest tilt at which a mirror cup, whose meridian rises toward the laser, sends every ray out at once.</summary>
/// <remarks>
/// Reflection by the normal at a point P carries the cap of directions within t of the mouth axis to a cap of the same
/// radius about the direction at twice the wall's inclination. A ray from P leaves at once when its direction passes
/// inside every circle of the meridian above P, each an oblique circular cone with its vertex at P; the nearest edge of
/// such a cone to the cap's centre lies in the plane of P and the axis. Hence, with signed x of P in that plane, wall
/// inclination δ(x) and height h, the exact limit is the least over x and over circles ρ ≥ |x| of
/// π/2 − 2 δ(x) − atan((h(ρ) − h(x))/(x + ρ)). Proof: docs/design/light-regimes.md.
/// </remarks>
internal static class RegimeCupTilt
{
    private const int GridNodes = 480;
    private const int LeastPerPiece = 6;
    private const int Zooms = 9;
    private const int ZoomNodes = 8;
    private const double Caution = 1e-7;

    /// <returns>The limit, rad, lowered by 1e-7; negative when even untilted light bounces twice.</returns>
    public static double Of(RegimeCurve curve)
    {
        int perPiece = Math.Max(LeastPerPiece, GridNodes / curve.PieceCount);
        Place[] places = Grid(curve.PieceCount, perPiece);
        RegimeNode[] nodes = [.. places.Select(p => curve.At(p.Piece, p.Fraction))];
        double least = double.PositiveInfinity;
        (int From, int Circle, int Sign) worst = (0, 0, 1);
        for (int i = 0; i < nodes.Length; i++)
        {
            foreach (int sign in (ReadOnlySpan<int>)[1, -1])
            {
                int circle = HighestCircle(nodes, i, sign);
                double limit = Limit(nodes[i], nodes[circle], sign);
                if (limit < least)
                {
                    (least, worst) = (limit, (i, circle, sign));
                }
            }
        }
        return Zoomed(curve, places[worst.From], places[worst.Circle], worst.Sign, 1.0 / perPiece, least) - Caution;
    }

    // The circle that stands highest in the way, seen from P: the greatest rise over reach.
    private static int HighestCircle(RegimeNode[] nodes, int from, int sign)
    {
        RegimeNode p = nodes[from];
        int highest = from;
        double steepest = double.NegativeInfinity;
        for (int j = from; j < nodes.Length; j++)
        {
            double reach = sign * p.Radius + nodes[j].Radius;
            double rise = nodes[j].Height - p.Height;
            if (rise >= 0 && reach > 0 && rise > steepest * reach)
            {
                (highest, steepest) = (j, rise / reach);
            }
        }
        return highest;
    }

    private static Place[] Grid(int pieces, int perPiece)
    {
        Place[] places = new Place[pieces * (perPiece + 1)];
        for (int i = 0; i < places.Length; i++)
        {
            places[i] = new(i / (perPiece + 1), (double)(i % (perPiece + 1)) / perPiece);
        }
        return places;
    }

    // Looks ever closer around the worst pair of the grid, each within its own piece.
    private static double Zoomed(RegimeCurve curve, Place from, Place circle, int sign, double width, double least)
    {
        for (int zoom = 0; zoom < Zooms; zoom++, width /= ZoomNodes / 2)
        {
            (Place centreFrom, Place centreCircle) = (from, circle);
            for (int i = -ZoomNodes; i <= ZoomNodes; i++)
            {
                Place a = centreFrom.Moved(width * i / ZoomNodes);
                RegimeNode p = curve.At(a.Piece, a.Fraction);
                for (int j = -ZoomNodes; j <= ZoomNodes; j++)
                {
                    Place b = centreCircle.Moved(width * j / ZoomNodes);
                    double limit = Limit(p, curve.At(b.Piece, b.Fraction), sign);
                    if (limit < least)
                    {
                        (least, from, circle) = (limit, a, b);
                    }
                }
            }
        }
        return least;
    }

    private static double Limit(RegimeNode p, RegimeNode circle, int sign)
    {
        double reach = sign * p.Radius + circle.Radius;
        double rise = circle.Height - p.Height;
        // A circle below P, or P itself, bounds nothing.
        return rise < 0 || reach <= 0
            ? double.PositiveInfinity
            : Math.PI / 2 - 2 * sign * p.WallRadians - Math.Atan(rise / reach);
    }

    private readonly record struct Place(int Piece, double Fraction)
    {
        public Place Moved(double by) => this with { Fraction = Math.Clamp(Fraction + by, 0, 1) };
    }
}
