using Lightkeel.Numerics.Scalars;

namespace Lightkeel.Physics.Beams;

/// <summary>Looks for places where a beam with negative shares would have negative irradiance.</summary>
internal static class NegativeIrradianceSearch
{
    private const int Radii = 160;
    private const int Azimuths = 96;
    private const double Tolerance = 1e-9;

    /// <summary>Refuses the beam where its irradiance is negative by more than 1e-9 of what the parts add up to there.</summary>
    /// <exception cref="ArgumentException">The irradiance is negative somewhere; the message says where.</exception>
    public static void Refuse(in SumProfile beam)
    {
        (double x, double y, double share) lowest = (0, 0, double.PositiveInfinity);
        // Rings about every part, out to where all parts have died away, so that a broad negative part is met in the far tail too.
        foreach (BeamPart centre in beam.Parts)
        {
            for (int i = 0; i <= Radii; i++)
            {
                double rho = 4 * beam.ExtentMetres * Math.Pow((double)i / Radii, 1.5);
                for (int j = 0; j < Azimuths; j++)
                {
                    (double s, double c) = Math.SinCos(2 * Math.PI * j / Azimuths);
                    lowest = Lower(beam, lowest, centre.OffsetXMetres + rho * c, centre.OffsetYMetres + rho * s);
                }
            }
        }
        lowest = Refine(beam, lowest);
        if (lowest.share < -Tolerance)
        {
            throw new ArgumentException(
                FormattableString.Invariant(
                    $"The irradiance is negative near x = {lowest.x:G4} m, y = {lowest.y:G4} m: a negative share is not covered there by the other parts. Lower its size, or narrow that part."
                )
            );
        }
    }

    private static (double X, double Y, double Share) Refine(
        in SumProfile beam,
        (double x, double y, double share) lowest
    )
    {
        for (double step = 0.02 * beam.ExtentMetres; step > 1e-6 * beam.ExtentMetres; step *= 0.7)
        {
            (double x, double y, _) = lowest;
            lowest = Lower(beam, lowest, x + step, y);
            lowest = Lower(beam, lowest, x - step, y);
            lowest = Lower(beam, lowest, x, y + step);
            lowest = Lower(beam, lowest, x, y - step);
        }
        return lowest;
    }

    private static (double X, double Y, double Share) Lower(
        in SumProfile beam,
        (double, double, double Share) lowest,
        double x,
        double y
    )
    {
        double sum = 0;
        double size = 0;
        foreach (BeamPart part in beam.Parts)
        {
            F64 dx = new(x - part.OffsetXMetres);
            F64 dy = new(y - part.OffsetYMetres);
            double value = part.Share * part.Profile.UnitIrradiance(dx, dy).Value;
            sum += value;
            size += Math.Abs(value);
        }
        double share = size > 1e-200 ? sum / size : double.PositiveInfinity;
        return share < lowest.Share ? (x, y, share) : lowest;
    }
}
