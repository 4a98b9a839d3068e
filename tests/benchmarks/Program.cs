using System.Globalization;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;
using FuelHistory.Benchmarks;
using FuelHistory.Benchmarks.Complaints;
using FuelHistory.Benchmarks.LeakDowns;
using FuelHistory.Benchmarks.Simulation;

int[] numbers = [.. args.Skip(1).Where(a => a.All(char.IsAsciiDigit)).Select(a => int.Parse(a, CultureInfo.InvariantCulture))];
switch (args)
{
    case ["simulate", ..]:
        new Scenario(Bench.Named(args)).Run(numbers.Length > 0 ? numbers[0] : 40);
        return 0;
    case ["simulate-orders", ..]:
        new Scenario(Bench.Named(args)).CompareOrders(numbers.Length > 0 ? numbers[0] : 60);
        return 0;
    case ["simulate-modes", ..]:
        new Scenario(Bench.Named(args)).RunModes(numbers.Length > 0 ? numbers[0] : 1);
        return 0;
    case ["calibration", ..]:
        new Calibration(Bench.Named(args)).Run(numbers.Length > 0 ? numbers[0] : 300, numbers.Length > 1 ? numbers[1] : 0);
        return 0;
}

if (args is ["leak-downs", ..])
{
    int runs = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 200;
    foreach (bool drops in new[] { false, true })
    {
        if (runs > 0)
        {
            LeakTable.Print(runs, drops);
        }

        LeakSpeed.Print(drops);
    }

    return 0;
}

if (args is ["keys", ..])
{
    KeyPress.Print(args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 10_000);
    return 0;
}

if (args is ["complaints", ..])
{
    await ComplaintSpeed.Print(args.Length > 1 ? args[1] : null);
    return 0;
}

if (args is ["textbook", ..])
{
    Textbook.Print(args.Skip(1));
    return 0;
}

if (args is ["cases", ..])
{
    await CaseTable.Print(args.Length > 1 ? args[1] : null);
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
