using Lightkeel.Cli;

return CommandLineHost.Run(args, StandardServices.Create(), HostConsole.OfProcess());
