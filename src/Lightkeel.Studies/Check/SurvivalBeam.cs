using Lightkeel.Physics.Beams;

namespace Lightkeel.Studies.Check;

/// <summary>The brightest point of a beam.</summary>
internal static class SurvivalBeam
{
    private const int Samples = 400;
    private const int Around = 64;

    /// <summary>Largest irradiance over the plane, W/m², by samples at a fraction of the beam's features and a local climb.</summary>
    public static double PeakIrradiance(Beam beam)
    {
        double reach = beam.Profile.ExtentMetres;
        int around = beam.Profile.IsAxisymmetric ? 1 : Around;
        (double best, double bestX, double bestY) = (0, 0, 0);
        for (int k = 0; k < around; k++)
        {
            (double s, double c) = Math.SinCos(2 * Math.PI * k / around);
            for (int i = 0; i <= Samples; i++)
            {
                double r = reach * i / Samples;
                double there = beam.Irradiance(r * c, r * s);
                (best, bestX, bestY) = there > best ? (there, r * c, r * s) : (best, bestX, bestY);
            }
        }
        double step = reach / Samples;
        while (step > 1e-9 * reach)
        {
            bool moved = false;
            foreach ((double dx, double dy) in ((double, double)[])[(1, 0), (-1, 0), (0, 1), (0, -1)])
            {
                double there = beam.Irradiance(bestX + step * dx, bestY + step * dy);
                if (there > best)
                {
                    (best, bestX, bestY, moved) = (there, bestX + step * dx, bestY + step * dy, true);
                }
            }
            step *= moved ? 1 : 0.5;
        }
        return best;
    }
}
