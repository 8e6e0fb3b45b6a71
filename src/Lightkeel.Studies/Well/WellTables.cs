using Lightkeel.Studies.Output;

namespace Lightkeel.Studies.Well;

/// <summary>Tables of a well.</summary>
internal static class WellTables
{
    public static IReadOnlyList<ResultTable> Of(WellResult r)
    {
        List<ResultTable> tables = [Section(r), Rays(r)];
        if (r.Swings.Count > 0)
        {
            tables.Add(Swings(r));
        }
        if (r.Holding is { } holding)
        {
            tables.Add(Holding(holding));
        }
        if (r.Curl is { } curl)
        {
            tables.Add(Curl(curl));
        }
        return tables;
    }

    private static ResultTable Section(WellResult r) =>
        new(
            "section",
            r.HasPotential
                ? "Potential and force along the ray"
                : "Slice work (not a potential) and force along the ray",
            [
                TableColumn.Numbers("radius_m", r.RadiusMetres),
                TableColumn.Numbers(
                    r.HasPotential ? "potential_J" : "slice_work_J",
                    (r.PotentialJoules ?? r.SliceWorkJoules)!
                ),
                TableColumn.Numbers("force_N", r.ForceNewtons),
            ]
        );

    private static ResultTable Rays(WellResult r) =>
        new(
            "rays",
            "Rim of each ray",
            [
                TableColumn.Numbers("angle_rad", [.. r.Rays.Select(x => x.AngleRadians)]),
                TableColumn.Numbers("rim_radius_m", [.. r.Rays.Select(x => x.RimMetres)]),
                TableColumn.Numbers("height_J", [.. r.Rays.Select(x => x.HeightJoules)]),
            ]
        );

    private static ResultTable Swings(WellResult r) =>
        new(
            "swings",
            "Frequency against amplitude",
            [
                TableColumn.Numbers("amplitude_m", [.. r.Swings.Select(s => s.AmplitudeMetres)]),
                TableColumn.Numbers("energy_J", [.. r.Swings.Select(s => s.EnergyJoules)]),
                TableColumn.Numbers("frequency_Hz", [.. r.Swings.Select(s => s.FrequencyHertz)]),
            ]
        );

    private static ResultTable Holding(WellHolding h) =>
        new(
            "holding",
            "Scale of the holding time against pointing noise",
            [
                TableColumn.Numbers("density_m2_Hz", [.. h.Levels.Select(l => l.DensityPerHertz)]),
                TableColumn.Numbers("time_s", [.. h.Levels.Select(l => l.Seconds)]),
            ]
        );

    private static ResultTable Curl(IReadOnlyList<WellCurl> curl) =>
        new(
            "curl",
            "Curl of the field along the ray",
            [
                TableColumn.Numbers("radius_m", [.. curl.Select(c => c.RadiusMetres)]),
                TableColumn.Numbers("in_plane_N_m", [.. curl.Select(c => c.InPlaneNewtonsPerMetre)]),
                TableColumn.Numbers("offset_tilt_N", [.. curl.Select(c => c.OffsetTiltNewtons)]),
                TableColumn.Numbers("offset_tilt_size_N", [.. curl.Select(c => c.OffsetTiltSizeNewtons)]),
            ]
        );
}
