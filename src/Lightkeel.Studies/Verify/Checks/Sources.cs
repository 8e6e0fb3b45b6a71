namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Publications that several checks name.</summary>
internal static class Sources
{
    public const string Relativity =
        "Annalen der Physik 322, 891 (1905), sections 7 and 8, doi:10.1002/andp.19053221004";

    public const string Boost =
        "Nature 211, 22 (1966), doi:10.1038/211022a0; Nature 213, 588 (1967); The Astronomical Journal 155, 155 (2018), doi:10.3847/1538-3881/aaafd2";

    public const string Lasers = "Lasers (University Science Books, 1986), chapter 17; ISO 11146-1 (second moments)";

    public const string SolarSailing = "Solar Sailing (Springer, 1999), chapter 2, doi:10.1007/978-1-4471-3992-8";

    public const string ElementForce =
        "direct integration of the force on an element, as in Solar Sailing (Springer, 1999), chapter 2";

    public const string Riding = "direct integration over the beam, docs/theory/riding.md";

    public const string BallKernel =
        "potential of a ball, (R/c) times the integral of I over its shadow with the kernel (2/3) q^3 (mirror), docs/theory/riding.md";

    public const string InertiaTables = "standard tables of moments of inertia in textbooks of mechanics";

    public const string TestProblems = "SIAM Journal on Numerical Analysis 9, 603 (1972), doi:10.1137/0709052";

    public const string Mechanics = "Mechanics (Course of Theoretical Physics 1, 3rd ed. 1976)";

    public const string ClassicalMechanics = "Classical Mechanics (Addison-Wesley, 3rd ed. 2002)";

    public const string Electrodynamics = "Classical Electrodynamics (Wiley, 3rd ed. 1999), section 11.8";

    public const string Mathieu =
        "Handbook of Mathematical Functions (1964), table 20.1; Digital Library of Mathematical Functions, 28.2 and 28.6";

    public const string Windows = "Proceedings of the IEEE 66, 51 (1978), table I, doi:10.1109/PROC.1978.10837";

    public const string Tilt =
        "Journal of the Optical Society of America A 11, 358 (1994), doi:10.1364/JOSAA.11.000358";

    public const string Survival =
        "Blood 21, 699 (1963), remission times: the worked example of many textbooks of survival analysis";

    public const string Functions = "Digital Library of Mathematical Functions, chapters 4, 7 and 10";

    public const string Distributions = "definition of the distribution";

    public const string StefanBoltzmann =
        "law of Stefan and Boltzmann with the constants of the SI Brochure, 9th edition";

    public const string HeatTransfer = "Fundamentals of Heat and Mass Transfer (Wiley), chapters 5, 12 and 13";

    public const string HeatTheory = "energy balance by hand, docs/theory/heat.md";

    public const string PlatesAndShells = "Theory of Plates and Shells (2nd ed. 1959), chapters 3, 5 and 14";

    public const string Elasticity = "Theory of Elasticity (3rd ed. 1970), section 32 and chapter 13";

    public const string ElasticStability = "Theory of Elastic Stability (2nd ed. 1961), chapters 2, 9 and 11";

    public const string FlatMembrane =
        "Zeitschrift fuer Mathematik und Physik 63, 311 (1915): flat membrane, rim held, even load; as two ordinary differential equations";

    public const string Elastica = "Quarterly of Applied Mathematics 3, 272 (1945)";

    public const string Beams =
        "Formulas for Natural Frequency and Mode Shape (1979), chapter 8: frequency equations of beams";

    public const string PlateVibration =
        "frequency equations of circular plates, Vibration of Plates (1969), chapter 2 (its table for the free rim is off by up to 0.4 %)";

    public const string SpinningDisc = "Proceedings of the Royal Society A 99, 272 (1921), doi:10.1098/rspa.1921.0042";

    public const string Drum =
        "The Theory of Sound (2nd ed. 1894), chapter 9; Digital Library of Mathematical Functions, 10.21";

    public const string SphereShell = "Proceedings of the London Mathematical Society 14, 50 (1882)";

    public const string BentShell =
        "bending without stretching, Proceedings of the London Mathematical Society 13, 4 (1881), in Rayleigh's quotient with spin, docs/theory/strength.md";
}
