namespace Lightkeel.Studies.Archive;

/// <summary>Who computes: told by the host, kept with the pieces, part of no key.</summary>
/// <param name="Tool">Program and version.</param>
/// <param name="Machine">Name of the machine.</param>
/// <param name="StartedUtc">When the run began, as <c>2026-01-31T12:00:00Z</c>.</param>
/// <param name="Threads">Threads that worked.</param>
public sealed record Provenance(string Tool, string Machine, string StartedUtc, int Threads)
{
    /// <summary>Nothing known.</summary>
    public static Provenance Unknown { get; } = new("lightkeel", "", "", 1);
}
