using BenchmarkDotNet.Running;
using Lightkeel.Benchmarks;

if (args is ["paired"])
{
    PairedRun.Print();
}
else
{
    BenchmarkSwitcher.FromAssembly(typeof(PressureBenchmarks).Assembly).Run(args);
}
