using System.Collections.Frozen;

namespace Lightkeel.Physics.Units;

/// <summary>What people call a dimension, with an example of how a value of it is written.</summary>
/// <param name="Name">The name with its article, for instance <c>a length</c>.</param>
/// <param name="Example">A value as it is written in a file, for instance <c>1.2 m</c>.</param>
/// <param name="Unit">The unit that values are shown in, for instance <c>m</c>.</param>
/// <param name="TakesPrefix">True when a decimal prefix before that unit helps reading.</param>
public sealed record DimensionName(string Name, string Example, string Unit, bool TakesPrefix)
{
    private static readonly FrozenDictionary<Dimension, DimensionName> Known = new Dictionary<Dimension, DimensionName>
    {
        [Dimension.None] = new("a pure number", "0.5", "", false),
        [Dimension.OfLength] = new("a length", "1.2 m", "m", true),
        [new(Length: 2)] = new("an area", "4.5 m^2", "m^2", false),
        [new(Length: 3)] = new("a volume", "0.1 m^3", "m^3", false),
        [Dimension.OfMass] = new("a mass", "2.4 g", "g", true),
        [Dimension.OfTime] = new("a time", "120 s", "s", false),
        [Dimension.OfTemperature] = new("a temperature", "300 K", "K", false),
        [Dimension.OfAngle] = new("an angle", "62 deg", "deg", false),
        [Dimension.OfFrequency] = new("a frequency", "200 Hz", "Hz", true),
        [Dimension.OfAngularRate] = new("an angular rate", "2 rad/s", "rad/s", false),
        [Dimension.OfRate] = new("a rate", "0.1 1/s", "1/s", false),
        [Dimension.OfSpeed] = new("a speed", "2 cm/s", "m/s", true),
        [Dimension.OfAcceleration] = new("an acceleration", "9.81 m/s^2", "m/s^2", false),
        [Dimension.OfArealDensity] = new("a mass per area", "0.35 g/m^2", "g/m^2", false),
        [Dimension.OfDensity] = new("a mass per volume", "2200 kg/m^3", "kg/m^3", false),
        [Dimension.OfMomentOfInertia] = new("a moment of inertia", "1.4e-3 kg m^2", "kg m^2", false),
        [Dimension.OfPower] = new("a power", "300 MW", "W", true),
        [Dimension.OfIrradiance] = new("a power per area", "10 GW/m^2", "W/m^2", true),
        [Dimension.OfForce] = new("a force", "2 N", "N", true),
        [Dimension.OfEnergy] = new("an energy", "5 J", "J", true),
        [Dimension.OfPressure] = new("a pressure", "3 GPa", "Pa", true),
        [Dimension.OfLengthSpectralDensity] = new("a spectral density of a length", "1e-8 m^2/Hz", "m^2/Hz", false),
        [Dimension.OfAngleSpectralDensity] = new("a spectral density of an angle", "1e-18 rad^2/Hz", "rad^2/Hz", false),
        [Dimension.OfRelativeSpectralDensity] = new("a relative spectral density", "1e-10 1/Hz", "1/Hz", false),
        [Dimension.OfConductivity] = new("a thermal conductivity", "1.4 W/(m K)", "W/(m K)", false),
        [Dimension.OfSpecificHeat] = new("a heat capacity per mass", "700 J/(kg K)", "J/(kg K)", false),
    }.ToFrozenDictionary();

    /// <summary>The dimensions that have a name of their own.</summary>
    public static IReadOnlyCollection<Dimension> Dimensions => Known.Keys;

    /// <summary>The name of a dimension; for one without a name of its own, its coherent unit serves.</summary>
    /// <param name="dimension">Any dimension.</param>
    public static DimensionName Of(Dimension dimension) =>
        Known.TryGetValue(dimension, out DimensionName? name)
            ? name
            : new($"a quantity in {dimension}", $"1 {dimension}", dimension.ToString(), false);

    /// <summary>The name with its example: <c>a length such as "1.2 m"</c>.</summary>
    public string WithExample => Unit.Length == 0 ? $"{Name} such as {Example}" : $"{Name} such as \"{Example}\"";
}
