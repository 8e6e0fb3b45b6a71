using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>
/// Force, torque and power in general poses against the table of an independent program, benchmarks/peers/oracles. Rows
/// whose light the program follows only once, while an open shell would catch it again, are left out.
/// </summary>
internal static class PeerChecks
{
    private static readonly string[] Parts =
    [
        "F_x/|F|",
        "F_y/|F|",
        "F_z/|F|",
        "T_x/(|F| L)",
        "T_y/(|F| L)",
        "T_z/(|F| L)",
        "power",
    ];

    public static readonly ExpectedOrigin Program = ExpectedOrigin.Computed(
        "benchmarks/peers/oracles/oracle_values.py (NumPy 1.24.2, SciPy 1.10.1, mpmath 1.2.1), two routes that agree"
    );

    public static CheckModule Module() =>
        new(
            "light-pressure-peers",
            "Light pressure in general poses",
            [.. PeerRow.All().Where(row => row.IsExact).Select(Check)]
        );

    private static OutsideCheck Check(PeerRow row, int index) =>
        Against(
            row,
            FormattableString.Invariant($"PER-{index + 1:00}"),
            "Force, torque and power",
            1e-11,
            row.Quadrature
        );

    /// <summary>A check of an engine in the pose of a row.</summary>
    public static OutsideCheck Against(
        PeerRow row,
        string id,
        string quantity,
        double tolerance,
        Func<IPressureEngine> engine
    )
    {
        double length = row.Force.Length;
        double reach = row.ReachMetres;
        return new(id, quantity, Words(row))
        {
            Source = "element force integrated over the surface by an independent program",
            Origin = Program,
            Parts = Parts,
            Expected =
            [
                .. Scenes.Components(1 / length * row.Force),
                .. Scenes.Components(1 / (length * reach) * row.Torque),
                1,
            ],
            Size = 1,
            Tolerance = tolerance,
            Compute = () =>
            {
                PressureReading r = engine().Evaluate(row.Pose);
                return
                [
                    .. Scenes.Components(1 / length * r.ForceNewtons),
                    .. Scenes.Components(1 / (length * reach) * r.TorqueNewtonMetres),
                    r.InterceptedWatts / row.Number("intercepted_W"),
                ];
            },
        };
    }

    private static string Words(PeerRow row) =>
        FormattableString.Invariant(
            $"{row.Id}: at ({row.Number("x_m"):G4}, {row.Number("y_m"):G4}) m, tilts ({row.Number("tilt_x_rad"):G4}, {row.Number("tilt_y_rad"):G4}) rad"
        );
}
