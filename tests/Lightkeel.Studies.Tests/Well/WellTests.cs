using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Well;
using Xunit;

namespace Lightkeel.Studies.Tests.Well;

public sealed class WellTests
{
    // The values come from SciPy 1.x, double adaptive quadrature (QUADPACK) of U(X) = (2R/3c) ∫ I (1 − u²/R²)^(3/2) d²u over
    // the ball's shadow and root search on its derivative: nothing of this project.
    private const string Ball = """
        title = "ball"
        [beam]
        power = "300 MW"
        wavelength = "1.064 um"
        profile = "ring"
        radius = "1.05 m"
        width = "0.45 m"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1.2 m"
        surface = "foil"
        areal_density = "0 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "2.4 g"
        center_of_mass = ["0 m", "0 m", "0 m"]
        inertia = ["1.4e-3 kg m^2", "1.4e-3 kg m^2", "1.4e-3 kg m^2"]
        """;

    private static WellResult Run(string text) =>
        new WellStudy().Run(
            new(OpenedDesign.From(DesignDocument.Parse(text)), Points: 25),
            new StudyContext { Threads = 2 }
        );

    private static string Cross(double distance, string radius)
    {
        string beam = """
            power = "1 MW"
            wavelength = "1.064 um"
            profile = "sum"
            """;
        foreach (
            (double x, double y) in (ReadOnlySpan<(double, double)>)
                [(distance, 0), (-distance, 0), (0, distance), (0, -distance)]
        )
        {
            beam += FormattableString.Invariant(
                $"\n[[beam.part]]\nprofile = \"gaussian\"\nwaist = \"1 m\"\nshare = 0.25\noffset = [\"{x:R} m\", \"{y:R} m\"]\n"
            );
        }
        int start = Ball.IndexOf("power =", StringComparison.Ordinal);
        int end = Ball.IndexOf("[[sail]]", StringComparison.Ordinal);
        return (Ball[..start] + beam + Ball[end..]).Replace(
            "radius = \"1.2 m\"",
            $"radius = \"{radius}\"",
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void MirrorBallInARing_AgainstAdaptiveQuadratureElsewhere_HasTheSameWell()
    {
        WellResult well = Run(Ball);
        Assert.True(well.HasPotential);
        Assert.Equal(0.8387039041102896, well.RimRadiusMetres!.Value, 1e-8);
        Assert.Equal(0.06218270464905076, well.DepthJoules!.Value, 1e-8 * 0.062);
        Assert.Equal(7.198535999831885, well.EscapeSpeedMetresPerSecond!.Value, 1e-7);
        Assert.Equal(2.3425025091024034, well.FrequencyHertz!.Value, 1e-6);
        Assert.Equal(-0.1097774032140505, well.FarPotentialJoules!.Value, 1e-6 * 0.11);
        Assert.InRange(well.DepthErrorJoules!.Value, 0, 1e-6 * 0.062);
    }

    [Theory]
    [InlineData(0.2, 2.2198219850685623)]
    [InlineData(0.5, 1.6738173401835428)]
    [InlineData(0.75, 0.9897642890778069)]
    public void Swing_AgainstTheEquationOfMotionIntegratedElsewhere_HasTheSameFrequency(
        double amplitude,
        double expected
    )
    {
        // SciPy solve_ivp(DOP853, rtol 1e-12) on a Chebyshev fit of its own quadrature of the force.
        WellResult well = Run(Ball);
        WellSwing[] swings = [.. well.Swings];
        int i = Array.FindIndex(swings, s => s.AmplitudeMetres > amplitude);
        // Four neighbours, cubic through them.
        double value = 0;
        for (int a = i - 2; a < i + 2; a++)
        {
            double weight = swings[a].FrequencyHertz;
            for (int b = i - 2; b < i + 2; b++)
            {
                weight *=
                    a == b
                        ? 1
                        : (amplitude - swings[b].AmplitudeMetres)
                            / (swings[a].AmplitudeMetres - swings[b].AmplitudeMetres);
            }
            value += weight;
        }
        Assert.Equal(expected, value, 1e-4 * expected);
    }

    [Theory]
    [InlineData(0.0, 0.10187586682316876)]
    [InlineData(0.3, 0.12009753407080517)]
    [InlineData(0.7, 0.15534459609756282)]
    [InlineData(1.4, 0.11209659232273192)]
    public void BallOfAnyCoefficients_HasThePotentialOfItsKernel(double radius, double expected)
    {
        // SciPy, adaptive quadrature of (R/c) ∫ I [(2/3) Rs q³ + (1/3)(Rd + A e) q²] d²u, q² = 1 − u²/R².
        string text = Ball.Replace(
            "kind = \"mirror\"",
            "kind = \"coefficients\"\nspecular = 0.9\ndiffuse = 0.06\nabsorbed = 0.04\nemissivity_lit = 0.05\nemissivity_back = 0.2",
            StringComparison.Ordinal
        );
        WellResult well = new WellStudy().Run(
            new(OpenedDesign.From(DesignDocument.Parse(text)), Points: 2001),
            new StudyContext { Threads = 1 }
        );
        double value = Between(well.RadiusMetres, well.PotentialJoules!, radius) - well.FarPotentialJoules!.Value;
        Assert.Equal(expected, value, 2e-6 * expected);
    }

    [Theory]
    [InlineData(0.70, false)]
    [InlineData(0.7070, false)]
    [InlineData(0.7073, true)]
    [InlineData(0.72, true)]
    public void FourGaussiansOnACross_TrapASmallBall_OnlyBeyondWaistOverRootTwo(double distance, bool traps)
    {
        // The irradiance at the centre is least where 2 d² > w²; derived here.
        Assert.Equal(traps, Run(Cross(distance, "1 cm")).FrequencyHertz is not null);
    }

    [Fact]
    public void FourGaussiansOnACross_HoldASmallBallStiffest_AtTheWaist()
    {
        // (2 d²/w² − 1) exp(−2 d²/w²) is largest at d = w; derived here.
        double at = Run(Cross(1, "1 cm")).FrequencyHertz!.Value;
        Assert.True(Run(Cross(0.97, "1 cm")).FrequencyHertz < at);
        Assert.True(Run(Cross(1.03, "1 cm")).FrequencyHertz < at);
    }

    [Fact]
    public void FourGaussiansOnACross_LetABallGo_OverTheDiagonal()
    {
        // SciPy: greatest of the kernel integral along the diagonal, 120 × 256 Gauss-Legendre and trapezoid nodes.
        WellResult well = Run(Cross(1.2, "60 cm"));
        double turn = well.AngleRadians / (Math.PI / 4);
        Assert.Equal(1, Math.Abs(Math.IEEERemainder(turn, 2)), 1e-3);
        Assert.Equal(0.833421104889308, well.RimRadiusMetres!.Value, 1e-6);
        Assert.Equal(1.950039590916693e-05, well.DepthJoules!.Value, 1e-7 * 1.95e-5);
        Assert.NotEmpty(well.Swings);
    }

    [Fact]
    public void BallOnAGaussian_HasNoWell_AndThatIsNoError()
    {
        WellResult well = Run(
            Ball.Replace("\"ring\"", "\"gaussian\"", StringComparison.Ordinal)
                .Replace("radius = \"1.05 m\"\nwidth = \"0.45 m\"", "waist = \"1 m\"", StringComparison.Ordinal)
        );
        Assert.StartsWith("no well", well.Finding, StringComparison.Ordinal);
        Assert.Null(well.DepthJoules);
        Assert.NotNull(well.DepthReason);
        Assert.True(well.RadiusMetres[^1] > 2);
        Assert.True(well.PotentialJoules![^1] < -0.1);
    }

    [Fact]
    public void Cone_HasNoPotential_AndItsCurlIsTheEvidence()
    {
        WellResult well = Run(
            Ball.Replace(
                "shape = \"sphere\"",
                "shape = \"cone\"\nhalf_angle = \"65 deg\"\ntoward_laser = \"mouth\"",
                StringComparison.Ordinal
            )
        );
        Assert.False(well.HasPotential);
        Assert.Null(well.PotentialJoules);
        Assert.NotNull(well.SliceWorkJoules);
        Assert.Contains(well.Curl!, c => Math.Abs(c.OffsetTiltNewtons) > 0.1 * c.OffsetTiltSizeNewtons);
    }

    [Fact]
    public void HoldingTime_IsTheDepthOverTheHeatingOfTheHarmonicWell()
    {
        // From depth and frequency of SciPy (above): heating of two axes by one-sided white pointing noise S is m w^4 S/2 (Handbook of Stochastic
        // Methods, Springer 2004, section 4.3), and the mean time to an energy U from rest is U over that, exactly, in a harmonic well. A
        // simulation with NumPy (4000 courses, 40 s expected) gave 40.9 +- 0.4 s.
        string noise = """

            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "1e-6 m^2/Hz"
            corner = "200 Hz"
            """;
        WellHolding holding = Run(Ball + noise).Holding!;
        double square = Math.Pow(2 * Math.PI * 2.3425025091024034, 2);
        double time = 0.06218270464905076 / (0.5 * 2.4e-3 * square * square * 1e-6);
        Assert.Equal(1e-6, holding.OwnDensityPerHertz!.Value, 1e-18);
        Assert.Equal(time, holding.OwnSeconds!.Value, 1e-5 * time);
        Assert.All(holding.Levels, l => Assert.Equal(time * 1e-6, l.Seconds * l.DensityPerHertz, 1e-5 * time * 1e-6));
        Assert.Null(holding.OwnReason);
        Assert.NotNull(Run(Ball).Holding!.OwnReason);
    }

    [Fact]
    public void Figures_ShowTheRimOfARoundWell_AsACircleOfTheRimsRadius()
    {
        OpenedDesign design = OpenedDesign.From(DesignDocument.Parse(Ball));
        IStudy study = new WellStudy();
        StudyOption<IOpenDesign> option = (StudyOption<IOpenDesign>)study.Options[0];
        IReadOnlyList<Figure> figures = study
            .Run(StudyRequest.Empty.With(option, design), new StudyContext { Threads = 2 })
            .Presentation.MakeFigures();
        Assert.All(figures, FigureRules.Check);
        Figure bowl = figures.Single(f => f.Name == "bowl");
        ContourSeries rim = bowl.Panels[0].Items.OfType<ContourSeries>().Single(c => c.Label is not null);
        // SciPy, as above.
        Assert.All(
            rim.Pieces.SelectMany(p => p.X.Zip(p.Y)),
            p => Assert.Equal(0.8387039041102896, double.Hypot(p.First, p.Second), 1e-8)
        );
        SurfaceMesh mesh = (SurfaceMesh)figures.Single(f => f.Name == "bowl-perspective").Panels[0].Items.Single();
        Assert.Equal(0.06218270464905076, mesh.Values.Max(row => row.Max()), 1e-4 * 0.062);
        Assert.NotEmpty(mesh.Lines);
    }

    private static double Between(IReadOnlyList<double> x, IReadOnlyList<double> y, double at)
    {
        int i = Enumerable.Range(0, x.Count).First(k => x[k] >= at);
        return i == 0 ? y[0] : y[i - 1] + (at - x[i - 1]) / (x[i] - x[i - 1]) * (y[i] - y[i - 1]);
    }
}
