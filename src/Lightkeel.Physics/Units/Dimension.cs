using System.Text;

namespace Lightkeel.Physics.Units;

/// <summary>Powers of the base dimensions of a physical quantity, with angle and cycle kept as tags of their own.</summary>
/// <remarks>
/// The International System of Units treats the radian and the cycle as the number one. Here they are told apart, so that
/// a plain number is never taken for an angle, nor radians per second for hertz. Plain value; safe to share.
/// </remarks>
/// <param name="Length">Power of length (m).</param>
/// <param name="Mass">Power of mass (kg).</param>
/// <param name="Time">Power of time (s).</param>
/// <param name="Temperature">Power of thermodynamic temperature (K).</param>
/// <param name="Angle">Power of plane angle (rad).</param>
/// <param name="Cycle">Power of cycle, so that hertz is cycle per second.</param>
public readonly record struct Dimension(
    short Length = 0,
    short Mass = 0,
    short Time = 0,
    short Temperature = 0,
    short Angle = 0,
    short Cycle = 0
)
{
    /// <summary>A pure number.</summary>
    public static Dimension None => default;

    /// <summary>Length, in m.</summary>
    public static Dimension OfLength => new(Length: 1);

    /// <summary>Mass, in kg.</summary>
    public static Dimension OfMass => new(Mass: 1);

    /// <summary>Time, in s.</summary>
    public static Dimension OfTime => new(Time: 1);

    /// <summary>Thermodynamic temperature, in K.</summary>
    public static Dimension OfTemperature => new(Temperature: 1);

    /// <summary>Plane angle, in rad.</summary>
    public static Dimension OfAngle => new(Angle: 1);

    /// <summary>Cycles per time, in Hz.</summary>
    public static Dimension OfFrequency => new(Time: -1, Cycle: 1);

    /// <summary>Angle per time, in rad/s.</summary>
    public static Dimension OfAngularRate => new(Time: -1, Angle: 1);

    /// <summary>Growth or decay per time, in 1/s.</summary>
    public static Dimension OfRate => new(Time: -1);

    /// <summary>Speed, in m/s.</summary>
    public static Dimension OfSpeed => new(Length: 1, Time: -1);

    /// <summary>Acceleration, in m/s².</summary>
    public static Dimension OfAcceleration => new(Length: 1, Time: -2);

    /// <summary>Mass per area, in kg/m².</summary>
    public static Dimension OfArealDensity => new(Length: -2, Mass: 1);

    /// <summary>Mass per volume, in kg/m³.</summary>
    public static Dimension OfDensity => new(Length: -3, Mass: 1);

    /// <summary>Moment of inertia, in kg m².</summary>
    public static Dimension OfMomentOfInertia => new(Length: 2, Mass: 1);

    /// <summary>Power, in W.</summary>
    public static Dimension OfPower => new(Length: 2, Mass: 1, Time: -3);

    /// <summary>Power per area, in W/m².</summary>
    public static Dimension OfIrradiance => new(Mass: 1, Time: -3);

    /// <summary>Force, in N.</summary>
    public static Dimension OfForce => new(Length: 1, Mass: 1, Time: -2);

    /// <summary>Energy, in J.</summary>
    public static Dimension OfEnergy => new(Length: 2, Mass: 1, Time: -2);

    /// <summary>Pressure or stress, in Pa.</summary>
    public static Dimension OfPressure => new(Length: -1, Mass: 1, Time: -2);

    /// <summary>Spectral density of a length, in m²/Hz.</summary>
    public static Dimension OfLengthSpectralDensity => new(Length: 2, Time: 1, Cycle: -1);

    /// <summary>Spectral density of an angle, in rad²/Hz.</summary>
    public static Dimension OfAngleSpectralDensity => new(Time: 1, Angle: 2, Cycle: -1);

    /// <summary>Spectral density of a relative quantity, in 1/Hz.</summary>
    public static Dimension OfRelativeSpectralDensity => new(Time: 1, Cycle: -1);

    /// <summary>Heat capacity per mass, in J/(kg K).</summary>
    public static Dimension OfSpecificHeat => new(Length: 2, Time: -2, Temperature: -1);

    /// <summary>Thermal conductivity.</summary>
    public static Dimension OfConductivity => new(Length: 1, Mass: 1, Time: -3, Temperature: -1);

    /// <summary>The dimension of a product.</summary>
    public static Dimension operator *(Dimension a, Dimension b) => a.Plus(b, 1);

    /// <summary>The dimension of a quotient.</summary>
    public static Dimension operator /(Dimension a, Dimension b) => a.Plus(b, -1);

    /// <summary>The dimension of a power.</summary>
    /// <param name="exponent">The whole exponent.</param>
    public Dimension Power(int exponent) => None.Plus(this, exponent);

    /// <summary>The largest power, without sign.</summary>
    internal int LargestPower =>
        Math.Max(
            Math.Max(Math.Max(Math.Abs((int)Length), Math.Abs((int)Mass)), Math.Abs((int)Time)),
            Math.Max(Math.Max(Math.Abs((int)Temperature), Math.Abs((int)Angle)), Math.Abs((int)Cycle))
        );

    /// <summary>The coherent unit of the dimension, for instance <c>kg m^2/s^3</c>; <c>1</c> for a pure number.</summary>
    public override string ToString()
    {
        // Seconds that are divided by a cycle are written as hertz, the way engineers do.
        int hertz = Cycle;
        int second = Time + Cycle;
        (string Symbol, int Power)[] all =
        [
            ("kg", Mass),
            ("m", Length),
            ("rad", Angle),
            ("K", Temperature),
            ("s", second),
            ("Hz", hertz),
        ];
        string over = Join(all.Where(p => p.Power > 0).Select(p => (p.Symbol, p.Power)));
        (string Symbol, int Power)[] below = [.. all.Where(p => p.Power < 0).Select(p => (p.Symbol, -p.Power))];
        string under = below.Length > 1 ? "(" + Join(below) + ")" : Join(below);
        return (over, under) switch
        {
            ("", "") => "1",
            (_, "") => over,
            ("", _) => "1/" + under,
            _ => over + "/" + under,
        };
    }

    private static string Join(IEnumerable<(string Symbol, int Power)> factors)
    {
        StringBuilder text = new();
        foreach ((string symbol, int power) in factors)
        {
            text.Append(text.Length > 0 ? " " : "").Append(symbol);
            if (power != 1)
            {
                text.Append('^').Append(power);
            }
        }
        return text.ToString();
    }

    private Dimension Plus(Dimension other, int times) =>
        new(
            (short)(Length + times * other.Length),
            (short)(Mass + times * other.Mass),
            (short)(Time + times * other.Time),
            (short)(Temperature + times * other.Temperature),
            (short)(Angle + times * other.Angle),
            (short)(Cycle + times * other.Cycle)
        );
}
