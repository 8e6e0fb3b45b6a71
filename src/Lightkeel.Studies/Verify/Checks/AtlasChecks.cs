using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Atlases;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>The tabulated engine against the independent program, at poses inside its box.</summary>
internal static class AtlasChecks
{
    // What the atlas proves is force and torque; the power it carries along is no better than a few times this.
    private const double Accuracy = 1e-7;

    public static CheckModule Module() =>
        new(
            "atlas",
            "Tabulated light pressure",
            [
                At("ATL-01", "ball-ring", new(0.8, 0.1)),
                At("ATL-02", "ball-lg11", new(1.3, 0.1)),
                At("ATL-03", "cone-v45-gauss-offset", new(0.4, 0.1)),
                At("ATL-04", "cone-v45-gauss-tilted", new(0.4, 0.1)),
            ]
        );

    private static OutsideCheck At(string id, string name, AtlasBox box)
    {
        PeerRow row = PeerRow.All().First(r => r.Id == name);
        OutsideCheck whole = PeerChecks.Against(
            row,
            id,
            "Force and torque from a table of 1e-7",
            Accuracy,
            () => PressureAtlas.Build(row.Craft, row.Beam, box, Accuracy)
        );
        return whole with
        {
            Parts = [.. whole.Parts.SkipLast(1)],
            Expected = [.. whole.Expected.SkipLast(1)],
            Compute = () => [.. whole.Compute().SkipLast(1)],
        };
    }
}
