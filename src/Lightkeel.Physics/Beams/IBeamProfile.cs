using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>Shape of a beam: irradiance per watt over the slice plane, normalised over the infinite plane.</summary>
/// <remarks>
/// Profiles are immutable values, safe to share between threads. They describe a collimated slice: the light runs along
/// beam +z and the profile does not change over the depth of the craft.
/// </remarks>
public interface IBeamProfile
{
    /// <summary>The trade's name of the profile, as written in design files.</summary>
    string Kind { get; }

    /// <summary>True when the profile depends only on the distance from its own axis at (0, 0).</summary>
    bool IsAxisymmetric { get; }

    /// <summary>Shortest length over which the profile changes by its own size, m: guides node counts, not results.</summary>
    double FeatureLengthMetres { get; }

    /// <summary>How smooth the profile is.</summary>
    AxisPoint AxisPoint { get; }

    /// <summary>Radius about the axis outside which less than about one millionth of the power flows, m.</summary>
    double ExtentMetres { get; }

    /// <summary>Irradiance per watt, 1/m², on a plane normal to the beam.</summary>
    /// <param name="x">Distance from the axis along beam x, m.</param>
    /// <param name="y">Distance from the axis along beam y, m.</param>
    T UnitIrradiance<T>(T x, T y)
        where T : struct, IScalar<T>;

    /// <summary>Share of the power within a circle about the axis, 0 … 1.</summary>
    /// <param name="radiusMetres">Radius of the circle, m, ≥ 0.</param>
    double EncircledFraction(double radiusMetres);

    /// <summary>Hands the profile to a visitor under its own type, so that kernels are compiled for it.</summary>
    TResult Accept<TResult>(IBeamVisitor<TResult> visitor);
}

/// <summary>Receives a beam profile under its concrete type.</summary>
/// <typeparam name="TResult">What the visit returns.</typeparam>
public interface IBeamVisitor<out TResult>
{
    /// <summary>Called once with the profile.</summary>
    TResult Visit<TProfile>(TProfile profile)
        where TProfile : struct, IBeamProfile;
}

/// <summary>A laser beam at the slice: power, wavelength, profile.</summary>
/// <param name="PowerWatts">Power through the infinite plane, W, in the laser's frame.</param>
/// <param name="WavelengthMetres">Vacuum wavelength in the laser's frame, m.</param>
/// <param name="Profile">Shape of the beam.</param>
public sealed record Beam(double PowerWatts, double WavelengthMetres, IBeamProfile Profile)
{
    /// <summary>Irradiance on a plane normal to the beam, W/m².</summary>
    public double Irradiance(double xMetres, double yMetres) =>
        PowerWatts * Profile.UnitIrradiance(new F64(xMetres), new F64(yMetres)).Value;
}
