using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Units;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Constants and units, as design files are read.</summary>
internal static class ConstantChecks
{
    private const string Brochure = "SI Brochure, 9th edition (2019), exact";

    private static readonly ExpectedOrigin Table = ExpectedOrigin.Read("constants of SciPy 1.10.1 (CODATA 2018)");

    public static CheckModule Module() =>
        new(
            "constants",
            "Constants and units",
            [
                new("CON-01", "Speed of light")
                {
                    Source = Brochure,
                    Origin = Table,
                    Expected = [299792458],
                    Unit = "m/s",
                    Tolerance = 0,
                    Compute = () => [Illumination.LightSpeed],
                },
                new("CON-02", "Astronomical unit")
                {
                    Source = "IAU 2012 Resolution B2, exact",
                    Origin = Table,
                    Expected = [149597870700],
                    Unit = "m",
                    Tolerance = 0,
                    Compute = () => [Quantity.Parse("1 AU", Dimension.OfLength)],
                },
                new("CON-03", "Degree, minute and second of arc")
                {
                    Source = "SI Brochure, 9th edition (2019), table 8",
                    Origin = Origins.ClosedForm,
                    Parts = ["deg", "arcmin", "arcsec"],
                    Expected = [0.017453292519943295, 0.00029088820866572159, 4.84813681109536e-06],
                    Unit = "rad",
                    Tolerance = 3e-16,
                    Compute = () =>
                        [
                            Quantity.Parse("1 deg", Dimension.OfAngle),
                            Quantity.Parse("1 arcmin", Dimension.OfAngle),
                            Quantity.Parse("1 arcsec", Dimension.OfAngle),
                        ],
                },
                new("CON-04", "Day, hour and minute")
                {
                    Source = "SI Brochure, 9th edition (2019), table 8",
                    Origin = Table,
                    Parts = ["d", "h", "min"],
                    Expected = [86400, 3600, 60],
                    Unit = "s",
                    Tolerance = 0,
                    Compute = () =>
                        [
                            Quantity.Parse("1 d", Dimension.OfTime),
                            Quantity.Parse("1 h", Dimension.OfTime),
                            Quantity.Parse("1 min", Dimension.OfTime),
                        ],
                },
                new("CON-05", "Revolutions per minute as a frequency", "7200 rpm")
                {
                    Source = "definition of the minute",
                    Origin = Origins.ClosedForm,
                    Expected = [120],
                    Unit = "Hz",
                    Tolerance = 0,
                    Compute = () => [Quantity.Parse("7200 rpm", Dimension.OfFrequency)],
                },
                new("CON-06", "Areal density of a film", "0.35 g/m^2")
                {
                    Source = "SI Brochure, 9th edition (2019), prefixes",
                    Origin = Origins.ClosedForm,
                    Expected = [3.5e-4],
                    Unit = "kg/m^2",
                    Tolerance = 3e-16,
                    Compute = () => [Quantity.Parse("0.35 g/m^2", Dimension.OfArealDensity)],
                },
                new("CON-07", "Irradiance in laboratory units", "1 mW/cm^2")
                {
                    Source = "SI Brochure, 9th edition (2019), prefixes",
                    Origin = Origins.ClosedForm,
                    Expected = [10],
                    Unit = "W/m^2",
                    Tolerance = 3e-16,
                    Compute = () => [Quantity.Parse("1 mW/cm^2", Dimension.OfIrradiance)],
                },
                new("CON-08", "Speed as a share of that of light", "0.2 c")
                {
                    Source = Brochure,
                    Origin = Origins.ClosedForm,
                    Expected = [59958491.6],
                    Unit = "m/s",
                    Tolerance = 3e-16,
                    Compute = () => [Quantity.Parse("0.2 c", Dimension.OfSpeed)],
                },
            ]
        );
}
