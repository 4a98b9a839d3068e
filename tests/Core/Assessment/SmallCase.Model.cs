using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Core.Life;

namespace FuelHistory.Tests.Core.Assessment;

internal sealed partial class SmallCase
{
    private FaultModel RandomModel()
    {
        Component[] parts = [.. Enumerable.Range(0, 3).Select(i => Part($"p{i}", i == 0 ? 2 : 1))];
        Condition first = Cond("k0", -1, 2, parts.SelectMany(p => p.Modes.Select(m => $"{p.Id}.{m.Id}")).OrderBy(_ => _random.Next()).Take(2));
        Condition second = Cond("k1", -1, 1, parts.SelectMany(p => p.Modes.Select(m => $"{p.Id}.{m.Id}")).OrderBy(_ => _random.Next()).Take(1));
        second = second with { Effects = [.. second.Effects, new Effect { Of = "k0", At = Levels(-1, 2, 1) }] };
        return new FaultModel
        {
            Schema = "fuelhistory/fault-model/1",
            Id = "small",
            Title = "small",
            Revision = "1",
            Sources = new Dictionary<string, Source>(),
            BadWhenFitted = new FittedQuality { New = 0.1, NewUnbranded = 0.1, Rebuilt = 0.1, Used = 0.1, Unknown = 0.1, Source = "m" },
            Told = new ToldWeights { Told = 0.8, Invoice = 0.95, Source = "m" },
            Advice = new AdviceFigures { NoneCost = 500, RatePerMinute = 1, RetestMinutes = 10, Source = "m" },
            Use = new TypicalUse { KmPerYear = 8000, Source = "m" },
            Elsewhere = new Elsewhere { Title = "elsewhere", Prior = 0, P = 0, Source = "m" },
            Tools = [],
            Components = parts,
            Conditions = [first, second],
            When = [new Facet { Id = "cold", Title = "cold" }, new Facet { Id = "hot", Title = "hot" }],
            Events = [new Event { Id = "s0", Title = "s0", Ask = "s0", Kind = "other", Source = "m" }],
            Cells = [Cell("s0a", "s0", "cold", parts), Cell("s0b", "s0", "hot", parts), Cell("s1", null, null, parts)],
            Checks = [Look(parts), Jars(parts)],
        };
    }

    private double P() => _random.Next(8) == 0 ? 1 : 0.1 + (0.8 * _random.NextDouble());

    private static Component Part(string id, int modes) => new()
    {
        Id = id,
        Title = id,
        Source = "m",
        Side = id == "p2" ? "fuel-supply" : "air",
        Moves = id == "p2" ? ["p1"] : [],
        Modes = [.. Enumerable.Range(0, modes).Select(m => new Mode
        {
            Id = $"m{m}", Title = "bad", Source = "m", Contact = m == 0, Unnoticed = 0.02, Visible = m == 0, Life = new LifeFigures { Years = 20, Shape = 2 },
            CuredBy = new Dictionary<string, double> { ["clean"] = 0.6 + (0.1 * m) },
        })],
    };

    private Condition Cond(string id, int min, int max, IEnumerable<string> causes) => new()
    {
        Id = id,
        Title = id,
        Min = min,
        Max = max,
        Source = "m",
        Background = id == "k1" || _random.Next(2) == 0 ? new Dictionary<string, double>() : new Dictionary<string, double> { ["1"] = 0.05, ["-1"] = 0.03 },
        Effects = [.. causes.Select(c => new Effect { Of = c, Adds = Steps(min, max) })],
    };

    private Dictionary<string, double> Steps(int min, int max)
    {
        double share = P() / 2;
        return _random.Next(3) switch
        {
            0 => new() { ["1"] = share, [$"{max}"] = max == 1 ? share : 1 - share },
            1 => new() { ["1"] = share, [$"{min}"] = 1 - share },
            _ => new() { ["1"] = 2 * share },
        };
    }

    private Dictionary<string, IReadOnlyDictionary<string, double>> Levels(int min, int max, int step)
    {
        var rows = new Dictionary<string, IReadOnlyDictionary<string, double>>();
        for (int level = min; level <= max; level++)
        {
            if (level != 0)
            {
                rows[$"{level}"] = new Dictionary<string, double> { [$"{Math.Sign(level) * step}"] = P() };
            }
        }

        return rows;
    }

    private EventCell Cell(string id, string? name, string? when, Component[] parts)
    {
        Component part = parts[_random.Next(parts.Length)];
        return new EventCell
        {
            Id = id,
            Event = name,
            When = when,
            Title = id,
            Ask = id,
            Source = "m",
            Background = _random.Next(5) == 0 ? 0 : 0.05,
            Causes = [
                new Cause { Of = "k1", At = new Dictionary<string, double> { ["-1"] = P(), ["1"] = P() } },
                new Cause { Of = "k0", At = new Dictionary<string, double> { ["1"] = P() / 2, ["2"] = P() } },
                new Cause { Of = $"{part.Id}.{part.Modes[^1].Id}", P = P() / 2 }],
        };
    }

    private Check Look(Component[] parts) => new()
    {
        Id = "look",
        Title = "look",
        Minutes = 5,
        Tools = [],
        Hazard = "none",
        Cautions = [],
        Steps = [],
        Source = "m",
        FalseAlarm = 0.05,
        SeesPart = _random.Next(2) == 0,
        Detects = [new Cause { Of = $"{parts[0].Id}.m0", P = P() }, new Cause { Of = "k0", At = new Dictionary<string, double> { ["-1"] = 0.3, ["2"] = P() } }],
    };

    private static Check Jars(Component[] parts) => new()
    {
        Id = "jars",
        Title = "jars",
        Minutes = 5,
        Tools = [],
        Hazard = "none",
        Cautions = [],
        Steps = [],
        Source = "m",
        Outcomes = [new Outcome { Id = "even", Title = "even" }, new Outcome { Id = "uneven", Title = "uneven" }, new Outcome { Id = "dry", Title = "dry" }],
        Otherwise = new Dictionary<string, double> { ["uneven"] = 0.04, ["dry"] = 0.01 },
        Table = [
            new OutcomeRow { Of = $"{parts[1].Id}.m0", P = new Dictionary<string, double> { ["uneven"] = 0.6, ["dry"] = 0.1 } },
            new OutcomeRow { Of = "k1", At = new Dictionary<string, IReadOnlyDictionary<string, double>> { ["-1"] = new Dictionary<string, double> { ["uneven"] = 0.2, ["dry"] = 0.7 } } }],
    };
}
