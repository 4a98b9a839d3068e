using System.Globalization;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using FuelHistory.Benchmarks;
using FuelHistory.Benchmarks.LeakDowns;
using FuelHistory.Benchmarks.Simulation;

if (args is ["simulate", ..])
{
    new Scenario(Bench.Model()).Run(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 40);
    return 0;
}

if (args is ["calibration", ..])
{
    new Calibration(Bench.Model()).Run(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 300, args.Length > 2 ? int.Parse(args[2], CultureInfo.InvariantCulture) : 0);
    return 0;
}

if (args is ["simulate-modes", ..])
{
    new Scenario(Bench.Model()).RunModes(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1);
    return 0;
}

if (args is ["leak-downs", ..])
{
    int runs = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 200;
    if (runs > 0)
    {
        LeakTable.Print(runs);
    }

    LeakSpeed.Print();
    return 0;
}

if (args is ["memory"])
{
    MemoryUse.Print();
    return 0;
}

if (args is ["import", ..])
{
    await ImportSpeed.Print(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1_000_000);
    return 0;
}

BenchmarkSwitcher.FromAssembly(typeof(Bench).Assembly).Run(args.Length > 0 ? args : ["--filter", "*"],
    DefaultConfig.Instance.AddJob(Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance)));
return 0;
