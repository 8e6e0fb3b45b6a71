using Lightkeel.Cli;
using Lightkeel.Hosts.TestProgram;

return CommandLineHost.Run(args, ArtificialServices.Create(), HostConsole.OfProcess());
