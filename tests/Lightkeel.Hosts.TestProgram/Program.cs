using System.Runtime.Intrinsics;
using Lightkeel.Cli;
using Lightkeel.Hosts.TestProgram;

if (args is ["vector-bits"])
{
    // What the kernel asks at start-up, seen from a process with the same switches.
    int bits =
        Vector512.IsHardwareAccelerated ? 512
        : Vector256.IsHardwareAccelerated ? 256
        : 128;
    Console.Out.Write(bits.ToString(System.Globalization.CultureInfo.InvariantCulture));
    return 0;
}

return CommandLineHost.Run(args, ArtificialServices.Create(), HostConsole.OfProcess());
