using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.Mission;

/// <summary>What the craft weighs and what that costs. Masses in kg.</summary>
/// <param name="Film">Films.</param>
/// <param name="Boom">Booms and frames.</param>
/// <param name="Payload">What is carried for its own sake.</param>
/// <param name="Joints">Joints, seams and glue, stated beside the parts.</param>
/// <param name="GrowthFraction">Growth allowance over film, boom, payload and joints.</param>
public sealed record MassBudget(double Film, double Boom, double Payload, double Joints, double GrowthFraction)
{
    /// <summary>Sum of the parts without allowance, kg.</summary>
    public double Basic => Require.NotNegative(Film) + Boom + Payload + Joints;

    /// <summary>The allowance, kg.</summary>
    public double Growth => GrowthFraction * Basic;

    /// <summary>Mass to plan with, kg.</summary>
    public double Predicted => Basic + Growth;

    /// <summary>Payload over the mass to plan with; null for a craft without mass.</summary>
    public double? PayloadFraction => Predicted > 0 ? Payload / Predicted : null;
}
