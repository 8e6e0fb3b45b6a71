using CsCheck;
using Lightkeel.Physics.Shapes;
using Xunit;

namespace Lightkeel.Physics.Tests.Shapes;

/// <summary>
/// Moments of area. Expected numbers: mpmath 30-digit quadrature of the surface integrals; the profile's through the
/// monotone cubic of SciPy (PchipInterpolator), integrated by mpmath.
/// </summary>
public sealed class SurfaceMomentsTests
{
    private const double Degree = Math.PI / 180;

    [Fact]
    public void Paraboloid_DeepMouthFirst_MatchesReference() =>
        Matches(
            new Paraboloid(0.7, 2, LaserSide.Mouth),
            17.662055282187856,
            -13.712112820597559,
            13.553408238710118,
            38.393915897673167
        );

    [Fact]
    public void Paraboloid_ShallowVertexFirst_MatchesReference() =>
        Matches(
            new Paraboloid(50, 0.3, LaserSide.Vertex),
            0.28274397499463949,
            6.3617442086624957e-5,
            1.9085239782908928e-8,
            0.012723488417324991
        );

    [Fact]
    public void Frustum_VertexFirst_MatchesReference() =>
        Matches(
            new Cone(1.5, 35 * Degree, LaserSide.Vertex, 0.4),
            11.447347258150126,
            10.726914574184658,
            12.143053057124051,
            13.794053446070902
        );

    [Fact]
    public void Frustum_MouthFirst_MatchesReference() =>
        Matches(
            new Cone(1.5, 35 * Degree, LaserSide.Mouth, 0.4),
            11.447347258150126,
            7.2564422119484453,
            6.6910700518846809,
            13.794053446070902
        );

    [Fact]
    public void Cone_MouthFirst_MatchesReference() =>
        Matches(
            new Cone(1.5, 35 * Degree, LaserSide.Mouth),
            12.323699201357791,
            -17.600066450108518,
            28.277437296657648,
            13.864161601527515
        );

    [Fact]
    public void Cap_DeeperThanHemisphere_MatchesReference() =>
        Matches(
            new SphericalCap(1.3, 110 * Degree, LaserSide.Mouth),
            14.250352506556075,
            -12.430769073638296,
            14.458030161338709,
            17.861969430120861
        );

    [Fact]
    public void Profile_UnevenTable_MatchesReference() =>
        Matches(
            new Profile([0.2, 0.5, 1.0, 1.3, 2.0], [0.1, 0.4, 0.35, 0.9, 1.0]),
            15.27554306724633,
            11.216123552371582,
            9.3294141066389062,
            28.687612962914606
        );

    [Fact]
    public void Area_ElementaryShapes_MatchesTextbookFormulas()
    {
        // Elementary geometry: annulus π(R² − r²), sphere 4πR², cone π R ℓ, cap 2π R h.
        Assert.Equal(Math.PI * (4 - 0.25), new Disc(2, 0.5).Moments().AreaSquareMetres, 1e-13);
        Assert.Equal(4 * Math.PI * 1.44, new Sphere(1.2).Moments().AreaSquareMetres, 1e-13);
        Assert.Equal(
            Math.PI * 1.5 * 1.5 / Math.Sin(1),
            new Cone(1.5, 1, LaserSide.Vertex).Moments().AreaSquareMetres,
            1e-13
        );
        double depth = 2 * (1 - Math.Cos(0.7));
        Assert.Equal(
            2 * Math.PI * 2 * depth,
            new SphericalCap(2, 0.7, LaserSide.Mouth).Moments().AreaSquareMetres,
            1e-13
        );
    }

    [Fact]
    public void ClosedForm_RandomShapes_AgreesWithMeridianQuadrature() =>
        Gen.Select(Gen.Double[0.05, 3], Gen.Double[0.02, 1.5], Gen.Double[0, 0.95], Gen.Int[0, 5])
            .Sample(
                (size, angle, hole, kind) =>
                {
                    SurfaceOfRevolution shape = kind switch
                    {
                        0 => new Disc(size, hole * size),
                        1 => new Cone(size, angle, LaserSide.Vertex, hole * size),
                        2 => new Cone(size, angle, LaserSide.Mouth, hole * size),
                        3 => new SphericalCap(size, 2 * angle, LaserSide.Vertex),
                        4 => new Paraboloid(angle, size, LaserSide.Mouth),
                        _ => new Sphere(size),
                    };
                    SurfaceMoments closed = shape.Moments();
                    SurfaceMoments summed = MidpointMoments(shape);
                    double scale = size * closed.AreaSquareMetres;
                    Assert.Equal(1, summed.AreaSquareMetres / closed.AreaSquareMetres, 2e-5);
                    Assert.Equal(0, (summed.AxialFirstMetresCubed - closed.AxialFirstMetresCubed) / scale, 1e-3);
                    Assert.Equal(1, summed.RadialSecondMetresFourth / closed.RadialSecondMetresFourth, 2e-5);
                    Assert.Equal(
                        closed.AxialSecondMetresFourth,
                        summed.AxialSecondMetresFourth,
                        1e-4 * Math.Max(closed.AxialSecondMetresFourth, 1e-6 * scale)
                    );
                },
                iter: 200
            );

    // A plain midpoint sum over the meridian: no rule in common with the library.
    private static SurfaceMoments MidpointMoments(SurfaceOfRevolution shape)
    {
        const int cells = 2000;
        (double area, double first, double second, double radial) = (0, 0, 0, 0);
        MeridianPiece range = shape.Pieces[0];
        double width = (range.End - range.Start) / cells;
        for (int k = 0; k < cells; k++)
        {
            MeridianPoint p = shape.At(0, range.Start + (k + 0.5) * width);
            double element = 2 * Math.PI * p.RadiusMetres * p.ArcRate * width;
            area += element;
            first += element * p.HeightMetres;
            second += element * p.HeightMetres * p.HeightMetres;
            radial += element * p.RadiusMetres * p.RadiusMetres;
        }
        return new(area, first, second, radial);
    }

    private static void Matches(SurfaceOfRevolution shape, double area, double first, double second, double radial)
    {
        SurfaceMoments m = shape.Moments();
        Assert.Equal(1, m.AreaSquareMetres / area, 1e-13);
        Assert.Equal(1, m.AxialFirstMetresCubed / first, 1e-13);
        Assert.Equal(1, m.AxialSecondMetresFourth / second, 1e-13);
        Assert.Equal(1, m.RadialSecondMetresFourth / radial, 1e-13);
    }
}
