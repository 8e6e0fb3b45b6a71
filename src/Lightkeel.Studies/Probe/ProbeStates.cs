using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Designs.Specification;
using Lightkeel.Studies.Designs.Tables;

namespace Lightkeel.Studies.Probe;

/// <summary>One state to probe, in SI units.</summary>
/// <param name="X">Centre of mass along beam x, m.</param>
/// <param name="Y">Centre of mass along beam y, m.</param>
/// <param name="TiltX">Tilt about beam x, rad.</param>
/// <param name="TiltY">Tilt about beam y, rad.</param>
/// <param name="SpinAngle">Turn about the body axis, rad.</param>
/// <param name="Speed">Axial speed, m/s.</param>
/// <param name="VelocityX">Lateral velocity along beam x, m/s.</param>
/// <param name="VelocityY">Lateral velocity along beam y, m/s.</param>
public readonly record struct ProbeState(
    double X,
    double Y,
    double TiltX = 0,
    double TiltY = 0,
    double SpinAngle = 0,
    double Speed = 0,
    double VelocityX = 0,
    double VelocityY = 0
)
{
    private static readonly ColumnSpec[] Columns =
    [
        new("x", Kind(Dimension.OfLength, Interval.Any), "Centre of mass along beam x.", "x_m"),
        new("y", Kind(Dimension.OfLength, Interval.Any), "Centre of mass along beam y.", "y_m"),
        new("tilt_x", Kind(Dimension.OfAngle, Angles), "Tilt about beam x.", "tilt_x_rad"),
        new("tilt_y", Kind(Dimension.OfAngle, Angles), "Tilt about beam y.", "tilt_y_rad"),
        new("spin_angle", Kind(Dimension.OfAngle, Interval.Any), "Turn about the body axis.", "spin_angle_rad")
        {
            IsOptional = true,
        },
        new("speed", Kind(Dimension.OfSpeed, Speeds), "Axial speed.", "speed_m_s") { IsOptional = true },
        new("vx", Kind(Dimension.OfSpeed, Speeds), "Lateral velocity along beam x.", "vx_m_s") { IsOptional = true },
        new("vy", Kind(Dimension.OfSpeed, Speeds), "Lateral velocity along beam y.", "vy_m_s") { IsOptional = true },
    ];

    private static Interval Angles => Interval.Closed(-Math.PI, Math.PI);

    private static Interval Speeds => Interval.Open(-Illumination.LightSpeed, Illumination.LightSpeed);

    /// <summary>The pose of this state.</summary>
    public CraftPose Pose => CraftPose.From(X, Y, TiltX, TiltY, SpinAngle, new Vec3(VelocityX, VelocityY, Speed));

    /// <summary>Reads states from a CSV file whose header names the units.</summary>
    /// <exception cref="InputRefusedException">The file cannot be read or has faults; all are listed.</exception>
    public static IReadOnlyList<ProbeState> ReadFile(string path)
    {
        if (!Utf8Text.TryReadFile(path, DesignLimits.LargestTableBytes, out byte[]? content, out string? what))
        {
            throw new InputRefusedException(path, $"the file {what}", "expected a CSV table of states");
        }
        if (!Utf8Text.TryDecode(content, out string? text))
        {
            throw new InputRefusedException(path, "the file is not text in UTF-8", "expected a CSV table of states");
        }
        FaultList faults = new();
        FileField field = new("states", Columns, "States to probe.", fewest: 1);
        ColumnData? data = CsvTable.Read(text, path, field, faults);
        if (data is null)
        {
            throw new InputRefusedException([
                .. faults.ToList().Select(f => new InputFault(f.Position.ToString(), f.What, f.Accepted)),
            ]);
        }
        ProbeState[] states = [.. Enumerable.Range(0, data.RowCount).Select(i => Row(data, i))];
        int fast = Array.FindIndex(
            states,
            s => !(new Vec3(s.VelocityX, s.VelocityY, s.Speed).Length < Illumination.LightSpeed)
        );
        return fast < 0
            ? states
            : throw new InputRefusedException(
                $"{path}: state {fast + 1}",
                "the speed reaches that of light",
                "expected a velocity below 299792458 m/s"
            );
    }

    private static ProbeState Row(ColumnData data, int i) =>
        new(
            data["x"][i],
            data["y"][i],
            data["tilt_x"][i],
            data["tilt_y"][i],
            data["spin_angle"][i],
            data["speed"][i],
            data["vx"][i],
            data["vy"][i]
        );

    private static NumberKind Kind(Dimension dimension, Interval range) => NumberKind.Of(dimension, range);
}
