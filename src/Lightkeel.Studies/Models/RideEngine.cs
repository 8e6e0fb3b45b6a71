using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Models;

/// <summary>What rides ask of an engine: how many forces, and which states they may meet.</summary>
/// <param name="Evaluations">Forces that will be asked for, an estimate.</param>
/// <param name="Noise">What disturbs the rides.</param>
/// <param name="Accuracy">Relative accuracy of force and torque.</param>
/// <param name="Threads">Threads that may build.</param>
/// <param name="Store">Where atlases are kept; null for nowhere.</param>
public sealed record RideDemand(double Evaluations, NoisePlan Noise, double Accuracy, int Threads, IAtlasStore? Store);

/// <summary>Chooses the light-pressure engine of rides.</summary>
public static class RideEngine
{
    /// <summary>Forces from which on an atlas is worth building; a build takes some ten thousand quadratures.</summary>
    public const double WorthBuilding = 100_000;

    private const double Sigmas = 6;
    private const double SmallestTilt = 0.05;
    private const double LargestTilt = 0.5;
    private const double SmallShareOfBeam = 0.1;
    private const double FinestAtlas = 1e-11;

    /// <summary>The engine of a ride.</summary>
    /// <param name="name">auto, atlas, quadrature or reference.</param>
    /// <param name="ride">The ride with any engine of that craft in that beam.</param>
    /// <param name="demand">What the rides ask.</param>
    /// <exception cref="InputRefusedException">An atlas was asked for and cannot be had.</exception>
    public static IPressureEngine For(string name, RideModel ride, RideDemand demand)
    {
        ArgumentNullException.ThrowIfNull(ride);
        ArgumentNullException.ThrowIfNull(demand);
        DesignModel model = ride.Design;
        bool isAsked = name == "atlas";
        if (
            !isAsked
            && !(
                name == "auto"
                && demand.Evaluations >= WorthBuilding
                && demand.Accuracy >= FinestAtlas
                && CanServe(model)
            )
        )
        {
            return EngineChoice.Build(name, model, demand.Accuracy);
        }
        if (!CanServe(model))
        {
            throw new InputRefusedException(
                EngineChoice.RideOption.Written,
                "atlas serves craft that are axisymmetric about their centre of mass in axisymmetric beams, and balls about their centre of mass in any beam, both without layered films, whose shares change with the Doppler shift; this design is none of these",
                "take auto or quadrature"
            );
        }
        if (demand.Accuracy < FinestAtlas)
        {
            throw new InputRefusedException(
                EngineChoice.RideOption.Written,
                FormattableString.Invariant(
                    $"atlas is as accurate as {FinestAtlas:G2}, but {demand.Accuracy:G2} is asked for"
                ),
                "take quadrature, or a larger --accuracy"
            );
        }
        return new AtlasTiers(
            Boxes(ride, demand.Noise),
            box => AtlasShelf.OfProcess.Get(model.Craft, model.Beam, box, demand.Accuracy, demand.Threads, demand.Store)
        );
    }

    /// <summary>Forces that a ride asks for, an estimate from its duration and steps.</summary>
    /// <param name="ride">The ride.</param>
    /// <param name="method">Its steps.</param>
    public static double EvaluationsOf(RideModel ride, RideMethod method)
    {
        ArgumentNullException.ThrowIfNull(ride);
        ArgumentNullException.ThrowIfNull(method);
        double duration = ride.Limits.DurationSeconds;
        if (method.FixedStepSeconds is { } step)
        {
            // A kick takes three evaluations and a little; the fourth order has five kicks.
            return duration / step * 3.3 * method.Composition.Fractions.Length;
        }
        // Adaptive steps of order eight: some two hundred evaluations a swing of the size that thrust and beam suggest.
        RideSetup setup = ride.Setup;
        double push = 2 * setup.PowerWatts / Illumination.LightSpeed;
        double swing =
            Math.Sqrt(push / (setup.FeatureLengthMetres * setup.Mass.MassKilograms)) / (2 * Math.PI)
            + Math.Abs(ride.Start.SpinRadiansPerSecond) / (2 * Math.PI);
        return 200 * swing * duration;
    }

    /// <summary>
    /// The engine of a second flight that tells what the error of the first one's forces does to a ride: an atlas with a tenth of
    /// the error, or the same forces off in the direction that hurts by the accuracy that all of them met.
    /// </summary>
    /// <param name="ride">The ride with its engine.</param>
    /// <param name="demand">What the ride asked.</param>
    public static IPressureEngine TwinOf(RideModel ride, RideDemand demand)
    {
        ArgumentNullException.ThrowIfNull(ride);
        ArgumentNullException.ThrowIfNull(demand);
        IPressureEngine engine = ride.Setup.Engine;
        return engine is AtlasTiers && engine.Accuracy >= 10 * FinestAtlas
            ? For("atlas", ride, demand with { Accuracy = 0.1 * engine.Accuracy })
            : new ShiftedPressure(
                engine,
                engine.Accuracy,
                ride.Setup.FeatureLengthMetres,
                ride.Design.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres)
            );
    }

    private static bool CanServe(DesignModel model) =>
        PressureAtlas.CanServe(model.Craft, model.Beam)
        && LightRegime.Assess(model.Craft).For(Vec3.UnitZ).IsSingleBounce;

    // The small box holds the motion that start and pointing suggest, the large one all that the ride's limits allow.
    private static AtlasBox[] Boxes(RideModel ride, NoisePlan noise)
    {
        RideStart start = ride.Start;
        double beam = ride.Setup.FeatureLengthMetres;
        double pointing = Sigmas * PointingMetres(ride, noise);
        double limit = (ride.Limits.LostAtMetres ?? ride.Design.Beam.Profile.ExtentMetres) + pointing;
        double offset = double.Hypot(start.OffsetXMetres, start.OffsetYMetres);
        double small = Math.Min(limit, Math.Max(3 * offset + pointing, SmallShareOfBeam * beam));
        double widestTilt = Math.Min(LargestTilt, ride.Limits.TiltLimitRadians ?? LargestTilt);
        double tilt = double.Hypot(start.TiltXRadians, start.TiltYRadians);
        double smallTilt = Math.Min(widestTilt, Math.Max(SmallestTilt, 3 * tilt));
        (double low, double high) = Sizes(ride, noise);
        AtlasBox Of(double r, double t) => new(r, t) { SmallestScale = low, LargestScale = high };
        return small < limit || smallTilt < widestTilt
            ? [Of(small, smallTilt), Of(limit, widestTilt)]
            : [Of(limit, widestTilt)];
    }

    private static double PointingMetres(RideModel ride, NoisePlan noise)
    {
        double range = (ride.Setup.Director?.StandoffMetres ?? 0) + (ride.Setup.Director is null ? 0 : Distance(ride));
        double square = 0;
        foreach (NoiseSource source in noise.Noises.Select(n => n.Source))
        {
            double lever = source.Quantity switch
            {
                NoiseQuantity.PointingLength => 1,
                NoiseQuantity.PointingAngle => range,
                _ => 0,
            };
            square += 2 * lever * lever * source.Spectrum.TotalVariance;
        }
        return Math.Sqrt(square);
    }

    // Sizes of the beam that the rides may meet: growth with range, and six standard deviations of the width's logarithm.
    private static (double Low, double High) Sizes(RideModel ride, NoisePlan noise)
    {
        double variance = noise
            .Noises.Where(n => n.Source.Quantity == NoiseQuantity.Width)
            .Sum(n => n.Source.Spectrum.TotalVariance);
        double spread = Math.Exp(Math.Min(2, Sigmas * Math.Sqrt(variance)));
        double near = ride.Setup.Director?.ScaleAt(0) ?? 1;
        double far = ride.Setup.Director?.ScaleAt(Distance(ride)) ?? 1;
        return (near / spread, Math.Max(near, far) * spread);
    }

    private static double Distance(RideModel ride) =>
        RideReach.DistanceMetres(ride.Setup, ride.Start, ride.Limits.DurationSeconds);
}
