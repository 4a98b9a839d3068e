using System.Globalization;
using System.Text.Json;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>Where the cause that was found stands, case by case and by system: by the assessment, without and with own observations, and by a
/// chart that lists parts by complaint alone. Gates nothing.</summary>
internal static class CaseTable
{
    /// <summary>A share of the complaint below this counts as this in the log score.</summary>
    private const double Least = 0.001;

    private static readonly string Kept = Path.Combine(AppContext.BaseDirectory, "cases");

    private sealed record Row(string Case, string System, int? Chart, int? Plain, int? Own, double Score);

    /// <param name="folder">Cases kept as files of requests with their cause; null: those of the tests.</param>
    public static async Task Print(string? folder)
    {
        folder ??= Kept;
        Row[] rows = [.. (await EncodedCases.Of(folder)).GroupBy(c => c.System)
            .SelectMany(system => Of(folder, system.Key, system.Select(c => (c.Name, c.Input)))).OrderBy(r => r.Case, StringComparer.Ordinal)];
        Console.WriteLine("case          system                         chart  assessed  with own  log score");
        foreach (Row row in rows)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{row.Case,-13} {row.System,-29} {Word(row.Chart),6} {Word(row.Plain),9} {Word(row.Own),9} {row.Score,10:0.00}"));
        }

        Console.WriteLine();
        Console.WriteLine("                               cases   first / in three: chart  assessed  with own  mean log score");
        foreach (IGrouping<string, Row> group in rows.GroupBy(r => r.System).Concat(rows.GroupBy(_ => "all")))
        {
            Row[] of = [.. group];
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{group.Key,-30} {of.Length,5} {Count(of, r => r.Chart),30} {Count(of, r => r.Plain),9} {Count(of, r => r.Own),9} {of.Average(r => r.Score),15:0.00}"));
        }
    }

    /// <summary>All cases of one system: its model and its table are made once.</summary>
    private static IEnumerable<Row> Of(string folder, string system, IEnumerable<(string Name, AssessmentInput Input)> cases)
    {
        CompiledModel model = Bench.Model(system);
        ILookup<string, TableEntry> table = ModelTable.Of(model.Source).ToLookup(e => e.Mode.Split('.')[0]);
        return cases.Select(c => Of(folder, c.Name, system, c.Input, model, table));
    }

    private static Row Of(string folder, string name, string system, AssessmentInput input, CompiledModel model, ILookup<string, TableEntry> table)
    {
        using JsonDocument file = JsonDocument.Parse(File.ReadAllText(Path.Combine(folder, $"{name}.json")));
        string[] causes = [.. file.RootElement.GetProperty("cause").EnumerateArray().Select(c => c.GetString()!)];
        AssessmentInput plain = input with { Car = input.Car with { Findings = [.. input.Car.Findings.Where(f => f.Own is null)] } };
        (string[] order, double score) = Ranked(model, plain, causes);
        return new Row(name, system, Rank(Chart(model, plain, table), causes), Rank(order, causes), Rank(Ranked(model, input, causes).Order, causes), score);
    }

    private static (string[] Order, double Score) Ranked(CompiledModel model, AssessmentInput input, string[] causes)
    {
        if (Assess.Run(model, input) is not Answered answer)
        {
            return ([], -Math.Log(Least));
        }

        double all = Math.Max(1, answer.Ranking.Sum(r => r.Explains));
        double share = answer.Ranking.Where(r => causes.Contains(r.Component)).Sum(r => r.Explains) / all;
        return ([.. answer.Ranking.Select(r => r.Component).Where(c => c != ModelIndex.Elsewhere)], -Math.Log(Math.Max(Least, share)));
    }

    /// <summary>Parts by how often their ways of being bad do what was told; nothing else is looked at.</summary>
    private static string[] Chart(CompiledModel model, AssessmentInput input, ILookup<string, TableEntry> table)
    {
        string[][] told = [.. input.Car.Findings.Where(f => f.Event is not null && f.Outcome == "present")
            .Select(f => model.Source.Cells.Where(c => (c.Event ?? c.Id) == f.Event && c.Agrees(f.When, f.Then)).Select(c => c.Id).ToArray())];
        return [.. table.OrderByDescending(part => told.Sum(cells => part.Where(e => cells.Contains(e.Cell)).Select(e => e.Total).DefaultIfEmpty().Max())).Select(p => p.Key)];
    }

    private static int? Rank(string[] order, string[] causes) => Array.FindIndex(order, causes.Contains) is int at and >= 0 ? at + 1 : null;

    private static string Word(int? rank) => rank?.ToString(CultureInfo.InvariantCulture) ?? "-";

    private static string Count(Row[] rows, Func<Row, int?> rank) => $"{rows.Count(r => rank(r) == 1)} / {rows.Count(r => rank(r) <= 3)}";
}
