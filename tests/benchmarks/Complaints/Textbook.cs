using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>Textbook situations that technicians wrote without having seen a model: how often a part leads that they name, and how often the first
/// proposal is a check that they name. Those that do not agree are printed. Gates nothing.</summary>
internal static class Textbook
{
    private const int Shown = 3;

    private sealed record Row(string Id, bool? Led, bool? Next, string Said);

    /// <param name="words">Ids of fault models; none: all of them.</param>
    public static void Print(IEnumerable<string> words)
    {
        string[] named = [.. Bench.Ids.Intersect(words)];
        Row[] rows = [.. (named.Length > 0 ? named : Bench.Ids).AsParallel().AsOrdered().SelectMany(Of)];
        foreach (Row row in rows.Where(r => r.Led == false || r.Next == false))
        {
            Console.WriteLine($"{row.Id}: {(row.Led == false ? "LEADER " : "")}{(row.Next == false ? "NEXT " : "")}{row.Said}");
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{rows.Length} situations: led as named {Share(rows, r => r.Led):0.0} %, first proposal as named {Share(rows, r => r.Next):0.0} % of {rows.Count(r => r.Next is not null)}"));
    }

    private static double Share(Row[] rows, Func<Row, bool?> comes) => 100.0 * rows.Count(r => comes(r) == true) / Math.Max(1, rows.Count(r => comes(r) is not null));

    private static IEnumerable<Row> Of(string id)
    {
        CompiledModel model = Bench.Model(id);
        return CaseFile.Read(Bench.Beside(id, "textbook.json")).Cases.Select(c => Of(c, model));
    }

    private static Row Of(HandCase hand, CompiledModel model)
    {
        AssessmentInput input = CaseInput.Of(hand, model.Source);
        RankedFault[] ranked = Assess.Run(model, input) is Answered answer
            ? [.. answer.Ranking.Where(r => r.Component != ModelIndex.Elsewhere).Take(Shown)] : [];
        var advice = Assess.Advise(model, input) as AdviceAnswered;
        CheckAdvice[] next = [.. advice?.NextChecks.Where(c => c.Pays).Take(Shown) ?? []];
        PlannedRepair? step = advice?.Plan.Steps is [PlannedRepair first, ..] ? first : null;
        return new Row(
            hand.Id,
            hand.Expect.LeaderAmong?.Contains(ranked is [RankedFault leader, ..] ? leader.Component : ""),
            hand.Expect.NextAmong?.Contains(next is [CheckAdvice one, ..] ? one.Check : ""),
            string.Create(CultureInfo.InvariantCulture,
                $"{string.Join(", ", ranked.Select(r => $"{r.Component} {r.Explains:0.00}/{r.Bad:0.00}"))} (wanted {string.Join(" ", hand.Expect.LeaderAmong ?? [])}); "
                + $"plan {step?.Action} {step?.Component} look {step?.LookFirst}; next {string.Join(" ", next.Select(c => $"{c.Check} {c.Minutes:0}min"))} (wanted {string.Join(" ", hand.Expect.NextAmong ?? [])})"));
    }
}
