using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Designs.Specification;

/// <summary>One number of a design, with the path that addresses it.</summary>
/// <param name="Path">Dotted path, for instance <c>sail.canopy.half_angle</c>.</param>
/// <param name="SiValue">Its value in SI units.</param>
/// <param name="Dimension">Its dimension.</param>
/// <param name="Kind">What it may be.</param>
/// <param name="IsDefault">True when the file does not give it.</param>
/// <param name="Description">What it means, in one sentence.</param>
public sealed record DesignNumber(
    string Path,
    double SiValue,
    Dimension Dimension,
    NumberKind Kind,
    bool IsDefault,
    string Description
);
