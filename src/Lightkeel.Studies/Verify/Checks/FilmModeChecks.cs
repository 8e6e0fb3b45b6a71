using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.FilmModes;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Frequencies of films: closed forms, and finite elements against them.</summary>
internal static class FilmModeChecks
{
    private const double Spin = 3;
    private const double Areal = 0.2;
    private const double Stiff = 1e6;

    public static CheckModule Module() => new("film-modes", "Frequencies of films", [.. Flat(), .. Curved()]);

    private static IEnumerable<OutsideCheck> Flat() =>
        [
            new("FLM-01", "Wavenumbers of a round drum")
            {
                Source = Sources.Drum,
                Origin = Origins.Mpmath,
                Parts = ["(0, 1)", "(1, 1)", "(2, 1)", "(0, 2)"],
                Expected = [2.40482555769577277, 3.83170597020751232, 5.13562230184068256, 5.52007811028631065],
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        MembraneForms.BesselZero(0, 1),
                        MembraneForms.BesselZero(1, 1),
                        MembraneForms.BesselZero(2, 1),
                        MembraneForms.BesselZero(0, 2),
                    ],
            },
            new("FLM-02", "First frequency of a drum, closed form and finite elements", "a = 1 m, 1 N/m, 1 g/m^2")
            {
                Source = Sources.Drum,
                Origin = Origins.Mpmath,
                Parts = ["closed form", "flat elements"],
                Expected = [12.1032975567561871, 12.1032975567561871],
                Unit = "Hz",
                Tolerance = 1e-9,
                Compute = () =>
                    [
                        MembraneForms.DrumFrequency(1, 1, 1e-3, 0, 1),
                        Math.Sqrt(MembraneModes.AngularSquares(FlatMembrane.Drum(1, 1e-3, 1), 0)[0]) / (2 * Math.PI),
                    ],
            },
            new("FLM-03", "Spinning free film, (frequency/spin)^2 in the turning frame", "nu = 0.3")
            {
                Source = Sources.SpinningDisc,
                Origin = Origins.ClosedForm,
                Parts = ["(0, 0)", "(1, 0)", "(2, 0)", "(3, 0)"],
                Expected = [0, 1, 2.35, 4.05],
                Size = 1,
                Tolerance = 1e-14,
                Compute = () => [.. Enumerable.Range(0, 4).Select(n => MembraneForms.SpinningDiscRatio(0.3, n, 0))],
            },
            new("FLM-04", "The same by flat finite elements", "nu = 0.3; (2, 0) also at nu = 0.33")
            {
                Source = Sources.SpinningDisc,
                Origin = Origins.ClosedForm,
                Parts = ["(1, 0)", "(2, 0)", "(3, 0)", "(2, 0), 0.33"],
                Expected = [1, 2.35, 4.05, 2.335],
                Tolerance = 1e-8,
                Compute = () =>
                    [
                        .. ((ValueTuple<double, int>[])[(0.3, 1), (0.3, 2), (0.3, 3), (0.33, 2)]).Select(c =>
                            MembraneModes.AngularSquares(FlatMembrane.Spinning(1, 1, c.Item1, 1), c.Item2)[0]
                        ),
                    ],
            },
            new("FLM-05", "The same by elements of a film of revolution, free to move in its plane", "nu = 0.3, (2, 0)")
            {
                Source = Sources.SpinningDisc,
                Origin = Origins.ClosedForm,
                Expected = [2.35],
                Tolerance = 1e-6,
                Compute = () =>
                {
                    RevolvedMembrane film = Film(
                        (0, 1),
                        r => (r, 1, 0, 1),
                        r =>
                        {
                            FilmTension t = SpunFilm.Disc(Areal, Spin, 1, 0, r, 0.3);
                            return (t.MeridionalNewtonsPerMetre, t.HoopNewtonsPerMetre);
                        }
                    );
                    double rate = RevolvedMembraneModes.Lowest(film, 2, 1)![0].RadiansPerSecond / Spin;
                    return [rate * rate];
                },
            },
            new(
                "FLM-06",
                "Spinning ring with free edges, (frequency/spin)^2",
                "inner radius 0.4 of the outer, nu = 0.3"
            )
            {
                Source = "the equation of the spinning film with the tension of a ring, by Chebyshev collocation",
                Origin = Origins.Scipy,
                Parts = ["n = 0", "n = 1", "n = 2", "n = 3"],
                Expected = [3.3, 4.9667550210685, 9.0212475098505, 13.6055560938015],
                Tolerance = 1e-8,
                Compute = () =>
                    [
                        .. Enumerable
                            .Range(0, 4)
                            .Select(n =>
                                MembraneModes.AngularSquares(FlatMembrane.SpinningRing(0.4, 1, 1, 0.3, 1), n)[1]
                            ),
                    ],
            },
            new("FLM-07", "Spinning string, frequency over spin", "sqrt(n (2n - 1))")
            {
                Source = "Legendre polynomials of odd degree",
                Origin = Origins.ClosedForm,
                Parts = ["1", "2", "3"],
                Expected = [1, 2.44948974278317810, 3.87298334620741689],
                Tolerance = 1e-14,
                Compute = () => [.. Enumerable.Range(1, 3).Select(MembraneForms.SpinningStringRatio)],
            },
        ];

    private static IEnumerable<OutsideCheck> Curved() =>
        [
            new("FLM-08", "Closed ball, lower frequency, no pressure", "R = 1 m, E/density = 1, nu = 0.3")
            {
                Source = Sources.SphereShell,
                Origin = Origins.Mpmath,
                Parts = ["n = 2", "n = 3"],
                Expected = [0.116944437825252758, 0.138467918144498876],
                Unit = "Hz",
                Tolerance = 1e-13,
                Compute = () =>
                    [
                        MembraneForms.SphereFrequencies(1, 1, 1, 0.3, 2).Lower,
                        MembraneForms.SphereFrequencies(1, 1, 1, 0.3, 3).Lower,
                    ],
            },
            new(
                "FLM-09",
                "Pressurised ball, closed form and finite elements",
                "R = 1.2 m, 1 um, 5 GPa, 1000 kg/m^3, nu = 0.3, 40 Pa; n = 2"
            )
            {
                Source =
                    Sources.SphereShell + ", with (n - 1)(n + 2) p/(2 s R) of the pressure, docs/theory/strength.md",
                Origin = Origins.Mpmath,
                Parts = ["closed form", "elements"],
                Expected = [221.753924083308918, 221.753924083308918],
                Unit = "Hz",
                Tolerance = 1e-6,
                Compute = () =>
                {
                    Sphere ball = new(1.2);
                    RevolvedMembrane film = Film((0, Math.PI), u => Place(ball, u), _ => (24, 24)) with
                    {
                        ArealDensityKilogramsPerSquareMetre = 1e-3,
                        StretchingNewtonsPerMetre = 5e3,
                        SpinRadiansPerSecond = 0,
                        PressurePascals = 40,
                    };
                    return
                    [
                        MembraneForms.PressurisedSphereFrequency(1.2, 5e9, 1000, 0.3, 1e-6, 40, 2),
                        RevolvedMembraneModes.Lowest(film, 2, 1)![0].RadiansPerSecond / (2 * Math.PI),
                    ];
                },
            },
            Spun(
                "FLM-10",
                "cone of half-angle 60 deg, n = 2",
                new Cone(1.3, Math.PI / 3, LaserSide.Mouth),
                2,
                1.52941176470588235
            ),
            Spun(
                "FLM-11",
                "paraboloid, f = 1 m, R = 1.3 m, n = 2",
                new Paraboloid(1, 1.3, LaserSide.Mouth),
                2,
                1.75883924453005149
            ),
            Spun(
                "FLM-12",
                "cap of 0.9 rad, n = 4",
                new SphericalCap(1.3, 0.9, LaserSide.Vertex),
                4,
                3.62573697257978564
            ),
            Spun(
                "FLM-13",
                "cap of 1.9 rad, n = 2",
                new SphericalCap(1.3, 1.9, LaserSide.Mouth),
                2,
                0.636428609768728783
            ),
        ];

    private static OutsideCheck Spun(string id, string of, SurfaceOfRevolution shape, int n, double expected) =>
        new(
            id,
            "Slow waves of a free film that spins and hardly stretches, frequency over spin, closed form and finite elements",
            of
        )
        {
            Source = Sources.BentShell,
            Origin = Origins.Mpmath,
            Parts = ["closed form", "elements, with the spin", "elements, against it"],
            Expected = [expected, expected, -n],
            Tolerance = 1e-4,
            Compute = () =>
            {
                (double start, double end) = shape.Pieces[0];
                RevolvedMembrane film = Film((start, end), u => Place(shape, u), r => (0, Areal * Spin * Spin * r * r));
                IReadOnlyList<FilmFrequency> found = RevolvedMembraneModes.Lowest(film, n, 1)!;
                return
                [
                    SpunShellForms.WithSpinRatio(shape, n)!.Value,
                    found.Single(f => f.RadiansPerSecond > 0).RadiansPerSecond / Spin,
                    found.Single(f => f.RadiansPerSecond < 0).RadiansPerSecond / Spin,
                ];
            },
        };

    private static (double, double, double, double) Place(SurfaceOfRevolution shape, double u)
    {
        MeridianPoint m = shape.At(0, u);
        return (m.RadiusMetres, -m.NormalAxial, m.NormalRadial, m.ArcRate);
    }

    private static RevolvedMembrane Film(
        (double, double) piece,
        Func<double, (double Radius, double Radial, double Axial, double Rate)> place,
        Func<double, (double Along, double Around)> tension
    ) =>
        new()
        {
            Pieces = [piece],
            At = (_, u) =>
            {
                (double r, double radial, double axial, double rate) = place(u);
                (double along, double around) = tension(r);
                return new(r, radial, axial, rate, along, around);
            },
            ArealDensityKilogramsPerSquareMetre = Areal,
            StretchingNewtonsPerMetre = Stiff,
            PoissonRatio = 0.3,
            SpinRadiansPerSecond = Spin,
        };
}
