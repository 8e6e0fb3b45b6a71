namespace Lightkeel.Cli;

/// <summary>Exit codes of the program.</summary>
internal static class ExitCode
{
    public const int Done = 0;

    /// <summary>A fault of the program itself.</summary>
    public const int ProgramFault = 1;

    public const int InputRefused = 2;
    public const int RequirementNotMet = 3;
    public const int AccuracyNotReached = 4;
    public const int Interrupted = 130;
}
