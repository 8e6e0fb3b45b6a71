using Lightkeel.Numerics.Sampling.Spectra;
using Lightkeel.Physics.Chance;
using Lightkeel.Physics.Chance.Escape;
using Lightkeel.Physics.Chance.Steering;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using NoiseSource = Lightkeel.Physics.Chance.NoiseSource;

namespace Lightkeel.Studies.Noise;

/// <summary>What happens along the boost: resonances against noise lines, and the delay of a steering loop.</summary>
internal static class NoiseTracks
{
    // A line counts as met where its middle comes within so many of its widths.
    private const double Widths = 3;

    public static IReadOnlyList<NoiseTrackPoint> PointsOf(NoiseScene scene, NoiseAllowance allowance, NoiseInput input)
    {
        double? white = allowance.Masks.TryGetValue(WellAction.Shake, out AllowedNoise? mask)
            ? mask.WhiteDensity
            : null;
        return
        [
            .. scene.Track.Select(p =>
            {
                double? range = scene.RangeAt(p.DistanceMetres);
                double? angle = range is { } r && white is { } s ? Math.Sqrt(2 * s * p.FrequenciesHertz[0]) / r : null;
                return new NoiseTrackPoint(
                    p.TimeSeconds,
                    p.DistanceMetres,
                    p.FrequenciesHertz,
                    range is { } at ? SteeringReach.DelaySeconds(at, input.SensingSeconds) : null,
                    range is null ? "The design has no director." : null,
                    angle,
                    angle is not null ? null
                        : range is null ? "The design has no director."
                        : "No pointing noise could be allowed."
                );
            }),
        ];
    }

    /// <summary>Lines, and peaks of tables, that the resonances meet.</summary>
    public static IReadOnlyList<NoiseCrossing> CrossingsOf(NoiseScene scene)
    {
        List<NoiseCrossing> found = [];
        foreach (NoiseSource source in scene.Sources)
        {
            foreach ((double line, double width) in LinesOf(source.Spectrum))
            {
                bool shakes = NoiseScene.ActionOf(source.Quantity) == WellAction.Shake;
                int modes = scene.Track.Count == 0 ? 0 : scene.Track.Min(p => p.FrequenciesHertz.Count);
                for (int m = 0; m < modes; m++)
                {
                    if (Meeting(scene, m, shakes ? 1 : 2, line, Widths * width) is { } meeting)
                    {
                        string which = shakes ? $"mode {m + 1}" : $"twice mode {m + 1}";
                        string how = meeting.Apart == 0 ? "crosses" : "comes near";
                        found.Add(
                            new(
                                source.Name,
                                line,
                                $"{which} {how} {SummaryRow.Write(line)} Hz at {SummaryRow.Write(meeting.Time)} s",
                                meeting.Time,
                                meeting.Apart
                            )
                        );
                    }
                }
            }
        }
        return found;
    }

    /// <summary>From where steering could help.</summary>
    public static NoiseSteering SteeringOf(NoiseScene scene, NoiseInput input)
    {
        if (scene.Track.Count == 0)
        {
            const string None = "No motion swings along the boost.";
            return new(None, null, None, null, None, null, None);
        }
        double slowest = scene.Track[0].FrequenciesHertz[0];
        double damping = SteeringReach.DampingRangeMetres(slowest, input.SensingSeconds);
        StabilityReport report = scene.Assessment.Report;
        double growth = report.GrowthPerSecond;
        bool grows = report.Verdict is StabilityVerdict.Divergent or StabilityVerdict.Flutter && growth > 0;
        double? holding = grows
            ? SteeringReach.HoldingRangeMetres(growth, report.Verdict == StabilityVerdict.Flutter, input.SensingSeconds)
            : null;
        double? leaves = scene.RangeAt(0) is null
            ? null
            : scene
                .Track.Where(p =>
                    SteeringReach.DelaySeconds(scene.RangeAt(p.DistanceMetres)!.Value, input.SensingSeconds)
                    > 0.25 / p.FrequenciesHertz[0]
                )
                .Select(p => (double?)p.TimeSeconds)
                .FirstOrDefault();
        string where = FormattableString.Invariant(
            $"Feeding back the rate of the slowest mode ({slowest:G4} Hz) damps it out to {damping:G4} m, where the delay is a quarter of its period; beyond, the same feedback drives it, and a loop must turn the phase by a frequency known to a quarter turn over the delay."
        );
        string hold = holding is { } reach
            ? FormattableString.Invariant(
                $" The craft does not ride by itself (growth {growth:G4} 1/s): beyond {reach:G4} m no linear feedback can hold it."
            )
            : " The craft rides by itself: steering is not needed to hold it.";
        return new(
            where + hold,
            damping,
            null,
            holding,
            holding is null ? "The craft rides by itself." : null,
            leaves,
            leaves is not null ? null
                : scene.RangeAt(0) is null ? "The design has no director."
                : "The damping range is not passed during the boost."
        );
    }

    /// <summary>Middle and width of what stands out of a spectrum.</summary>
    public static IEnumerable<(double Hertz, double Width)> LinesOf(PowerSpectralDensity spectrum)
    {
        switch (spectrum)
        {
            case LineSpectrum line:
                yield return (line.CentreHertz, line.WidthHertz);
                break;
            case TableSpectrum table:
                foreach ((double, double) peak in table.Peaks())
                {
                    yield return peak;
                }
                break;
        }
    }

    private static (double Time, double Apart)? Meeting(
        NoiseScene scene,
        int mode,
        int times,
        double line,
        double reach
    )
    {
        (double Time, double Apart)? nearest = null;
        for (int i = 0; i < scene.Track.Count; i++)
        {
            double here = times * scene.Track[i].FrequenciesHertz[mode] - line;
            if (i > 0)
            {
                double before = times * scene.Track[i - 1].FrequenciesHertz[mode] - line;
                if (before < 0 != here < 0)
                {
                    double share = before / (before - here);
                    double from = scene.Track[i - 1].TimeSeconds;
                    return (from + share * (scene.Track[i].TimeSeconds - from), 0);
                }
            }
            if (Math.Abs(here) <= reach && !(Math.Abs(here) >= nearest?.Apart))
            {
                nearest = (scene.Track[i].TimeSeconds, Math.Abs(here));
            }
        }
        return nearest;
    }
}
