using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Ride;

/// <summary>Writes rides down as results.</summary>
internal static class RideReading
{
    public static SingleRideResult Single(
        RidePlan plan,
        RideModel ride,
        ulong number,
        RideResult flown,
        (RideConvergence? Steps, EngineTwin? Engine) twins,
        IReadOnlyList<ResonancePoint> resonances
    )
    {
        RideRecord last = flown.Final;
        Vec3 velocity = last.State.VelocityMetresPerSecond;
        return new()
        {
            Outcome = RideWords.Of(flown.Outcome.Ending),
            EndedBy = RideWords.Of(flown.Outcome.Reason),
            OutcomeText = flown.Outcome.Sentence,
            RideNumber = number,
            TimeSeconds = last.TimeSeconds,
            ProperTimeSeconds = last.ProperSeconds,
            EmissionTimeSeconds = last.SourceSeconds,
            DistanceMetres = last.DistanceMetres,
            SpeedMetresPerSecond = velocity.Length,
            Beta = last.State.Beta,
            MaximumOffsetMetres = flown.MaximumOffsetMetres,
            MaximumTiltRadians = flown.MaximumTiltRadians,
            DirectionErrorRadians = RideWords.DirectionError(last.State),
            FinalState = FinalState(last),
            Energy = Energy(ride.Setup, flown),
            AngularMomentum = new(
                flown.AngularMomentum.Start,
                flown.AngularMomentum.End,
                flown.AngularMomentum.Impulse,
                flown.AngularMomentum.Imbalance
            ),
            Levitation = RideLevitation.Of(ride.Setup),
            LevitationReason = RideLevitation.WhyNot(ride.Setup),
            Flight = flown,
            Resonances = resonances,
            LostAtMetres = ride.Limits.LostAtMetres ?? plan.LostAtMetres,
            Disturbances = Disturbances(plan),
            Engine = plan.Engine.Name,
            Numerics = Numerics(plan.Steps, flown, twins),
            AtlasNotes = plan.AtlasNotes,
        };
    }

    public static IReadOnlyList<RideDisturbance> Disturbances(RidePlan plan) =>
        [
            .. plan.Noise.Noises.Select(n => new RideDisturbance(
                n.Source.Name,
                n.Source.Quantity switch
                {
                    NoiseQuantity.Power => "power",
                    NoiseQuantity.Width => "width",
                    NoiseQuantity.Imbalance => "imbalance",
                    _ => "pointing",
                },
                n.CutHertz,
                n.LostFraction
            )
            {
                Cautions = n.Cautions,
            }),
        ];

    public static RideNumericsReport Numerics(
        RideSteps chosen,
        RideResult flown,
        (RideConvergence? Steps, EngineTwin? Engine) twins
    )
    {
        RideNumerics n = flown.Numerics;
        return new()
        {
            Scheme = n.Scheme,
            StepsText = chosen.Text,
            MeanStepSeconds = flown.Final.TimeSeconds / Math.Max(1, n.AcceptedSteps),
            AcceptedSteps = n.AcceptedSteps,
            RejectedSteps = n.RejectedSteps,
            ForceEvaluations = n.ForceEvaluations,
            EngineRelativeError = n.LargestEngineError,
            EngineHandedOverFraction = n.HandedOverFraction,
            Convergence = twins.Steps is { } steps ? Of(flown, steps) : null,
            ConvergenceReason = twins.Steps is null ? "Not asked for, or the ride had no end to compare." : null,
            EngineTwin = twins.Engine is { } other
                ? new(
                    other.Engine.Name,
                    other.Engine.Accuracy,
                    other.Change.SameEnding,
                    other.Change.TimeDifferenceSeconds,
                    other.Change.PositionDifferenceMetres,
                    other.OffsetDifferenceMetres,
                    other.Change.RelativeSpeedDifference,
                    other.Change.MaximumOffsetDifferenceMetres
                )
                : null,
            EngineTwinReason = twins.Engine is null ? "Not asked for, or the ride had no end to compare." : null,
        };
    }

    public static RideNumericsReport NoNumerics(RideSteps steps, string reason) =>
        new()
        {
            Scheme = "none",
            StepsText = steps.Text,
            MeanStepSeconds = 0,
            AcceptedSteps = 0,
            RejectedSteps = 0,
            ForceEvaluations = 0,
            EngineRelativeError = 0,
            ConvergenceReason = reason,
            EngineTwinReason = reason,
        };

    private static RideConvergenceReport Of(RideResult flown, RideConvergence c) =>
        new(
            c.SameEnding,
            c.TimeDifferenceSeconds,
            c.PositionDifferenceMetres,
            RidePlan.LateralDistance(flown, c.Fine),
            c.RelativeSpeedDifference,
            c.MaximumOffsetDifferenceMetres
        );

    private static RideFinalState FinalState(in RideRecord last)
    {
        UnitQuaternion q = last.State.Attitude;
        return new()
        {
            PositionMetres = Components(last.State.PositionMetres),
            VelocityMetresPerSecond = Components(last.State.VelocityMetresPerSecond),
            TiltRadians = [last.TiltXRadians, last.TiltYRadians],
            AttitudeValues = [q.W, q.X, q.Y, q.Z],
            BodyRateRadiansPerSecond = Components(last.BodyRate),
            Gamma = last.State.LorentzFactor,
            IrradianceFactor = last.IrradianceFactor,
            BeamScaleRatio = last.BeamScale,
        };
    }

    private static RideEnergy Energy(RideSetup setup, RideResult flown)
    {
        EnergyLedger ledger = flown.Final.State.Ledger;
        double height =
            setup.Mass.MassKilograms * setup.GravityMetresPerSecondSquared * flown.Final.State.PositionMetres.Z;
        return new()
        {
            SourceJoules = ledger.SourceJoules,
            InterceptedJoules = ledger.InterceptedJoules,
            SpilledJoules = ledger.SourceJoules - ledger.InterceptedJoules,
            WorkJoules = ledger.WorkJoules,
            HeatJoules = ledger.HeatJoules,
            OutgoingJoules = ledger.OutgoingJoules,
            KineticGainJoules = flown.KineticGainJoules,
            ImbalanceJoules = ledger.WorkJoules - flown.KineticGainJoules - height,
        };
    }

    private static double[] Components(Vec3 v) => [v.X, v.Y, v.Z];
}
