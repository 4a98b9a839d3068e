using System.Globalization;
using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;

namespace FuelHistory.Benchmarks.Complaints;

/// <summary>How far answers that are not exact are from exact ones, where those can be had in networks many times as large.</summary>
internal static class NotExact
{
    private const long ManyTimesTheBound = 60_000_000;

    public static void Print(IEnumerable<(string Name, FaultModel Source, AssessmentInput Input)> cases)
    {
        int notExact = 0;
        List<(double Bad, double Explains)> compared = [];
        foreach ((string name, FaultModel source, AssessmentInput input) in cases)
        {
            if (Assess.Run(new CompiledModel(source), input) is Answered { Exact: false } rough)
            {
                notExact++;
                (double Bad, double Explains)? off = Off(rough, new CompiledModel(source, ManyTimesTheBound), input);
                compared.AddRange(off is null ? [] : [off.Value]);
                string said = off is null ? "nothing to compare with" : $"P(bad) off by {Text(off.Value.Bad)}, explains by {Text(off.Value.Explains)} at most";
                Console.WriteLine($"{name,-13} not exact, {rough.LeftOut.Count} findings folded or left out: {said}");
            }
        }

        Console.WriteLine(
            $"{notExact} answers not exact, {compared.Count} compared: P(bad) off by {Text(compared.Max(c => c.Bad))} at most, explains by {Text(compared.Max(c => c.Explains))}");
    }

    /// <summary>How far explains of the parts behind those that the items raised most is from what the network says.</summary>
    public static void PrintRough(IEnumerable<(string Name, FaultModel Source, AssessmentInput Input)> cases)
    {
        List<(double Off, string Said)> all = [];
        foreach ((string name, FaultModel source, AssessmentInput input) in cases)
        {
            Situation situation = Prepared.Of(new CompiledModel(source), input).Situation;
            try
            {
                Ranking rough = Ranking.Of(situation)!, asked = Ranking.Of(situation)!;
                rough.Prepare();
                all.AddRange(situation.Index.Parts.Where(p => rough.ByRise(p.Index)).Select(p => (Math.Abs(rough.Explains(p.Index) - asked.Explains(p.Index)),
                    $"{name} {p.Id}: {Text(rough.Explains(p.Index))} for {Text(asked.Explains(p.Index))}")));
            }
            catch (TooLargeException)
            {
                // folded before it is ranked
            }
        }

        all.Sort((a, b) => b.Off.CompareTo(a.Off));
        Console.WriteLine($"explains by the rise, {all.Count} parts: off by {Text(all[0].Off)} at most ({all[0].Said}), {Text(all[all.Count / 100].Off)} at most in 99 of 100");
    }

    private static string Text(double off) => off.ToString("0.000", CultureInfo.InvariantCulture);

    /// <summary>Null where even the larger network would be too large.</summary>
    private static (double Bad, double Explains)? Off(Answered rough, CompiledModel large, AssessmentInput input)
    {
        Situation situation = Prepared.Of(large, input, true).Situation;
        try
        {
            Ranking exact = Ranking.Of(situation, ManyTimesTheBound, ManyTimesTheBound)!;
            return (rough.Ranking.Max(f => Math.Abs(f.Bad - exact.Bad(situation.Index.Part(f.Component)))),
                rough.Ranking.Max(f => Math.Abs(f.Explains - exact.Explains(situation.Index.Part(f.Component)))));
        }
        catch (TooLargeException)
        {
            return null;
        }
    }
}
