using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Optics.Films;

namespace Lightkeel.Physics.Pressure;

/// <summary>How one element answers, α b − h n, with its slopes by the cosine μ and by the logarithm of the wavelength.</summary>
internal readonly record struct LocalPush(
    double Along,
    double Normal,
    double AlongByCosine,
    double NormalByCosine,
    double AlongByWavelength,
    double NormalByWavelength
);

/// <summary>The answer of one side of a surface to light of one wavelength, with slopes.</summary>
internal sealed class LocalResponse
{
    // Central difference in ln λ: error about 1e-9 of the share, for a damping that is 1e-8 of the force.
    private const double WavelengthStep = 1e-4;

    private readonly OpticalCoefficients _shares;
    private readonly (FilmCurve At, FilmCurve Shorter, FilmCurve Longer)? _film;
    private readonly double _heat;

    public LocalResponse(SurfaceOptics optics, double stretch)
    {
        _heat = 2.0 / 3 * optics.ThermalAsymmetry;
        if (optics is FilmOptics film)
        {
            _film = (
                film.Curve(stretch),
                film.Curve(stretch * Math.Exp(-WavelengthStep)),
                film.Curve(stretch * Math.Exp(WavelengthStep))
            );
        }
        else
        {
            _shares = optics.At(1, stretch);
        }
    }

    /// <summary>The answer at a cosine of incidence above zero.</summary>
    public LocalPush At(double mu)
    {
        if (_film is not { } film)
        {
            double even = 2.0 / 3 * _shares.Diffuse + _heat * _shares.Absorbed;
            double twice = 2 * _shares.Specular;
            return new(_shares.Diffuse + _shares.Absorbed, twice * mu + even, 0, twice, 0, 0);
        }
        (Dual1 reflected, Dual1 passed) = film.At.Unpolarised(Dual1.Variable(mu, 1));
        Dual1 absorbed = Dual1.Constant(1) - reflected - passed;
        (double r, double slope) = (Dual1.Total(reflected), Dual1.TotalSlope(reflected));
        (double a, double absorbedSlope) = (Dual1.Total(absorbed), Dual1.TotalSlope(absorbed));
        FilmShares shorter = film.Shorter.Unpolarised(mu);
        FilmShares longer = film.Longer.Unpolarised(mu);
        double byWavelength = (longer.Reflected - shorter.Reflected) / (2 * WavelengthStep);
        double absorbedByWavelength = (longer.Absorbed - shorter.Absorbed) / (2 * WavelengthStep);
        return new(
            a,
            2 * r * mu + _heat * a,
            absorbedSlope,
            2 * r + 2 * mu * slope + _heat * absorbedSlope,
            absorbedByWavelength,
            2 * mu * byWavelength + _heat * absorbedByWavelength
        );
    }
}
