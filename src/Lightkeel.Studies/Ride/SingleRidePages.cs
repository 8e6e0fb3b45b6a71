using Lightkeel.Physics.Motion;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Ride;

/// <summary>One ride for reading: summary, warnings, and how the run ended.</summary>
internal static class SingleRidePages
{
    public static StudyPresentation Of(RideInput input, SingleRideResult r)
    {
        (StudyEnding ending, string? reason) = EndingOf(r);
        return new()
        {
            Summary = new([Outcome(input, r), Motion(r), .. Levitation(r), Energy(r), AngularMomentum(r), Worth(r)]),
            Warnings = RideCautions.Of(input, r),
            MakeFigures = () => SingleRideFigures.Of(input, r),
            MakeTables = () => [Track(r), Peaks(r), .. Spectra(r)],
            Ending = ending,
            EndingReason = reason,
        };
    }

    private static (StudyEnding, string?) EndingOf(SingleRideResult r) =>
        r.Flight.Outcome.Ending switch
        {
            RideEnding.Interrupted => (StudyEnding.Interrupted, r.OutcomeText),
            RideEnding.StepLimit or RideEnding.CannotContinue => (StudyEnding.AccuracyNotReached, r.OutcomeText),
            _ when r.Numerics.Convergence is { SameEnding: false } => (
                StudyEnding.AccuracyNotReached,
                RideCautions.EndingMoves
            ),
            _ when r.Numerics.EngineTwin is { SameEnding: false } => (
                StudyEnding.AccuracyNotReached,
                RideCautions.EndingDependsOnForces
            ),
            _ => (StudyEnding.Done, null),
        };

    private static SummarySection Outcome(RideInput input, SingleRideResult r) =>
        new(input.Design.Title ?? "Ride")
        {
            Rows =
            [
                new("outcome", r.Outcome, "", r.EndedBy),
                SummaryRow.Of("time (laser's frame)", r.TimeSeconds, "s"),
                SummaryRow.Of("proper time", r.ProperTimeSeconds, "s"),
                SummaryRow.Of("emission time", r.EmissionTimeSeconds, "s", "how long the laser shines for it"),
            ],
            Paragraphs = [r.OutcomeText],
        };

    private static SummarySection Motion(SingleRideResult r) =>
        new("Motion")
        {
            Rows =
            [
                SummaryRow.Of("distance", r.DistanceMetres, "m"),
                SummaryRow.Of("speed", r.SpeedMetresPerSecond, "m/s"),
                SummaryRow.Of("speed over that of light", r.Beta),
                SummaryRow.Of("largest offset", r.MaximumOffsetMetres, "m"),
                SummaryRow.Of("largest tilt", double.RadiansToDegrees(r.MaximumTiltRadians), "deg"),
                SummaryRow.Of("final direction off the beam", r.DirectionErrorRadians, "rad"),
                SummaryRow.Of("irradiance on the craft at the end", r.FinalState.IrradianceFactor, "", "of nominal"),
                SummaryRow.Of("size of the beam at the end", r.FinalState.BeamScaleRatio, "", "of designed"),
            ],
        };

    private static SummarySection Energy(SingleRideResult r) =>
        new("Energy (laser's frame)")
        {
            Rows =
            [
                SummaryRow.Of("sent", r.Energy.SourceJoules, "J"),
                SummaryRow.Of("met the craft", r.Energy.InterceptedJoules, "J"),
                SummaryRow.Of("spilled past it", r.Energy.SpilledJoules, "J"),
                SummaryRow.Of("work on the craft", r.Energy.WorkJoules, "J"),
                SummaryRow.Of("absorbed and radiated", r.Energy.HeatJoules, "J", "rest frame; the rest mass stays"),
                SummaryRow.Of("account open by", r.Energy.ImbalanceJoules, "J", "work less gain of energy"),
            ],
        };

    private static SummarySection AngularMomentum(SingleRideResult r) =>
        new("Angular momentum about the beam axis")
        {
            Rows =
            [
                SummaryRow.Of("at the start", r.AngularMomentum.StartJouleSeconds, "J s"),
                SummaryRow.Of("at the end", r.AngularMomentum.EndJouleSeconds, "J s"),
                SummaryRow.Of("given by the light", r.AngularMomentum.ImpulseJouleSeconds, "J s"),
                SummaryRow.Of("account open by", r.AngularMomentum.ImbalanceJouleSeconds, "J s"),
            ],
        };

    private static SummarySection[] Levitation(SingleRideResult r) =>
        r.Levitation is { } found ? [new("Levitation") { Paragraphs = [found.Text] }] : [];

    private static SummarySection Worth(SingleRideResult r)
    {
        RideNumericsReport n = r.Numerics;
        List<SummaryRow> rows =
        [
            new("method", n.Scheme),
            SummaryRow.Of("steps", n.AcceptedSteps),
            SummaryRow.Of("evaluations of the light pressure", n.ForceEvaluations),
        ];
        if (n.Convergence is { } c)
        {
            rows.AddRange(RideCautions.StepRows(c));
        }
        rows.AddRange(RideCautions.EngineRows(r));
        return new("What the numbers are worth") { Rows = rows, Paragraphs = [n.StepsText] };
    }

    private static ResultTable Track(SingleRideResult r) => Table("track", "State against time", r.Flight.Records);

    private static ResultTable Peaks(SingleRideResult r) =>
        Table("peaks", "Instants of largest offset", r.Flight.Peaks);

    private static IEnumerable<ResultTable> Spectra(SingleRideResult r)
    {
        if (MotionSpectrum.Of(r.Flight, r.Resonances) is { } s)
        {
            int[] bins = [.. Enumerable.Range(0, s.X.Densities.Length)];
            yield return new(
                "spectrum",
                "Spectrum of the offset, one-sided, by Welch's method",
                [
                    TableColumn.Numbers("frequency_Hz", [.. bins.Select(s.X.FrequencyHertz)]),
                    TableColumn.Numbers("density_x_m2_Hz", s.X.Densities.ToArray()),
                    TableColumn.Numbers("density_y_m2_Hz", s.Y.Densities.ToArray()),
                ]
            );
        }
        (double Time, int Mode, double Frequency)[] points =
        [
            .. r.Resonances.SelectMany(p => p.FrequenciesHertz.Select((f, i) => (p.TimeSeconds, i + 1, f))),
        ];
        yield return new(
            "resonances",
            "Linear modes in the light of a few moments of the ride",
            [
                TableColumn.Numbers("time_s", [.. points.Select(p => p.Time)]),
                TableColumn.Integers("mode", [.. points.Select(p => (long)p.Mode)]),
                TableColumn.Numbers("frequency_Hz", [.. points.Select(p => p.Frequency)]),
            ]
        );
    }

    private static ResultTable Table(string name, string title, IReadOnlyList<RideRecord> records)
    {
        TableColumn Of(string header, Func<RideRecord, double> value) =>
            TableColumn.Numbers(header, [.. records.Select(value)]);
        return new(
            name,
            title,
            [
                Of("time_s", p => p.TimeSeconds),
                Of("proper_time_s", p => p.ProperSeconds),
                Of("emission_time_s", p => p.SourceSeconds),
                Of("x_m", p => p.State.PositionMetres.X),
                Of("y_m", p => p.State.PositionMetres.Y),
                Of("z_m", p => p.State.PositionMetres.Z),
                Of("offset_m", p => p.State.OffsetMetres),
                Of("tilt_x_rad", p => p.TiltXRadians),
                Of("tilt_y_rad", p => p.TiltYRadians),
                Of("vx_m_s", p => p.State.VelocityMetresPerSecond.X),
                Of("vy_m_s", p => p.State.VelocityMetresPerSecond.Y),
                Of("vz_m_s", p => p.State.VelocityMetresPerSecond.Z),
                Of("spin_rad_s", p => p.SpinRadiansPerSecond),
                Of("beam_x_m", p => p.Beam.OffsetXMetres),
                Of("beam_y_m", p => p.Beam.OffsetYMetres),
                Of("beam_angle_x_rad", p => p.Beam.AngleXRadians),
                Of("beam_angle_y_rad", p => p.Beam.AngleYRadians),
                Of("power_factor", p => p.PowerFactor),
                Of("irradiance_factor", p => p.IrradianceFactor),
                Of("beam_scale", p => p.BeamScale),
            ]
        );
    }
}
