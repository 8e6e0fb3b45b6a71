namespace Lightkeel.Physics.Shapes;

/// <summary>Moments of a surface of revolution by Gauss–Legendre quadrature along its meridian, halved until it holds.</summary>
/// <remarks>
/// Every piece is integrated by one 16-point rule and by two on its halves; while the two differ by more than 1e-14 of
/// the whole, the halves are halved again. The rule is exact for polynomials of degree 31, so the better of the two
/// values, which is kept, is far closer than the difference: 1e-13 of each moment's scale is the stated accuracy.
/// </remarks>
internal static class MeridianQuadrature
{
    private const int Order = 16;
    private const int DeepestHalving = 40;
    private const double Tolerance = 1e-14;
    private static readonly (double[] Nodes, double[] Weights) Rule = GaussLegendre(Order);

    public static SurfaceMoments Moments(SurfaceOfRevolution shape)
    {
        Sums whole = default;
        for (int i = 0; i < shape.Pieces.Count; i++)
        {
            whole += OneRule(shape, i, shape.Pieces[i].Start, shape.Pieces[i].End);
        }
        Sums total = default;
        for (int i = 0; i < shape.Pieces.Count; i++)
        {
            MeridianPiece piece = shape.Pieces[i];
            Sums first = OneRule(shape, i, piece.Start, piece.End);
            total += Refine(shape, i, piece.Start, piece.End, first, whole, DeepestHalving);
        }
        return new(total.Area, total.AxialFirst, total.AxialSecond, total.RadialSecond);
    }

    private static Sums Refine(
        SurfaceOfRevolution shape,
        int piece,
        double from,
        double to,
        Sums coarse,
        Sums whole,
        int halvingsLeft
    )
    {
        double middle = 0.5 * (from + to);
        Sums left = OneRule(shape, piece, from, middle);
        Sums right = OneRule(shape, piece, middle, to);
        Sums fine = left + right;
        if (fine.DifferenceFrom(coarse, whole) <= Tolerance)
        {
            return fine;
        }
        if (halvingsLeft == 0)
        {
            throw new ArithmeticException(
                FormattableString.Invariant(
                    $"The surface moments of the {shape.Kind} did not settle to {Tolerance} near parameter {middle}; its meridian bends too sharply there."
                )
            );
        }
        return Refine(shape, piece, from, middle, left, whole, halvingsLeft - 1)
            + Refine(shape, piece, middle, to, right, whole, halvingsLeft - 1);
    }

    private static Sums OneRule(SurfaceOfRevolution shape, int piece, double from, double to)
    {
        double half = 0.5 * (to - from);
        double middle = 0.5 * (from + to);
        Sums sums = default;
        for (int k = 0; k < Order; k++)
        {
            MeridianPoint p = shape.At(piece, middle + half * Rule.Nodes[k]);
            double area = 2 * Math.PI * half * Rule.Weights[k] * p.RadiusMetres * p.ArcRate;
            double z = p.HeightMetres;
            sums += new Sums(area, area * z, area * z * z, area * p.RadiusMetres * p.RadiusMetres, area * Math.Abs(z));
        }
        return sums;
    }

    // Roots of the Legendre polynomial by Newton's method from the usual cosine guess; weights 2/((1 − x²) P'²).
    // Source: Digital Library of Mathematical Functions, section 3.5(v).
    private static (double[] Nodes, double[] Weights) GaussLegendre(int order)
    {
        double[] nodes = new double[order];
        double[] weights = new double[order];
        for (int i = 0; i < order; i++)
        {
            double x = Math.Cos(Math.PI * (order - i - 0.25) / (order + 0.5));
            double slope = 1;
            for (int step = 0; step < 8; step++)
            {
                (double value, slope) = Legendre(order, x);
                x -= value / slope;
            }
            nodes[i] = x;
            weights[i] = 2 / ((1 - x * x) * slope * slope);
        }
        return (nodes, weights);
    }

    private static (double Value, double Slope) Legendre(int order, double x)
    {
        double before = 1;
        double value = x;
        for (int n = 2; n <= order; n++)
        {
            (before, value) = (value, ((2 * n - 1) * x * value - (n - 1) * before) / n);
        }
        return (value, order * (x * value - before) / (x * x - 1));
    }

    private readonly record struct Sums(
        double Area,
        double AxialFirst,
        double AxialSecond,
        double RadialSecond,
        double AxialFirstScale
    )
    {
        public static Sums operator +(Sums a, Sums b) =>
            new(
                a.Area + b.Area,
                a.AxialFirst + b.AxialFirst,
                a.AxialSecond + b.AxialSecond,
                a.RadialSecond + b.RadialSecond,
                a.AxialFirstScale + b.AxialFirstScale
            );

        // Largest difference of any moment, each against the size of that moment of the whole surface.
        public double DifferenceFrom(Sums other, Sums whole) =>
            Math.Max(
                Math.Max(Part(Area, other.Area, whole.Area), Part(AxialFirst, other.AxialFirst, whole.AxialFirstScale)),
                Math.Max(
                    Part(AxialSecond, other.AxialSecond, whole.AxialSecond),
                    Part(RadialSecond, other.RadialSecond, whole.RadialSecond)
                )
            );

        private static double Part(double a, double b, double scale) => a == b ? 0 : Math.Abs(a - b) / scale;
    }
}
