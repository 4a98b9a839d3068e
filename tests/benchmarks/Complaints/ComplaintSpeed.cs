using System.Diagnostics;
using System.Globalization;
using FuelHistory.Benchmarks.Simulation;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>The table of figures of speed: processor time of one assessment and one advice over many complaints (all threads together, so that
/// other work on the machine counts little), memory after all of them, and what a long record costs.</summary>
internal sealed class ComplaintSpeed
{
    private const int Invented = 20, ManyEntries = 480, WarmUps = 4;

    private static readonly string[] Systems = [
        "continuous-mechanical", "continuous-electro-hydraulic", "port-manifold-pressure", "port-airflow", "single-point", "carburettor", "diesel-mechanical"];

    private readonly Dictionary<string, FaultModel> _sources = Systems.ToDictionary(s => s, s => Bench.Model(s).Source);
    private readonly List<Case> _cases = [];

    private sealed record Case(string Name, string System, AssessmentInput Input);

    private sealed record Took(Case Case, double New, double Warm, double Advice, bool Exact);

    /// <param name="encoded">A folder of cases kept as files of requests, or null.</param>
    public static async Task Print(string? encoded)
    {
        if (Environment.ProcessorCount > 1)
        {
            await OneProcessor.Again("complaints", encoded);
            return;
        }

        var speed = new ComplaintSpeed();
        var lots = Systems.ToDictionary(s => s, s => new CarLot(speed._sources[s]));
        speed._cases.AddRange(Enumerable.Range(0, Invented).Select(i => new Case($"invented-{i:00}", Systems[i % Systems.Length], InventedComplaint.Of(lots[Systems[i % Systems.Length]], i))));
        if (encoded is not null)
        {
            speed._cases.AddRange((await EncodedCases.Of(encoded)).Select(c => new Case(c.Name, c.System, c.Input)));
        }

        speed.Run();
    }

    private void Run()
    {
        // 1. all of them several times, as in a host that has been in use: the code is compiled and tuned before anything is timed
        Memory();

        // 2. each by itself
        double floor = Floor();
        Took[] took = [.. _cases.Select(Time)];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"floor: one pass over a million numbers, {floor:0.00} ms"));
        foreach (Took t in took)
        {
            AssessmentInput input = t.Case.Input;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{t.Case.Name,-13} {t.Case.System,-29} findings {input.Car.Findings.Count,3}, work {input.Car.Work.Count,2}: new {t.New,6:0} ms  warm {t.Warm,6:0} ms  advice {t.Advice,6:0} ms{(t.Exact ? "" : "  not exact")}"));
        }

        Console.WriteLine();
        Console.WriteLine("processor time, ms        |  median |   90 % |  worst | times the floor: median, worst");
        Row("assessment, new shape", [.. took.Select(t => t.New)], floor);
        Row("assessment, known shape", [.. took.Select(t => t.Warm)], floor);
        Row("advice", [.. took.Select(t => t.Advice)], floor);
        LongRecord();
        NotExact.PrintRough(_cases.Select(c => (c.Name, _sources[c.System], c.Input)));
        NotExact.Print(_cases.Select(c => (c.Name, _sources[c.System], c.Input)));
    }

    private static void Row(string what, double[] values, double floor)
    {
        Array.Sort(values);
        double median = values[values.Length / 2], ninth = values[(int)(0.9 * (values.Length - 1))], worst = values[^1];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-25} | {median,7:0} | {ninth,6:0} | {worst,6:0} | {median / floor:0}, {worst / floor:0}"));
    }

    /// <summary>Its own fault model, so that no shape is known; then another outcome of the same shape; then what to do next.</summary>
    private Took Time(Case c)
    {
        GC.Collect();
        var model = new CompiledModel(_sources[c.System]);
        AssessmentResult? result = null;
        double fresh = Cpu(() => result = Assess.Run(model, c.Input));
        double advice = Cpu(() => Assess.Advise(model, c.Input));
        double warm = Cpu(() => Assess.Run(model, Changed(c.Input)));
        return new Took(c, fresh, warm, advice, result is Answered { Exact: true });
    }

    /// <summary>The newest finding with other numbers, of which the network's shape does not change.</summary>
    private static AssessmentInput Changed(AssessmentInput input)
    {
        Observation last = input.Car.Findings[^1];
        Observation other = last with { Id = $"{last.Id}-again", Sure = !last.Sure, Value = last.Value * 1.01, Points = [.. last.Points.Select(p => p with { Bar = p.Bar * 1.01 })] };
        return input with { Car = input.Car with { Findings = [.. input.Car.Findings.SkipLast(1), other] } };
    }

    private static double Cpu(Action work)
    {
        TimeSpan before = Environment.CpuUsage.TotalTime;
        work();
        return (Environment.CpuUsage.TotalTime - before).TotalMilliseconds;
    }

    private static double Floor()
    {
        double[] table = [.. Enumerable.Repeat(0.5, 1_000_000)];
        return Enumerable.Range(0, 20).Select(_ => Cpu(() =>
        {
            double sum = 0;
            for (int i = 0; i < table.Length; i++)
            {
                sum += table[i];
            }

            GC.KeepAlive(sum);
        })).Order().ElementAt(10);
    }

    private void Memory()
    {
        var models = Systems.ToDictionary(s => s, s => new CompiledModel(_sources[s]));
        foreach (Case c in Enumerable.Repeat(_cases, WarmUps).SelectMany(c => c))
        {
            Assess.Run(models[c.System], c.Input);
            Assess.Advise(models[c.System], c.Input);
        }

        using Process me = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"memory after all {_cases.Count} complaints, seven fault models kept: process {me.WorkingSet64 / 1e6:0} MB, at most {me.PeakWorkingSet64 / 1e6:0} MB; heap {GC.GetTotalMemory(true) / 1e6:0} MB"));
        GC.KeepAlive(models);
    }

    /// <summary>One complaint with hundreds of entries of work before it, and with none.</summary>
    private void LongRecord()
    {
        Case c = _cases[12];
        string[] parts = [.. _sources[c.System].Components.Where(p => !p.Instrument).Select(p => p.Id)];
        WorkFact[] during = [.. c.Input.Car.Work.Where(w => w.Day >= c.Input.Complaint.Since)];
        WorkFact[] many = [.. Enumerable.Range(0, ManyEntries).Select(i => new WorkFact(
            $"many{i}", CarLot.FirstUse.AddDays(400 + (i * 30)), (i % 3) switch { 0 => WorkAction.Fitted, 1 => WorkAction.Cleaned, _ => WorkAction.Inspected },
            [parts[i * 7 % parts.Length]], Known.Invoice, PartQuality.New, new DateTimeOffset(CarLot.FirstUse, default, TimeSpan.Zero)))];
        double[][] took = [.. new[] { during, [.. many, .. during] }.Select(work =>
        {
            AssessmentInput input = c.Input with { Car = c.Input.Car with { Work = work } };
            var model = new CompiledModel(_sources[c.System]);
            return new[] { Cpu(() => Assess.Run(model, input)), Cpu(() => Assess.Run(model, Changed(input))), Cpu(() => Assess.Advise(model, input)) };
        })];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{ManyEntries} entries of work against none: new record {took[1][0]:0} / {took[0][0]:0} ms ({took[1][0] / took[0][0]:0.0} times), new finding {took[1][1]:0} / {took[0][1]:0} ms ({took[1][1] / took[0][1]:0.0} times), advice {took[1][2] / took[0][2]:0.0} times"));
    }
}
