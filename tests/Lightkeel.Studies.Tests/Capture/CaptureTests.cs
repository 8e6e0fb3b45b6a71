using Lightkeel.Studies.Capture;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Capture;

public sealed class CaptureTests
{
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
        [ride]
        duration = "120 s"
        lost_at = "2.5 m"
        """;

    private const string Cone = """
        title = "cone"
        [beam]
        power = "300 MW"
        wavelength = "1.064 um"
        profile = "gaussian"
        waist = "1.5 m"
        [[sail]]
        name = "canopy"
        shape = "cone"
        radius = "1.5 m"
        half_angle = "65 deg"
        toward_laser = "mouth"
        surface = "foil"
        areal_density = "0.11 g/m^2"
        [surface.foil]
        kind = "mirror"
        [craft]
        mass = "2.4 g"
        center_of_mass = ["0 m", "0 m", "-5 m"]
        inertia = ["1.1e-2 kg m^2", "1.1e-2 kg m^2", "1.0e-3 kg m^2"]
        [ride]
        duration = "120 s"
        lost_at = "1.5 m"
        tilt_limit = "14 deg"
        """;

    // SciPy 1.10: U(x) of the mirror ball by product Gauss-Legendre quadrature, rim by bounded minimisation, and the planar
    // separatrix v(x) = √(2 (U(rim) − U(x))/m); its area by adaptive quadrature.
    private static readonly Dictionary<double, double> Separatrix = new()
    {
        [0] = 7.198535999838031,
        [0.2] = 6.6141987046003745,
        [0.25] = 6.3000751948774925,
        [0.4] = 5.044193173698697,
        [0.5] = 4.012275254600097,
        [0.6] = 2.8820221099052397,
        [0.75] = 1.085714922378549,
        [0.8] = 0.4744323830706136,
    };

    private const double SeparatrixShare = 14.901750298426265 / (2 * 18);

    private static readonly Lazy<CaptureResult> BallCapture = new(() =>
        Run(
            Input(Ball, "start.offset.x=-1 m..1 m:11", "start.velocity.x=-9 m/s..9 m/s:11") with
            {
                HoldSeconds = 2.5,
                BoundaryTolerance = 1e-4,
            }
        )
    );

    private static CaptureInput Input(string text, string? x = null, string? y = null)
    {
        DesignDocument document = DesignDocument.Parse(text);
        DesignAxis? Axis(string flag, string? axis) => axis is null ? null : DesignAxis.Read(document, flag, axis);
        return new(OpenedDesign.From(document), Axis("--x", x), Axis("--y", y));
    }

    private static CaptureResult Run(CaptureInput input, int threads = 2) =>
        new CaptureStudy().Run(input, new StudyContext { Threads = threads });

    [Fact]
    public void BallInARing_BoundaryInOffsetAndVelocity_IsTheSeparatrixComputedElsewhere()
    {
        CaptureResult r = BallCapture.Value;
        int met = 0;
        foreach (CaptureLine line in r.Boundaries)
        {
            for (int i = 0; i < line.X.Count; i++)
            {
                // The lattice has a column every 5 cm; on these the boundary was searched along the velocity.
                double column = Math.Round(Math.Abs(line.X[i]), 10);
                if (Separatrix.TryGetValue(column, out double speed))
                {
                    Assert.Equal(speed, Math.Abs(line.Y[i]), 0.6e-4 * 18);
                    met++;
                }
            }
        }
        Assert.Equal(2 + 4 * (Separatrix.Count - 1), met);
        Assert.Equal(0, r.BoundaryMoved);
        Assert.True(r.BoundaryChecked > 10);
    }

    [Fact]
    public void HeldFraction_IsTheAreaInsideTheSeparatrix_AndLiesBetweenItsBounds()
    {
        CaptureResult r = BallCapture.Value;
        Assert.Equal(SeparatrixShare, r.HeldFraction!.Value, 2e-3);
        Assert.InRange(SeparatrixShare, r.LowHeldFraction!.Value, r.HighHeldFraction!.Value);
        // The bounds are as far apart as the cells that are crossed.
        Assert.Equal((double)r.BoundaryCells / r.Cells, r.HighHeldFraction.Value - r.LowHeldFraction.Value, 1e-12);
    }

    [Fact]
    public void Release_LiesInsideTheSeparatrix()
    {
        CaptureRelease release = BallCapture.Value.Release!;
        Assert.Equal((0, 0), (release.X, release.Y));
        (double x, double v) = (release.Box.XHalfWidth, release.Box.YHalfWidth);
        // Between tabulated columns the separatrix falls: the next column outward bounds the corner from below.
        double outer = Separatrix.Where(p => p.Key >= x).MinBy(p => p.Key).Value;
        double inner = Separatrix.Where(p => p.Key <= x).MaxBy(p => p.Key).Value;
        Assert.InRange(v, 0.5 * outer, inner);
        Assert.InRange(release.Ellipse.YHalfWidth, 0.5 * 7.2, 7.198535999838031);
        Assert.Contains("Release within ±", release.Text, StringComparison.Ordinal);
        Assert.Contains("m/s", release.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void ProvenStarts_LieInsideTheSeparatrix_AndAreMostOfThoseHeld()
    {
        CaptureResult r = BallCapture.Value;
        Assert.True(r.Certificate.Applies);
        int proven = 0;
        for (int row = 0; row < r.Y.Count; row++)
        {
            for (int column = 0; column < r.X.Count; column++)
            {
                proven += r.Certificate.ProvenHeld[row][column] ? 1 : 0;
                Assert.True(!r.Certificate.ProvenHeld[row][column] || r.Held[row][column] == true);
                double x = Math.Round(Math.Abs(r.X[column]), 10);
                if (Separatrix.TryGetValue(x, out double speed) && Math.Abs(r.Y[row]) > speed)
                {
                    Assert.False(r.Certificate.ProvenHeld[row][column]);
                }
            }
        }
        int held = r.Held.Sum(row => row.Count(h => h == true));
        Assert.InRange(proven, 0.8 * held, held);
        Assert.InRange(r.Certificate.BarrierJoules!.Value, 0.99 * 0.17196010786317464, 0.17196010786317464);
    }

    [Fact]
    public void Cone_EdgeInOffsetAtThreeTilts_IsThatOfAnIntegrationElsewhere()
    {
        // SciPy solve_ivp (DOP853, rtol 1e-9, steps of 3 ms at most, so that no touch of the limit is missed) of the planar motion in offset and tilt, force and torque by its own quadrature of
        // a perfect mirror cone (40 × 64 nodes), 0.9 s; the edge by halving of held and lost.
        CaptureResult r = Run(
            Input(Cone, "start.offset.x=0 m..1.2 m:7", "start.tilt.y=-6 deg..6 deg:3") with
            {
                HoldSeconds = 0.9,
                Levels = 0,
                BoundaryTolerance = 1e-4,
            }
        );
        double six = 6 * Math.PI / 180;
        foreach (
            (double tilt, double edge) in (ReadOnlySpan<(double, double)>)
                [(0, 0.64762), (six, 0.42556), (-six, 0.83357)]
        )
        {
            double nearest = r
                .Boundaries.SelectMany(b => b.X.Zip(b.Y))
                .Where(p => Math.Abs(p.Second - tilt) < 1e-12)
                .Min(p => Math.Abs(p.First - edge));
            Assert.InRange(nearest, 0, 2.5e-4);
        }
        Assert.Equal("tilt-limit", r.Outcome[1][4]);
        Assert.False(r.Certificate.Applies);
        Assert.Contains("no potential", r.Certificate.Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1.0, true)]
    [InlineData(0.6, false)]
    public void FourGaussians_TrapASmallBall_OnlyBeyondWaistOverRootTwo(double distance, bool traps)
    {
        // The irradiance at the centre of a cross of four is least iff d > w/√2: elementary (docs/theory/map-and-well.md).
        string beam = "power = \"1 MW\"\nwavelength = \"1.064 um\"\nprofile = \"sum\"\n";
        foreach ((int x, int y) in (ReadOnlySpan<(int, int)>)[(1, 0), (-1, 0), (0, 1), (0, -1)])
        {
            beam += FormattableString.Invariant(
                $"[[beam.part]]\nprofile = \"gaussian\"\nwaist = \"1 m\"\nshare = 0.25\noffset = [\"{x * distance} m\", \"{y * distance} m\"]\n"
            );
        }
        int start = Ball.IndexOf("power =", StringComparison.Ordinal);
        string text = (Ball[..start] + beam + Ball[Ball.IndexOf("[[sail]]", StringComparison.Ordinal)..]).Replace(
            "radius = \"1.2 m\"",
            "radius = \"0.1 m\"",
            StringComparison.Ordinal
        );
        CaptureResult r = Run(
            Input(text, "start.offset.x=-9 cm..9 cm:4", "start.offset.y=-9 cm..9 cm:4") with
            {
                HoldSeconds = 400,
                Levels = 0,
                RideTolerance = 1e-6,
                BoundaryTolerance = 0.1,
            }
        );
        Assert.All(r.Held.SelectMany(row => row), held => Assert.Equal(traps, held));
        Assert.Equal(traps ? 1 : 0, r.HeldFraction);
        Assert.Equal(traps, r.Certificate.Applies);
        Assert.Equal(traps, r.Certificate.ProvenFraction > 0.5);
    }

    [Fact]
    public void Threads_DoNotChangeABit()
    {
        CaptureInput input = Input(Ball, "start.offset.x=0.5 m..1 m:4", "start.velocity.y=0 m/s..6 m/s:4") with
        {
            HoldSeconds = 1,
            Levels = 1,
        };
        CaptureResult one = Run(input, 1);
        CaptureResult two = Run(input, 2);
        Assert.Equal(one.Held, two.Held);
        Assert.Equal(one.LossSeconds, two.LossSeconds);
        Assert.Equal(one.HeldFraction, two.HeldFraction);
        Assert.Equal(one.Rides, two.Rides);
        Assert.Equal(one.Certificate.ProvenHeld, two.Certificate.ProvenHeld);
        Assert.Equal(one.Boundaries.SelectMany(b => b.X.Concat(b.Y)), two.Boundaries.SelectMany(b => b.X.Concat(b.Y)));
    }

    [Fact]
    public void WithoutAxes_ABallIsShownOverOffsetAndVelocity_BeyondItsWell()
    {
        CaptureResult r = Run(Input(Ball) with { HoldSeconds = 0.5, Levels = 0, BoundaryTolerance = 0.5 });
        Assert.Equal(("start.offset.x", "start.velocity.x"), (r.XPath, r.YPath));
        Assert.InRange(r.X[^1], 1.3 * 0.8387, 1.45 * 0.8387);
        Assert.InRange(r.Y[^1], 1.3 * 7.1985, 1.45 * 7.1985);
        Assert.Equal(-r.X[^1], r.X[0]);
    }

    [Fact]
    public void WithoutAxes_AConeIsShownWithinWhatCanBeComputed()
    {
        // A mouth-first cone of half-angle 65 deg bounces light once up to a tilt of 3 x 65 - 180 = 15 deg (geometry of one reflection,
        // docs/theory/light-pressure.md): wider axes show where computing ends, not where the craft is lost.
        string free = Cone.Replace("tilt_limit = \"14 deg\"", "", StringComparison.Ordinal);
        CaptureResult r = Run(Input(free) with { HoldSeconds = 2, Levels = 0, RideTolerance = 1e-6 });
        Assert.Equal(("start.offset.x", "start.tilt.y"), (r.XPath, r.YPath));
        Assert.InRange(r.Y[^1], 3 * Math.PI / 180, 15 * Math.PI / 180);
        Assert.Contains("can be computed", r.AxesText, StringComparison.Ordinal);
        Assert.True(r.Outcome.SelectMany(row => row).Count(o => o == "not-computable") < 0.05 * r.X.Count * r.Y.Count);
    }

    [Fact]
    public void WithoutTime_TheRideIsCutToFiftySwings()
    {
        CaptureResult r = Run(
            Input(Ball, "start.offset.x=0 m..1 m:2", "start.offset.y=0 m..1 m:2") with
            {
                Levels = 0,
                BoundaryTolerance = 0.5,
            }
        );
        // 50 swings at 2.3425 Hz (SciPy, WellTests) take 21.3 s.
        Assert.Equal(22, r.HoldSeconds, 1e-9);
        Assert.Contains("50 swings", r.HoldText, StringComparison.Ordinal);
    }

    [Fact]
    public void LostEverywhere_IsAResultWithoutRelease()
    {
        CaptureResult r = Run(Input(Ball, "start.offset.x=3 m..4 m:3", "start.velocity.x=0 m/s..1 m/s:3"));
        Assert.Equal(0, r.HeldFraction);
        Assert.Empty(r.Boundaries);
        Assert.Null(r.Release);
        Assert.NotNull(r.ReleaseReason);
        Assert.All(r.LossSeconds.SelectMany(row => row), t => Assert.Equal(0, t));
    }

    [Theory]
    [InlineData("beam.radius=1 m..2 m:3", "start.offset.x=0 m..1 m:3", "no number of the start")]
    [InlineData("start.offset.x=0 m..1 m:3", "start.offset.x=0 m..2 m:3", "same number")]
    [InlineData("start.offset.x=1 m..0 m:3", "start.offset.y=0 m..2 m:3", "does not ascend")]
    [InlineData("start.offset.x=0 kg..1 kg:3", "start.offset.y=0 m..2 m:3", "kg")]
    public void WrongAxes_AreRefused(string x, string y, string word)
    {
        InputRefusedException e = Assert.Throws<InputRefusedException>(() => Run(Input(Ball, x, y)));
        Assert.Contains(word, e.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("starts", false)]
    [InlineData("points of the boundary", true)]
    public void Stop_KeepsWhatIsFinished(string stage, bool baseIsWhole)
    {
        using CancellationTokenSource source = new();
        CaptureResult r = new CaptureStudy().Run(
            Input(Ball, "start.offset.x=-1 m..1 m:8", "start.velocity.x=-9 m/s..9 m/s:8") with
            {
                HoldSeconds = 1,
                Levels = 1,
            },
            new StudyContext
            {
                Threads = 2,
                Cancellation = source.Token,
                Progress = new StopAt(stage, source),
            }
        );
        bool[] known = [.. r.Held.SelectMany(row => row).Select(h => h is not null)];
        Assert.Contains(true, known);
        Assert.Equal(baseIsWhole, known.All(k => k));
        Assert.Equal(baseIsWhole, r.HeldFraction is not null);
        Assert.Empty(r.Boundaries);
        Assert.Equal(baseIsWhole, r.HeldReason is null);
    }

    private sealed class StopAt(string stage, CancellationTokenSource source) : IProgressReporter
    {
        public void Report(string stageNow, long done, long total)
        {
            if (stageNow == stage && done >= 10)
            {
                source.Cancel();
            }
        }
    }
}
