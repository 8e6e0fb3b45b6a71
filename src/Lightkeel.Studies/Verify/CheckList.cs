using Lightkeel.Studies.Verify.Checks;

namespace Lightkeel.Studies.Verify;

/// <summary>The checks as delivered, shared by the command <c>verify</c>, the tests and docs/verification.md.</summary>
public static class CheckList
{
    /// <summary>The modules in the order they are shown: adding one adds a file in Checks and a line here.</summary>
    public static IReadOnlyList<CheckModule> Modules() =>
        [
            ConstantChecks.Module(),
            NumericsChecks.Module(),
            IntegratorChecks.Module(),
            RigidBodyChecks.Module(),
            BeamChecks.Module(),
            OpticsChecks.Module(),
            PressureChecks.Module(),
            PeerChecks.Module(),
            AtlasChecks.Module(),
            DampingChecks.Module(),
            RelativityChecks.Module(),
            StabilityChecks.Module(),
            WellChecks.Module(),
            NoiseChecks.Module(),
            EscapeChecks.Module(),
            AirAndSteeringChecks.Module(),
            SamplingChecks.Module(),
            StatisticsChecks.Module(),
            HeatChecks.Module(),
            StrengthChecks.Module(),
            FilmModeChecks.Module(),
            StudyChecks.Module(),
        ];
}
