using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Stability.Spinning;

/// <summary>What the truth about a spinning craft is asked of.</summary>
/// <param name="Craft">The craft.</param>
/// <param name="Beam">The beam.</param>
/// <param name="Engine">Light pressure for averages and circular motions.</param>
/// <param name="Setup">Its calm ride; its engine may be coarser, because rides tell outcomes.</param>
/// <param name="Start">Its start, spinning.</param>
/// <param name="Limits">When its ride ends.</param>
/// <param name="Verdict">The linear verdict at the trim.</param>
public sealed record SpinQuestion(
    SailCraft Craft,
    Beam Beam,
    IPressureEngine Engine,
    RideSetup Setup,
    RideStart Start,
    RideLimits Limits,
    StabilityVerdict Verdict
)
{
    /// <summary>How many rides may be flown at once; results do not depend on it.</summary>
    public int Threads { get; init; } = 1;

    /// <summary>Whether every ride lasts as long as the design's, however many turns that takes.</summary>
    public bool WholeRides { get; init; }
}

/// <summary>
/// Backs the linear verdict of a spinning craft: force averaged over spin against the tilt of the angular momentum, steady
/// circular motions (displaced trims) with their folds and stability, and rides from a ladder of misaligned starts.
/// </summary>
/// <remarks>Equations, regimes and sources: docs/theory/spin.md. Pure.</remarks>
public static class SpinTruthAnalysis
{
    /// <summary>Largest tilt looked at, rad, where the light and the design's own tilt limit allow it.</summary>
    public const double LargestTiltRadians = 0.6;

    /// <summary>Cycles of the fastest motion (spin, nutation or lateral swing) after which a ride of the ladder is cut, when nothing else is asked.</summary>
    public const double MostCycles = 900;

    // So many are flown whatever the slow motions take.
    private const double TellingSwings = 2;
    private const double LastResort = 5;
    private const double CheapCycles = 50;

    // A ride shows what it does in so many of its slow motions.
    private const double Swings = 12;
    private const double Precessions = 2;
    private const int Points = 40;

    // One precession more than the first, in which the displaced trim is still being approached.
    private const double TellingPrecessions = 2;

    // Surfaces that meet light once only up to a tilt are kept this far inside it.
    private const double InsideRegime = 0.999;

    /// <summary>Answers the question.</summary>
    /// <exception cref="PressureUnavailableException">The light pressure cannot be computed on the axis.</exception>
    public static SpinTruth Answer(SpinQuestion question, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(question);
        SpinningTop top = SpinningTop.Of(question.Craft.Mass, question.Start.SpinRadiansPerSecond);
        AveragedLight Averaged(IPressureEngine engine) =>
            new(engine, question.Craft.IsAxisymmetric, question.Start.SpeedMetresPerSecond);
        AveragedLight light = Averaged(question.Engine);
        (double largest, string ending) = LargestTilt(question);
        AveragedForcePoint[] force = [.. Force(question, light, top, largest)];
        if (force.Length < Points + 1)
        {
            ending = "The light pressure cannot be computed beyond.";
        }
        double[][] k = light.Engine.Differentiate(light.Pose(0, 0, 0, 0)).LateralJacobian();
        SpinTimes times = SpinTimesReading.Of(top, k, question.Limits.DurationSeconds);
        (IReadOnlyList<CircularFamily> families, string? reason) = Families(question, light, top, largest);
        double horizon = Horizon(question, times);
        TiltLadder ladder = new(
            question.Setup,
            question.Start,
            question.Limits with
            {
                DurationSeconds = horizon,
            },
            Averaged(question.Setup.Engine),
            question.Threads,
            cancellation
        )
        {
            AveragesHold = times.AveragesHold,
        };
        TiltLadderResult climbed = ladder.Climb(largest, horizon == question.Limits.DurationSeconds);
        // Before one swing across the beam nothing that pushes sideways can have carried the craft off, and before one precession the
        // sideways force has not been everywhere that it will be (common practice, no source).
        bool isTooShort =
            !climbed.IsWholeRide
            && horizon < Math.Max(times.LateralPeriodSeconds ?? 0, times.PrecessionPeriodSeconds ?? 0);
        if (isTooShort)
        {
            climbed = climbed with { LargestHeldRadians = null, LargestHeldByAverageRadians = null };
        }
        SpinFinding finding = SpinWords.FindingOf(question.Verdict, climbed, isTooShort);
        return new(
            top,
            times,
            force,
            ending,
            0.5 * (k[0][3] - k[1][2]),
            families,
            reason,
            climbed,
            finding,
            SpinWords.Sentence(finding, climbed, force, SpinTruth.DisplacedOf(families, times))
        );
    }

    private static (double Tilt, string Why) LargestTilt(SpinQuestion question)
    {
        double safe = InsideRegime * (LightRegime.Assess(question.Craft).MaximumSafeTiltRadians ?? Math.PI);
        double limit = InsideRegime * (question.Limits.TiltLimitRadians ?? Math.PI);
        double own = double.Hypot(question.Start.TiltXRadians, question.Start.TiltYRadians);
        double wanted = Math.Max(LargestTiltRadians, Math.Min(1.2, 1.1 * own));
        return safe < Math.Min(limit, wanted) && safe > 0 ? (safe, "Beyond this tilt light would meet the craft twice.")
            : limit < wanted ? (limit, "Beyond this tilt the design counts the craft as lost.")
            : (wanted, "No larger tilt was looked at.");
    }

    private static IEnumerable<AveragedForcePoint> Force(
        SpinQuestion question,
        AveragedLight light,
        SpinningTop top,
        double largest
    )
    {
        double own = double.Hypot(question.Start.TiltXRadians, question.Start.TiltYRadians);
        (double tx, double ty) =
            own > 0 ? (question.Start.TiltXRadians / own, question.Start.TiltYRadians / own) : (0, 1);
        // The axis leans to (tilt_y, −tilt_x).
        Vec3 side = new(ty, -tx, 0);
        Vec3 across = new(tx, ty, 0);
        for (int i = 0; i <= Points; i++)
        {
            double tilt = largest * i / Points;
            AveragedReading r;
            try
            {
                r = light.At(0, 0, tilt * tx, tilt * ty);
            }
            catch (PressureUnavailableException)
            {
                yield break;
            }
            double torque = Vec3.Dot(r.TorqueNewtonMetres, across);
            double precession = i == 0 ? 0 : torque / (top.AngularMomentum * Math.Sin(tilt));
            yield return new(
                tilt,
                Vec3.Dot(r.ForceNewtons, side),
                Vec3.Dot(r.ForceNewtons, across),
                r.ForceNewtons.Z,
                precession
            );
        }
    }

    private static (IReadOnlyList<CircularFamily>, string?) Families(
        SpinQuestion question,
        AveragedLight light,
        SpinningTop top,
        double largest
    )
    {
        bool round =
            question.Craft.IsAxisymmetric
            && question.Beam.Profile.IsAxisymmetric
            && SpinningTop.IsRound(question.Craft.Mass.InertiaKilogramSquareMetres);
        if (!round)
        {
            return (
                [],
                "Steady circular motions need surfaces, inertia and a beam that are the same all round; see the averaged force and the rides."
            );
        }
        Beam beam = question.Beam;
        double radius = question.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double reach = Math.Min(question.Limits.LostAtMetres ?? double.MaxValue, beam.Profile.ExtentMetres + radius);
        IReadOnlyList<CircularFamily> families = CircularFamilies.Find(
            light,
            top,
            new(largest, reach, beam.Profile.FeatureLengthMetres)
        );
        return families.Count > 0
            ? (families, null)
            : ([], "No whirl of the linear picture is steady, so no circular motion begins at the axis.");
    }

    private static double Horizon(SpinQuestion question, SpinTimes times)
    {
        double duration = question.Limits.DurationSeconds;
        if (question.WholeRides)
        {
            return duration;
        }
        double slow = Math.Max(
            Swings * (times.LateralPeriodSeconds ?? duration),
            Precessions * (times.PrecessionPeriodSeconds ?? 0)
        );
        double cycle = Math.Min(
            Math.Min(times.SpinPeriodSeconds, times.NutationPeriodSeconds),
            times.LateralPeriodSeconds ?? double.PositiveInfinity
        );
        double cut = Math.Max(CheapCycles * cycle, Math.Min(slow, MostCycles * cycle));
        // A ride cut before the craft could swing across the beam, or its spin axis precess, tells nothing: then it may cost several times more.
        double telling = Math.Max(
            TellingSwings * (times.LateralPeriodSeconds ?? 0),
            TellingPrecessions * (times.PrecessionPeriodSeconds ?? 0)
        );
        return Math.Min(duration, Math.Max(cut, Math.Min(telling, LastResort * MostCycles * cycle)));
    }
}

/// <summary>Times of a spinning craft from its stiffness at the axis.</summary>
internal static class SpinTimesReading
{
    public static SpinTimes Of(SpinningTop top, double[][] jacobian, double durationSeconds)
    {
        double[][] k = SymmetricStiffness.Nearest(jacobian);
        (double lateral, double sideways, double twist, double tilt) = (k[0][0], k[0][3], k[3][0], k[3][3]);
        // The offset follows a slow tilt to where the lateral force vanishes, and its torque turns the axis as well.
        double torque = lateral != 0 ? tilt - sideways * twist / lateral : tilt;
        double? precession = torque != 0 ? 2 * Math.PI * Math.Abs(top.AngularMomentum / torque) : null;
        double? swing = lateral != 0 ? 2 * Math.PI * Math.Sqrt(top.MassKilograms / Math.Abs(lateral)) : null;
        return new(
            2 * Math.PI / Math.Abs(top.SpinRadiansPerSecond),
            2 * Math.PI / top.NutationRadiansPerSecond,
            Finite(precession),
            Finite(swing),
            Words(Finite(precession), Finite(swing), 2 * Math.PI / top.NutationRadiansPerSecond, durationSeconds)
        );
    }

    private static double? Finite(double? value) => value is { } v && double.IsFinite(v) ? v : null;

    private static string Words(double? precession, double? swing, double nutation, double duration)
    {
        if (precession is not { } p || p > 4 * duration)
        {
            return "The angular momentum hardly precesses during the ride: a tilt of it stays, and with it the sideways force.";
        }
        if (precession <= nutation)
        {
            return $"A nutation takes {Decision.Text(nutation)} s, longer than the precession it would have to be averaged for ({Decision.Text(p)} s): this spin is too slow for averages, and only the rides count.";
        }
        string turn = $"A tilted angular momentum precesses once in {Decision.Text(p)} s";
        if (swing is not { } s)
        {
            return turn + ".";
        }
        string lateral = $"a lateral swing takes {Decision.Text(s)} s";
        return p > 3 * s
                ? $"{turn}, {lateral}: the sideways force holds its direction through several swings, so that it displaces the trim."
            : p < s / 3 ? $"{turn}, {lateral}: over a swing the sideways force goes round and averages out."
            : $"{turn}, {lateral}: both take part in one motion, and only the whole of it counts.";
    }
}
