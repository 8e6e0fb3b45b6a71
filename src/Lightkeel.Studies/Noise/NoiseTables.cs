using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Noise;

/// <summary>Tables of the noise study.</summary>
internal static class NoiseTables
{
    public static IReadOnlyList<ResultTable> Of(NoiseResult r)
    {
        List<ResultTable> tables = [];
        if (r.Allowed.Count > 0)
        {
            tables.Add(Mask(r));
        }
        if (r.Heating.Count > 0)
        {
            tables.Add(Heating(r));
        }
        if (r.Parametric.Any(p => p.Resonances.Count > 0))
        {
            tables.Add(Parametric(r));
        }
        if (r.FilmModes.Count > 0)
        {
            tables.Add(
                new(
                    "film-modes",
                    "Frequencies of the films at the start of the boost",
                    [
                        TableColumn.Texts("sail", [.. r.FilmModes.Select(m => m.Sail)]),
                        TableColumn.Numbers("diameters", [.. r.FilmModes.Select(m => (double)m.Diameters)]),
                        TableColumn.Numbers("circles", [.. r.FilmModes.Select(m => (double)m.Circles)]),
                        TableColumn.Numbers("frequency_Hz", [.. r.FilmModes.Select(m => m.FrequencyHertz)]),
                    ]
                )
            );
        }
        if (r.Budget.Count > 0)
        {
            tables.Add(Budget(r));
        }
        if (r.ExitTimesSeconds.Count > 0)
        {
            tables.Add(
                new(
                    "exit-times",
                    "Probability that the craft is lost by a time",
                    [
                        TableColumn.Numbers("time_s", r.ExitTimesSeconds),
                        TableColumn.Numbers("lost_by_probability", r.LostByProbability),
                    ]
                )
            );
        }
        if (r.Track.Count > 0)
        {
            tables.Add(Track(r));
        }
        if (r.Tolerance is { Inputs.Count: > 0 } tolerance)
        {
            tables.Add(Tolerance(tolerance));
        }
        if (r.LinearGrowth.Count > 0)
        {
            tables.Add(
                new(
                    "linear-growth",
                    "Root mean square motion of the linear modes",
                    [
                        TableColumn.Numbers("time_s", [.. r.LinearGrowth.Select(p => p.TimeSeconds)]),
                        TableColumn.Numbers("rms_offset_m", [.. r.LinearGrowth.Select(p => p.OffsetMetres)]),
                        TableColumn.Numbers("rms_tilt_rad", [.. r.LinearGrowth.Select(p => p.TiltRadians)]),
                    ]
                )
            );
        }
        if (r.Transfer.Count > 0)
        {
            tables.Add(
                new(
                    "transfer",
                    "Motion of the linear modes by pointing",
                    [
                        TableColumn.Numbers("frequency_Hz", [.. r.Transfer.Select(p => p.FrequencyHertz)]),
                        TableColumn.Numbers("offset_gain", [.. r.Transfer.Select(p => p.GainFactor)]),
                        TableColumn.Numbers("tilt_gain_1_m", [.. r.Transfer.Select(p => p.TiltPerMetre)]),
                        TableColumn.Numbers("offset_m2_Hz", [.. r.Transfer.Select(p => p.OffsetSquareMetresPerHertz)]),
                    ]
                )
            );
        }
        return tables;
    }

    private static ResultTable Parametric(NoiseResult r)
    {
        (NoiseParametric Noise, NoiseParametricLine Line)[] rows =
        [
            .. r.Parametric.SelectMany(p => p.Resonances.Select(l => (p, l))),
        ];
        return new(
            "parametric",
            "Heating by power and width at twice a mode, and at sums and differences of two",
            [
                TableColumn.Texts("noise", [.. rows.Select(x => x.Noise.Noise)]),
                TableColumn.Texts("kind", [.. rows.Select(x => x.Line.Kind)]),
                TableColumn.Numbers("first_Hz", [.. rows.Select(x => x.Line.FirstHertz)]),
                TableColumn.Numbers("second_Hz", [.. rows.Select(x => x.Line.SecondHertz)]),
                TableColumn.Numbers("listens_Hz", [.. rows.Select(x => x.Line.ListensHertz)]),
                TableColumn.Numbers("density_1_Hz", [.. rows.Select(x => x.Line.DensityPerHertz)]),
                TableColumn.Numbers("growth_1_s", [.. rows.Select(x => x.Line.GrowthPerSecond)]),
            ]
        );
    }

    private static ResultTable Mask(NoiseResult r) =>
        new(
            "allowed-density",
            "Largest one-sided density of each kind of noise alone",
            [
                TableColumn.Numbers("frequency_Hz", [.. r.Allowed.Select(a => a.FrequencyHertz)]),
                TableColumn.Numbers("density_m2_Hz", [.. r.Allowed.Select(a => a.PointingSquareMetresPerHertz)]),
                TableColumn.Numbers("density_rad2_Hz", [.. r.Allowed.Select(a => a.AnglePerHertz)]),
                TableColumn.Numbers("power_density_1_Hz", [.. r.Allowed.Select(a => a.PowerPerHertz)]),
                TableColumn.Numbers("width_density_1_Hz", [.. r.Allowed.Select(a => a.WidthPerHertz)]),
            ]
        );

    private static ResultTable Heating(NoiseResult r) =>
        new(
            "heating",
            "What each noise does to each mode",
            [
                TableColumn.Texts("noise", [.. r.Heating.Select(h => h.Noise)]),
                TableColumn.Texts("source", [.. r.Heating.Select(h => h.Source)]),
                TableColumn.Numbers("frequency_Hz", [.. r.Heating.Select(h => h.FrequencyHertz)]),
                TableColumn.Numbers("listens_Hz", [.. r.Heating.Select(h => h.ListensHertz)]),
                TableColumn.Numbers("density_1_Hz", [.. r.Heating.Select(h => h.DensityPerHertz)]),
                TableColumn.Numbers("energy_growth_W", [.. r.Heating.Select(h => h.EnergyGrowthWatts)]),
                TableColumn.Numbers("growth_1_s", [.. r.Heating.Select(h => h.GrowthPerSecond)]),
                TableColumn.Numbers("e_folds", [.. r.Heating.Select(h => h.FoldsFactor)]),
                TableColumn.Numbers("rms_amplitude_m", [.. r.Heating.Select(h => h.OffsetMetres)]),
            ]
        );

    private static ResultTable Budget(NoiseResult r) =>
        new(
            "budget",
            "Part of each noise in the loss, and how far it alone may grow",
            [
                TableColumn.Texts("noise", [.. r.Budget.Select(b => b.Noise)]),
                TableColumn.Texts("source", [.. r.Budget.Select(b => b.Source)]),
                TableColumn.Numbers("share_fraction", [.. r.Budget.Select(b => b.ShareFraction)]),
                TableColumn.Numbers("allowed_factor", [.. r.Budget.Select(b => b.AllowedFactor)]),
            ]
        );

    private static ResultTable Tolerance(NoiseTolerance t) =>
        new(
            "tolerance",
            "Share of each scattered number in the variance of the logarithm of the mean exit time",
            [
                TableColumn.Texts("path", [.. t.Inputs.Select(i => i.Path)]),
                TableColumn.Texts("spread", [.. t.Inputs.Select(i => i.Spread)]),
                TableColumn.Numbers("first_order", [.. t.Inputs.Select(i => i.FirstOrderFraction)]),
                TableColumn.Numbers("first_order_low", [.. t.Inputs.Select(i => i.FirstOrderInterval95[0])]),
                TableColumn.Numbers("first_order_high", [.. t.Inputs.Select(i => i.FirstOrderInterval95[1])]),
                TableColumn.Numbers("total", [.. t.Inputs.Select(i => i.TotalFraction)]),
                TableColumn.Numbers("total_low", [.. t.Inputs.Select(i => i.TotalInterval95[0])]),
                TableColumn.Numbers("total_high", [.. t.Inputs.Select(i => i.TotalInterval95[1])]),
            ]
        );

    private static ResultTable Track(NoiseResult r)
    {
        int modes = r.Track.Min(p => p.FrequenciesHertz.Count);
        return new(
            "track",
            "Modes, loop delay and allowed pointing along the boost",
            [
                TableColumn.Numbers("time_s", [.. r.Track.Select(p => p.TimeSeconds)]),
                TableColumn.Numbers("distance_m", [.. r.Track.Select(p => p.DistanceMetres)]),
                .. Enumerable
                    .Range(0, modes)
                    .Select(m =>
                        TableColumn.Numbers($"mode{m + 1}_Hz", [.. r.Track.Select(p => p.FrequenciesHertz[m])])
                    ),
                TableColumn.Numbers("loop_delay_s", [.. r.Track.Select(p => p.DelaySeconds)]),
                TableColumn.Numbers("allowed_pointing_rad", [.. r.Track.Select(p => p.AllowedRadians)]),
            ]
        );
    }
}
