using System.Globalization;
using FuelHistory.Benchmarks.Simulation;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
namespace FuelHistory.Benchmarks.Complaints;
internal static class Profile
{
    public static async Task Print(string? encoded)
    {
        string[] systems = ["continuous-mechanical", "continuous-electro-hydraulic", "port-manifold-pressure", "port-airflow", "single-point", "carburettor", "diesel-mechanical"];
        var lots = systems.ToDictionary(s => s, s => new CarLot(Bench.Model(s).Source));
        List<(string Name, string Sys, AssessmentInput Input)> all = [];
        if (encoded is not null) all.AddRange(await EncodedCases.Of(encoded));
        else for (int i = 0; i < 20; i++) all.Add(($"{i:00}", systems[i % 7], InventedComplaint.Of(lots[systems[i % 7]], i)));
        for (int pass = 0; pass < 2; pass++)
        foreach (var (i, sys, input) in all)
        {
            var model = new CompiledModel(lots[sys].Model);
            if (pass == 0) { Assess.Run(model, input); continue; }
            for (int warm = 0; warm < 2; warm++)
            {
                double T(Action a) { var b = Environment.CpuUsage.TotalTime; a(); return (Environment.CpuUsage.TotalTime - b).TotalMilliseconds; }
                Prepared prepared = null!; Situation s = null!; Ranking r = null!; LeaveOneOut left = null!;
                var gc0 = GC.GetTotalPauseDuration(); var al0 = GC.GetTotalAllocatedBytes(); int g0 = GC.CollectionCount(0), g1 = GC.CollectionCount(1), g2 = GC.CollectionCount(2);
                double prep = T(() => prepared = Prepared.Of(model, input));
                s = prepared.Situation;
                string off = ""; double own = 0, rank = 0, loo = 0, why = 0, seq = 0, mis = 0, flip = 0, fix = 0, rest = 0; long e = 0, re = 0; int n = 0;
                try {
                own = T(() => r = Ranking.Of(s)!);
                e = s.Entries();
                rank = T(() => r.Prepare());
                if (warm > 0) { try {
                    var exact = Ranking.Of(s, 4_000_000)!; var rough = Ranking.Of(s, 1)!;
                    double x = 0, f = 0; foreach (var p in s.Index.Parts) if (!p.Source.Instrument) { x = Math.Max(x, Math.Abs(exact.Explains(p.Index) - rough.Explains(p.Index))); f = Math.Max(f, Math.Abs(exact.FixesAlone(p.Index) - rough.FixesAlone(p.Index))); }
                    off = string.Create(CultureInfo.InvariantCulture, $"off {x:0.000} fixes {f:0.000} res {Math.Abs(exact.Resolved - rough.Resolved):0.000}");
                } catch (TooLargeException) { off = "off ?"; } }
                int[] parts = [.. s.Index.Parts.Where(p => !p.Source.Instrument).Select(p => p.Index).OrderByDescending(r.Explains).ThenByDescending(r.Bad)];
                fix = T(() => { foreach (int p in parts) r.FixesAlone(p); });
                for (int it = 0; it < r.Items.Count; it++) foreach (int p in parts) if (r.Items[it].Reach[p] && r.Bad(p) >= 0.005) { n++; re += s.Entries(new Relief(new Repair(false, p), [r.Items[it]])); }
                rest = T(() => { r.Share(Repair.All); r.Share(Repair.Nothing); AllHealthy.Of(s, r.LogWeight); SetAsides.Of(s, r.LogWeight); });
                loo = T(() => left = LeaveOneOut.Of(s));
                why = T(() => WhyFactors.Of(s, r, prepared.Investigation, prepared.Life, left));
                seq = T(() => Sequence.Of(s, prepared.Investigation));
                mis = T(() => Misfits.Of(s, r, left));
                flip = T(() => Flips.Of(s, r, prepared.Investigation, parts, left));
                } catch (TooLargeException) { Console.Write("TOO LARGE "); }
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{i} {(warm > 0 ? "warm" : "new ")} ent {e,8} stretches {s.Worlds.Stretches.Length} ev {s.Evidence.Count,2} items {s.Items.Count} nets {n,3} avg {(n > 0 ? re / n : 0),8} {(r is { Approximate: true } ? "APPROX" : "")} {off} | prep {prep,5:0} own {own,4:0} rank {rank,5:0} fix {fix,5:0} rest {rest,4:0} loo {loo,4:0} why {why,4:0} seq {seq,4:0} mis {mis,4:0} flip {flip,5:0} = [gc {(GC.GetTotalPauseDuration() - gc0).TotalMilliseconds:0} ms {(GC.GetTotalAllocatedBytes() - al0) / 1e6:0} MB {GC.CollectionCount(0) - g0}/{GC.CollectionCount(1) - g1}/{GC.CollectionCount(2) - g2}] {prep + own + rank + fix + rest + loo + why + seq + mis + flip:0}"));
            }
        }
    }
}
