using Lightkeel.Numerics;

namespace Lightkeel.Physics.Limits.FilmModes;

/// <summary>One point of the meridian of a film under tension.</summary>
/// <param name="RadiusMetres">Distance from the axis, m.</param>
/// <param name="TangentRadial">Radial part of the unit tangent of the meridian.</param>
/// <param name="TangentAxial">Its axial part.</param>
/// <param name="ArcRate">Length of meridian per unit of parameter, m.</param>
/// <param name="MeridionalNewtonsPerMetre">Tension along the meridian, N/m; negative presses.</param>
/// <param name="HoopNewtonsPerMetre">Tension around, N/m.</param>
public readonly record struct FilmPoint(
    double RadiusMetres,
    double TangentRadial,
    double TangentAxial,
    double ArcRate,
    double MeridionalNewtonsPerMetre,
    double HoopNewtonsPerMetre
);

/// <summary>A film of revolution under tension, as finite elements see it.</summary>
public sealed record RevolvedMembrane
{
    /// <summary>Ranges of the parameter of the smooth pieces of the meridian, from the inner end outward.</summary>
    public required IReadOnlyList<(double Start, double End)> Pieces { get; init; }

    /// <summary>Place and tension at a parameter of a piece.</summary>
    public required Func<int, double, FilmPoint> At { get; init; }

    /// <summary>Mass per area, kg/m², positive.</summary>
    public required double ArealDensityKilogramsPerSquareMetre { get; init; }

    /// <summary>Young's modulus times thickness, N/m, positive.</summary>
    public required double StretchingNewtonsPerMetre { get; init; }

    /// <summary>Poisson's ratio, 0 … 0.5.</summary>
    public required double PoissonRatio { get; init; }

    /// <summary>Spin about the axis, rad/s.</summary>
    public double SpinRadiansPerSecond { get; init; }

    /// <summary>Inner over outer pressure that stays normal to a closed film, along its front normal, Pa.</summary>
    public double PressurePascals { get; init; }

    /// <summary>True when the inner end is clamped to something that does not yield.</summary>
    public bool IsInnerHeld { get; init; }

    /// <summary>True when the outer end is.</summary>
    public bool IsRimHeld { get; init; }

    internal void Validate()
    {
        Require.Positive(ArealDensityKilogramsPerSquareMetre);
        Require.Positive(StretchingNewtonsPerMetre);
        Require.Between(PoissonRatio, 0, 0.5);
        Require.Finite(SpinRadiansPerSecond);
        Require.Finite(PressurePascals);
    }
}

/// <summary>A frequency of a film of revolution.</summary>
/// <param name="Waves">Waves around the axis.</param>
/// <param name="RadiansPerSecond">
/// Angular frequency in the frame that turns with the film, rad/s. With spin its sign tells the way of the wave: positive runs with the
/// spin, negative against it; from outside it is seen at this plus waves times spin.
/// </param>
/// <param name="RelativeChange">Change of it by half as many elements again: what the elements leave open.</param>
public readonly record struct FilmFrequency(int Waves, double RadiansPerSecond, double RelativeChange);
