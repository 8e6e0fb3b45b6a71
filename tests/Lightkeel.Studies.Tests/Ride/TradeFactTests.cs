using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Ride;

/// <summary>What people of the trade expect of a beam rider (common practice, no source), flown through the whole tool.</summary>
public sealed class TradeFactTests
{
    /// <summary>A mirror ball of 1 m on a ring of light: 0.0458 Hz at the bottom of a well whose rim is at 0.735 m.</summary>
    private const string Ball = """
        title = "ball on a hollow beam"
        [beam]
        power = "1 MW"
        wavelength = "1 um"
        profile = "ring"
        radius = "0.9 m"
        width = "0.4 m"
        [[sail]]
        name = "canopy"
        shape = "sphere"
        radius = "1 m"
        surface = "foil"
        areal_density = "2 g/m^2"
        [surface.foil]
        kind = "mirror"
        [start]
        offset = ["5 cm", "0 m"]
        [ride]
        duration = "300 s"
        lost_at = "0.75 m"

        """;

    private const string Cone = """
        title = "spun cone"
        [beam]
        power = "100 MW"
        wavelength = "1 um"
        profile = "super-gaussian"
        waist = "6 m"
        order = 8
        [[sail]]
        name = "canopy"
        shape = "cone"
        radius = "1.5 m"
        half_angle = "65 deg"
        toward_laser = "vertex"
        surface = "foil"
        areal_density = "1 g/m^2"
        [surface.foil]
        kind = "mirror"
        [start]
        spin = "10 Hz"
        tilt = ["0 deg", "1 deg"]
        [ride]
        duration = "10 s"
        lost_at = "2 m"
        """;

    private static string Line(string frequency) =>
        $"[[noise]]\nname = \"line\"\nsource = \"pointing\"\nspectrum = \"line\"\nfrequency = \"{frequency}\"\nwidth = \"4 mHz\"\nrms = \"9 cm\"\n";

    private static RideStudyResult Run(string toml, int? rides, params (string, string)[] changes) =>
        new RideStudy().Run(
            new(Craft.Open(toml, changes))
            {
                Rides = rides,
                StepSeconds = rides is null ? null : 0.5,
                Order = rides is null ? null : 2,
                Tolerance = 1e-6,
                WithConvergence = false,
            },
            new StudyContext { Accuracy = 1e-4, Threads = 2 }
        );

    [Fact]
    public void BallOnAHollowBeam_Oscillates()
    {
        SingleRideResult r = (SingleRideResult)Run(Ball, null);
        Assert.Equal("held", r.Outcome);
        Assert.Equal(0.05, r.MaximumOffsetMetres, 1e-6);
        // Largest offsets come twice in a period of 1/0.0458 Hz: 27 in 300 s.
        Assert.InRange(r.Flight.Peaks.Count, 26, 28);
        Assert.All(r.Flight.Peaks, p => Assert.Equal(0.05, p.State.OffsetMetres, 1e-4));
    }

    [Fact]
    public void BallOnAHollowBeam_UnderOnePerCentOfNoise_StaysForMinutes()
    {
        // One per cent of the ring's radius, of the power and of the width, each as root mean square, white to 1 Hz.
        const string Shaken = """
            [[noise]]
            name = "jitter"
            source = "pointing"
            spectrum = "white"
            density = "81 mm^2/Hz"
            corner = "1 Hz"
            [[noise]]
            name = "power"
            source = "power"
            spectrum = "white"
            density = "1e-4 1/Hz"
            corner = "1 Hz"
            [[noise]]
            name = "width"
            source = "width"
            spectrum = "white"
            density = "1e-4 1/Hz"
            corner = "1 Hz"
            """;
        RideEnsembleResult r = (RideEnsembleResult)Run(Ball + Shaken, 3);
        Assert.Equal(3, r.Held);
        Assert.InRange(r.MaximumOffset.LargestMetres, 0.05, 0.15);
    }

    [Fact]
    public void BallOnAHollowBeam_ShakenAtItsResonance_IsThrownOut_ButNotBesideIt()
    {
        RideEnsembleResult at = (RideEnsembleResult)Run(Ball + Line("42 mHz"), 4);
        RideEnsembleResult beside = (RideEnsembleResult)Run(Ball + Line("140 mHz"), 4);
        Assert.Equal(4, at.Lost);
        Assert.Equal(4, beside.Held);
    }

    [Fact]
    public void SpunCone_SlightlyTilted_DriftsOffSideways()
    {
        // The spin holds the axis, and the light pushes along it: in uniform light F_x/F_z = θ (1 − cot² a) for a mirror cone of
        // half-angle a (from n.b = −sin a − θ cos a cos φ on its surface), so the track is straight at that slope.
        SingleRideResult r = (SingleRideResult)Run(Cone, null);
        Assert.Equal("off-beam", r.EndedBy);
        double cotangent = 1 / Math.Tan(65 * Math.PI / 180);
        double slope = Math.PI / 180 * (1 - cotangent * cotangent);
        Assert.Equal(1, r.MaximumOffsetMetres / r.DistanceMetres / slope, 0.005);
        // Towards where the axis leans, give or take the little that it precesses on the way.
        Assert.InRange(r.FinalState.PositionMetres[0], 1.95, 2);
        Assert.InRange(r.MaximumTiltRadians, 0.0174, 0.0176);
        // Straight, it stays; tilted without spin, it swings about the beam instead.
        SingleRideResult straight = (SingleRideResult)Run(Cone, null, ("start.tilt.y", "0 deg"));
        Assert.Equal("held", straight.Outcome);
        Assert.InRange(straight.MaximumOffsetMetres, 0, 1e-9);
        SingleRideResult still = (SingleRideResult)Run(Cone, null, ("start.spin", "0 Hz"));
        Assert.Equal("held", still.Outcome);
        Assert.InRange(still.MaximumOffsetMetres, 0, 0.1);
    }
}
