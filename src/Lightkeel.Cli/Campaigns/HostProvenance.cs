using System.Globalization;
using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Output;

namespace Lightkeel.Cli.Campaigns;

/// <summary>Who computes, as this process knows it.</summary>
internal static class HostProvenance
{
    public static Provenance Of(CommandServices services, int threads) =>
        new(
            $"{ResultEnvelope.Tool} {services.Version}",
            Environment.MachineName,
            DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            threads
        );
}
