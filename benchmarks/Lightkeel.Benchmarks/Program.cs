using BenchmarkDotNet.Running;
using Lightkeel.Benchmarks;

if (args is ["paired"])
{
    PairedRun.Print();
}
else if (args is ["map", string design])
{
    MapAndAtlasRun.Print(design);
}
else if (args is ["ride", string seconds])
{
    RideRun.Print(double.Parse(seconds, System.Globalization.CultureInfo.InvariantCulture));
}
else if (args is ["escape"])
{
    EscapeRun.Run();
}
else if (args is ["escape", "speed"])
{
    EscapeRun.Speed();
}
else if (args is ["ball", string work])
{
    RideRun.FlyBall(double.Parse(work, System.Globalization.CultureInfo.InvariantCulture));
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(PressureBenchmarks).Assembly).Run(args);
}
