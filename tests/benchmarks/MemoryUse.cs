using System.Diagnostics;
using FuelHistory.Core.Assessment;

namespace FuelHistory.Benchmarks;

/// <summary>Heap while assessments are made, and what stays afterwards. The highest heap holds garbage that nothing has asked back yet: run it with
/// DOTNET_GCHeapHardLimit (hexadecimal bytes) to see what it can do with.</summary>
internal static class MemoryUse
{
    public static void Print()
    {
        CompiledModel model = Bench.Model();
        foreach ((string name, AssessmentInput input) in new[] { ("one stretch", Bench.Input()), ("four stretches", Bench.FourStretches()) })
        {
            Assess.Run(model, input);
            Measure(model, input, name, 5);
        }
    }

    private static void Measure(CompiledModel model, AssessmentInput input, string name, int runs)
    {
        long before = GC.GetTotalMemory(true), allocated = GC.GetTotalAllocatedBytes(), highest = before;
        using var done = new CancellationTokenSource();
        var watch = new Thread(() =>
        {
            while (!done.Token.WaitHandle.WaitOne(1))
            {
                highest = Math.Max(highest, GC.GetTotalMemory(false));
            }
        });
        watch.Start();
        var clock = Stopwatch.StartNew();
        for (int i = 0; i < runs; i++)
        {
            Assess.Run(model, input);
        }

        double each = clock.Elapsed.TotalMilliseconds / runs;
        done.Cancel();
        watch.Join();
        Console.WriteLine($"{name}, {input.Car.Findings.Count} findings: {each:0} ms; heap at most {highest / 1e6:0} MB, afterwards {GC.GetTotalMemory(true) / 1e6:0} MB; {(GC.GetTotalAllocatedBytes() - allocated) / 1e6 / runs:0} MB allocated each time");
    }
}
