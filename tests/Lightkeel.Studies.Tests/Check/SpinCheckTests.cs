using System.Text.Json;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>What a check says about spinning craft.</summary>
public sealed class SpinCheckTests
{
    // A near-flat mirror cone with a heavy rim, spun fast: linear analysis rides, a tilt of the spin axis of a degree or two is lost.
    private const string NearlyFlat = """
        title = "nearly flat"
        [beam]
        power = "3 MW"
        wavelength = "1 um"
        profile = "gaussian"
        waist = "1.5 m"
        [[sail]]
        name = "canopy"
        shape = "cone"
        radius = "1.5 m"
        half_angle = "85 deg"
        toward_laser = "mouth"
        surface = "foil"
        thickness = "0.2 um"
        density = "1500 kg/m^3"
        [surface.foil]
        kind = "mirror"
        [[mass]]
        name = "rim"
        shape = "ring"
        radius = "1.4 m"
        mass = "1.3 g"
        at = ["0 m", "0 m", "0 m"]
        [start]
        spin = "30 Hz"
        [ride]
        duration = "6 s"
        lost_at = "2 m"
        """;

    private static CheckResult Checked(string toml, params (string, string)[] changes) =>
        new CheckStudy().Run(
            new(Craft.Open(toml, changes), WithMargins: false),
            new StudyContext { Accuracy = 1e-8, Threads = 2 }
        );

    [Fact]
    public void SpunCone_LostFromItsOwnStart_RidesOnlyInTheLinearPicture()
    {
        CheckResult r = Checked(NearlyFlat, ("start.tilt.y", "6 deg"));

        Assert.Equal("neutrally-stable", r.Verdict);
        Assert.False(r.Rides);
        CheckedSpin spin = r.Spin!;
        Assert.Equal("linear-only", spin.Finding);
        Assert.False(spin.IsCaptured);
        Assert.StartsWith(
            "Rides only in the linear picture: a tilt of the spin axis of 6 deg",
            r.Explanation[0],
            StringComparison.Ordinal
        );
        Assert.Contains(
            "spin-linear-only",
            WarningsOf(NearlyFlat, ("start.tilt.y", "6 deg"), ("ride.lost_at", "0.5 m"))
        );
        Assert.InRange(spin.LargestHeldTiltRadians!.Value, 0.02, 0.1);
        Assert.InRange(spin.PredictedHeldTiltRadians!.Value / spin.LargestHeldTiltRadians!.Value, 0.9, 1.1);
        Assert.Contains(spin.Rungs, g => g.Outcome == "lost");
        Assert.DoesNotContain("NaN", JsonSerializer.Serialize(r), StringComparison.Ordinal);
    }

    [Fact]
    public void FastSpin_WhoseRidesAreCutBeforeOneLateralSwing_IsUndecidedAndNotCaptured()
    {
        // An invented cone of 88 deg at 200 Hz. NumPy, the element law summed over the cone: dFx/dx = -2.15375e-4 N/m; with 4.14351 g one lateral
        // swing takes 2 pi sqrt(m/k) = 27.56 s, so that a ride of two seconds cannot show a drift off the beam.
        const string Slow = """
            [beam]
            power = "1 MW"
            wavelength = "1.064 um"
            profile = "gaussian"
            waist = "1 m"
            [[sail]]
            name = "s"
            shape = "cone"
            radius = "1 m"
            half_angle = "88 deg"
            toward_laser = "mouth"
            surface = "f"
            areal_density = "1 g/m^2"
            [surface.f]
            kind = "mirror"
            [[mass]]
            name = "bus"
            shape = "point"
            mass = "1 g"
            at = ["0 m", "0 m", "-0.1 m"]
            [start]
            spin = "200 Hz"
            tilt = ["0 deg", "1 deg"]
            """;
        CheckedSpin spin = Checked(Slow).Spin!;
        Assert.Equal(27.56, spin.LateralPeriodSeconds!.Value, 0.01);
        Assert.True(spin.HorizonSeconds < spin.LateralPeriodSeconds);
        Assert.Equal("undecided", spin.Finding);
        Assert.False(spin.IsCaptured);
        Assert.Null(spin.LargestHeldTiltRadians);
        Assert.NotNull(spin.LargestHeldTiltReason);
        Assert.Contains("before the craft could swing once", spin.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void SpunBall_WithItsMassBehind_IsHeldByItsSpinAndCaptured()
    {
        CheckResult r = Checked(
            Craft.Sample("tern.toml"),
            ("start.spin", "2 Hz"),
            ("mass.bus.at.z", "0.2 m"),
            ("ride.duration", "0.5 s")
        );

        Assert.True(r.Rides);
        Assert.Equal("captured", r.Spin!.Finding);
        Assert.True(r.Spin.IsWholeRide);
        Assert.True(r.Spin.StartTiltRadians > 0.0174 && r.Spin.StartTiltRadians < 0.0175);
        Assert.Equal(r.Jacobian[0][3], r.Spin.SidewaysSlopeNewtonsPerRadian, 1e-9);
        Assert.Contains(r.Explanation, s => s.Contains("the spin is what holds it", StringComparison.Ordinal));
        Assert.DoesNotContain(
            r.Explanation,
            s => s.StartsWith("Linear analysis about perfect", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void StillCraft_HasNoSpinSectionAndSaysWhy()
    {
        CheckResult r = Checked(Craft.Ball);

        Assert.Null(r.Spin);
        Assert.Equal("The craft does not spin.", r.SpinReason);
    }

    // rho W² R² for a curved film at its rim (membrane theory, docs/theory/spin.md): 1500 kg/m³, 30 Hz, 1.5 m.
    [Fact]
    public void SpunFilm_WithItsThickness_HasTensionAndStress()
    {
        CheckedFilm film = Checked(NearlyFlat, ("ride.duration", "0.1 s")).Spin!.Film[0];
        double speed = 2 * Math.PI * 30 * 1.5;

        Assert.Equal(1, film.StressPascals!.Value / (1500 * speed * speed), 1e-12);
        Assert.Equal(1, film.TensionNewtonsPerMetre!.Value / (0.2e-6 * 1500 * speed * speed), 1e-12);
    }

    // Multipliers of the linearised flow of Euler's full equations over one turn (SciPy 1.10 DOP853, rtol 1e-13, central differences of
    // the flow), with the light of a mirror ball summed over its lit half in 400 x 256 points; none of this project's code. A rod
    // across a ball, in a beam of two spots.
    [Fact]
    public void SpinningCraftAndBeamWithoutSymmetry_ReportFloquetMultipliers()
    {
        CheckResult r = Checked(
            """
            title = "rod and two spots"
            [beam]
            power = "1 MW"
            wavelength = "1 um"
            profile = "sum"
            [[beam.part]]
            profile = "gaussian"
            waist = "1 m"
            share = 0.5
            offset = ["1.2 m", "0 m"]
            [[beam.part]]
            profile = "gaussian"
            waist = "1 m"
            share = 0.5
            offset = ["-1.2 m", "0 m"]
            [[sail]]
            name = "canopy"
            shape = "sphere"
            radius = "1 m"
            surface = "foil"
            areal_density = "2 g/m^2"
            [surface.foil]
            kind = "mirror"
            [[mass]]
            name = "bar"
            shape = "rod"
            length = "1 m"
            direction = [1, 0, 0]
            mass = "5 g"
            at = ["0 m", "0 m", "0.3 m"]
            [start]
            spin = "2 Hz"
            [ride]
            duration = "0.2 s"
            """
        );

        Assert.Equal("periodic", r.ModeFrame);
        CheckedMultiplier[] m = [.. r.Spin!.FloquetMultipliers];
        Assert.Equal(1.064942511915611, m[0].ModulusFactor, 1e-7);
        Assert.Equal(1.0460587112187212, m[1].ModulusFactor, 1e-7);
        Assert.Equal(0, m[0].AngleRadians, 1e-9);
        Assert.Contains(
            m,
            x => Math.Abs(x.ModulusFactor - 1) < 1e-9 && Math.Abs(x.AngleRadians - 0.10014423543) < 1e-7
        );
        Assert.Contains(m, x => Math.Abs(x.ModulusFactor - 0.9559692866904) < 1e-7);
        Assert.Contains("grows by that factor in every turn", r.Spin.FloquetText, StringComparison.Ordinal);
        Assert.Contains("same all round", r.Spin.DisplacedTrimText, StringComparison.Ordinal);
    }

    private static IReadOnlyList<string> WarningsOf(string toml, params (string, string)[] changes)
    {
        IStudy study = new CheckStudy();
        StudyRequest request = StudyRequest
            .Empty.With(study.Options.OfType<StudyOption<IOpenDesign>>().Single(), Craft.Open(toml, changes))
            .With(study.Options.OfType<StudyOption<bool>>().Single(o => o.Name == "no-margins"), true);
        return [.. study.Run(request, new StudyContext { Threads = 2 }).AllWarnings.Select(w => w.Code)];
    }
}
