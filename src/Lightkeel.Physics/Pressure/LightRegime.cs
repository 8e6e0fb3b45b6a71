using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>x</summary>
public readonly record struct RegimeVerdict(bool IsSingleBounce, string Reason);

/// <summary>x</summary>
public sealed class LightRegime
{
    private readonly bool _x = true;

    /// <summary>x</summary>
    public static LightRegime Assess(SailCraft craft) => new();

    /// <summary>x</summary>
    public RegimeVerdict For(Vec3 direction) => new(_x, "");
}
