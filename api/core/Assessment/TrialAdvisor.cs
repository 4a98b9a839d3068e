using FuelHistory.Core.FaultModels;

namespace FuelHistory.Core.Assessment;

/// <summary>Prices the trials of the fault model (MODEL.md 8). What a trial would do follows from what the repair of its component would:
/// where that would end the events, the trial ends them unless its stand-in is bad; under every other suspect nothing changes.</summary>
internal static class TrialAdvisor
{
    private static readonly TrialResult[] Results = Enum.GetValues<TrialResult>();

    public static IEnumerable<CheckAdvice> Price(
        Situation situation, Suspects suspects, Costs costs, Investigation investigation, Proposable open)
    {
        HashSet<string> done = [.. investigation.ThisRound.Select(f => f.Trial?.Trial).OfType<string>()];
        IReadOnlySet<string>? tools = investigation.Input.ToolsAtHand;
        EventItem[] events = [.. situation.Items.OfType<EventItem>()];
        string?[] kinds = [.. events.Select(i => i.Source.Source?.Kind)];
        bool[][] ways = [.. events.Select(i => Ancestors.ConditionsOf(situation.Index, i.Source, i.Cells))];
        foreach (Trial trial in situation.Index.Model.Trials.Where(t => kinds.Any(t.Suits) && !done.Contains(t.Id) && open.May(t)))
        {
            if (Foresee(situation, suspects, trial, ways) is Prospect prospect)
            {
                double minutes = trial.Minutes + trial.SetupMinutes, cost = minutes * costs.RatePerMinute;
                double saving = suspects.Saving(prospect) - cost;
                bool atHand = tools is null || trial.Tools.All(tools.Contains);
                yield return new CheckAdvice(trial.Id, minutes, trial.SetupMinutes, [], cost, saving, suspects.Bits(prospect), atHand,
                    atHand && saving > 0, [.. Results.Select((r, i) => CheckAdvisor.Forecast(
                        situation.Index, suspects, prospect, r.ToString().ToLowerInvariant(), Title(r), [i])).OfType<OutcomeForecast>()])
                { Trial = true, Harmless = trial.Hazard == "none", Prospect = prospect };
            }
        }
    }

    private static string Title(TrialResult result) => CommonWords.Title(CommonWords.TrialResults, result.ToString().ToLowerInvariant());

    /// <summary>Null where no suspect is touched by the trial.</summary>
    /// <param name="ways">Per event of the situation: the conditions that lead to it.</param>
    private static Prospect? Foresee(Situation situation, Suspects suspects, Trial trial, bool[][] ways)
    {
        // the parts that act on an event through a condition that the trial puts right
        IEnumerable<int> right = trial.Right.Select(situation.Index.Condition).Where(c => ways.Any(w => w[c]));
        bool[] behind = Ancestors.OfConditions(situation.Index, [.. right]);
        double[] helps = [.. suspects.All.Select(s => s.Part < 0 ? 0 : Helps(situation, trial, s.Part, behind))];
        if (helps.All(h => h == 0))
        {
            return null;
        }

        double[] ended = Row(1), wrong = Row(0);
        double[][] under = [.. helps.Select(h => ended.Zip(wrong, (r, w) => (h * r) + ((1 - h) * w)).ToArray())];
        double rest = Math.Max(0, 1 - suspects.All.Sum(s => s.All));
        double[] weights = [.. suspects.All.Select(s => s.All)], plain = [.. Results.Select((_, i) => rest * wrong[i])];
        double total = rest + weights.Sum();
        for (int s = 0; s < weights.Length; s++)
        {
            for (int i = 0; i < plain.Length; i++)
            {
                plain[i] += weights[s] * under[s][i];
            }
        }

        return new Prospect([.. plain.Select(p => p / total)], under);
    }

    /// <summary>P(the trial makes good what a repair of the part would).</summary>
    private static double Helps(Situation situation, Trial trial, int part, bool[] behind)
    {
        PartIndex source = situation.Index.Parts[part];
        if (trial.Component == source.Id)
        {
            return trial.Kind switch
            {
                TrialKind.Another => 0.95,
                TrialKind.Touched => source.Source.Modes.Any(m => m.Contact) ? TrialFigures.TouchedRight : 0,
                _ => 1,
            };
        }

        bool moved = trial.Moves.Contains(source.Id) && source.Source.Modes.Any(m => m.Contact);
        if (behind[part])
        {
            return 1;
        }

        return moved ? TrialFigures.MovedRight : 0;
    }

    private static double[] Row(double right) => [.. Results.Select(r =>
    {
        (double nothing, double main, double all) = r == TrialResult.Worse ? (0, 0, 0) : TrialFigures.Of(r);
        double shown = nothing + (right * (main + all));
        return r == TrialResult.Worse ? TrialFigures.Worse : (1 - TrialFigures.Worse) * shown;
    })];
}
