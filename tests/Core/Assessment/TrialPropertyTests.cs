using FuelHistory.Core.Assessment;
using FuelHistory.Core.FaultModels;
using FuelHistory.Tests.FaultModels;

namespace FuelHistory.Tests.Core.Assessment;

/// <summary>What was tried with another part in its place is believed, link or no link: over all systems, on a fixed one in fifty of all pairs
/// of a part whose prior is 0.005 or more and an event of the engine's running.</summary>
public sealed class TrialPropertyTests
{
    private const int OneIn = 50;

    /// <summary>Odds of a thousandth are none.</summary>
    private const double Little = 0.001;

    public static TheoryData<string> Models => RealModels.All;

    [Theory]
    [MemberData(nameof(Models))]
    public void Part_whose_exchange_ended_it_explains_half_and_nine_tenths_where_it_came_back(string model)
    {
        var misses = new List<string>();
        foreach ((RealCase told, string part, string cell) in Sample(model))
        {
            misses.AddRange(Below(0.5, told.Tried(part, TrialResult.Ended), part, cell));
            misses.AddRange(Below(0.9, told.Tried(part, TrialResult.Ended, back: true), part, cell));
        }

        Assert.Empty(misses);
    }

    /// <summary>A part is no likelier for having been tried: after "same" with no more odds than before, after "worse" with nothing like a raised path.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Part_whose_exchange_for_a_new_one_changed_nothing_is_no_likelier_for_having_been_tried(string model)
    {
        var misses = new List<string>();
        foreach ((RealCase told, string part, string cell) in Sample(model))
        {
            double before = Odds(told, part), same = Odds(told.Tried(part, TrialResult.Same), part), worse = Odds(told.Tried(part, TrialResult.Worse), part);
            if (!(same <= before + Little) || !(worse <= (10 * before) + (10 * Little)))
            {
                misses.Add($"{part} with {cell}: {before:0.000000} to {same:0.000000}, worse {worse:0.000000}");
            }
        }

        Assert.Empty(misses);
    }

    /// <summary>What a trial says of its part alone, beside the whole network where that is small enough to be asked.</summary>
    [Theory]
    [MemberData(nameof(Models))]
    public void Trial_taken_out_of_the_network_is_off_by_no_more_than_the_answer_says(string model)
    {
        double worst = 0;
        string where = "";
        foreach ((RealCase told, string part, string cell) in Sample(model))
        {
            foreach (TrialResult result in new[] { TrialResult.Ended, TrialResult.Better, TrialResult.Same })
            {
                Situation whole = told.Tried(part, result).Situation();
                if (Small(whole))
                {
                    double[][] exact = whole.States()!, turned = Supposing.Within(whole, 0).Situation.States()!;
                    double apart = exact.Zip(turned, (a, b) => Math.Abs(a[0] - b[0])).Max();
                    (worst, where) = apart > worst ? (apart, $"{part} with {cell}, {result}") : (worst, where);
                }
            }
        }

        Assert.True(worst <= Supposing.LargestSeen, $"{where}: {worst:0.0000}");
    }

    private static bool Small(Situation whole)
    {
        try
        {
            return whole.Entries() < 300_000;
        }
        catch (TooLargeException)
        {
            return false;
        }
    }

    private static IEnumerable<string> Below(double bound, RealCase tried, string part, string cell)
    {
        if (Assess.Run(tried.Model, tried.Input()) is not Answered answer)
        {
            yield return $"{part} with {cell}: no answer";
        }
        else if (answer.Ranking.All(r => r.Component == part || r.Bad <= 0.5) && answer.Of(part).Explains < bound)
        {
            yield return $"{part} with {cell}: {answer.Of(part).Explains:0.000}, not {bound}";
        }
    }

    /// <summary>Asked of the network, whatever place the part has.</summary>
    private static double Odds(RealCase tried, string part)
    {
        Situation situation = tried.Situation();
        double explains = Ranking.Of(situation)!.Explains(situation.Index.Part(part));
        return explains / (1 - explains);
    }

    private static IEnumerable<(RealCase Told, string Part, string Cell)> Sample(string model)
    {
        CompiledModel compiled = RealModels.Compiled(model);
        RealCase car = new() { Model = compiled };
        Dictionary<string, double> prior = car.Bad();
        (Component Part, EventCell Cell)[] sample = [.. RealModels.Pairs(compiled, OneIn, c => prior[c.Id] >= 0.005)];
        Assert.True(sample.Length > 10, $"{sample.Length}");
        return sample.Select(p => (car.Present(p.Cell.Id), p.Part.Id, p.Cell.Id));
    }
}
