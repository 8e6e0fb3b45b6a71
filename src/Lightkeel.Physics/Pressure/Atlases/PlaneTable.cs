using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>The table of a ball in a beam without symmetry. See <see cref="PressureAtlas"/>. Derivatives are those of quadrature.</summary>
internal sealed class PlaneTable(AtlasContent content, IPressureEngine outside, double powerWatts) : IPressureEngine
{
    private readonly AtlasPieces _plain = new(content.Plain);
    private readonly AtlasPieces _scaled = new(content.Scaled);
    private readonly AtlasPieces _plainSlants = new(content.PlainSlants);
    private readonly AtlasPieces _scaledSlants = new(content.ScaledSlants);
    private readonly double _perOffset = 1 / content.OffsetMetres;
    private readonly double _largestSlant = AtlasLight.LargestSlant(content.Accuracy);
    private readonly double _error = content.Report.LargestMiss * AtlasRefinement.Safety + outside.Accuracy;

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy { get; } = content.Accuracy;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        AtlasLight.On(pose.VelocityMetresPerSecond, out AtlasLight light);
        double x = _perOffset * pose.OffsetXMetres;
        double y = _perOffset * pose.OffsetYMetres;
        bool isPlain = pose.BeamScale == 1;
        double w = isPlain ? 1 : 1 / pose.BeamScale;
        AtlasPiece? piece = (isPlain ? _plain : _scaled).At(x, y, w);
        AtlasPiece? slant = light.IsSlanted ? (isPlain ? _plainSlants : _scaledSlants).At(x, y, w) : piece;
        if (piece is null || slant is null || !light.IsWithin(_largestSlant))
        {
            return outside.Evaluate(pose) with { IsHandedOver = true };
        }
        ReadOnlySpan<double> one = [1];
        UnitWrench unit = Read(AtlasLanes.From(piece.Value(x, y, one, w)));
        if (light.IsSlanted)
        {
            var (byX, byY) = slant.Pair(x, y, one, w);
            unit = light.Turned(unit + Read(AtlasLanes.From(light.SlantX * byX + light.SlantY * byY)));
        }
        double watts = powerWatts * light.Doppler;
        double newtons = watts / Illumination.LightSpeed;
        return new(newtons * unit.Force, newtons * unit.Torque, watts * unit.Power, watts * unit.Absorbed, _error);
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose) => outside.Differentiate(pose);

    private static UnitWrench Read(AtlasLanes v) => new(new(v.Q0, v.Q1, v.Q2), new(v.Q3, v.Q4, v.Q5), v.Q6, v.Q7);
}
