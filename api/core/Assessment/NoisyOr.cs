using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>Answers to one symptom question in several worlds, or one yes/no check in one: P(all causes silent) is a product of one
/// factor per cause; a present answer is 1 - that, a signed sum over a two-state variable (MODEL.md 4 and 7; negative findings need no
/// variable: Heckerman, UAI 1989). A cause's arrow has one threshold in all worlds: it is silent in all of them with 1 - max p.</summary>
internal static class NoisyOr
{
    /// <param name="background">Probability that the outcome shows though every cause is silent; one draw for all worlds.</param>
    /// <param name="instrument">The gauge in use, where a cause is a mode of the gauge.</param>
    public static void Enter(Circuit circuit, GateGroup[] groups, double background, Answer[] answers, string? instrument = null)
    {
        Network network = circuit.Network;
        int[] choice = [.. answers.Select(a => a.Open ? network.AddVariable(2) : -1)];
        foreach (GateGroup group in groups)
        {
            EnterGroup(circuit, group, answers, choice, instrument);
        }

        // signs of the open answers, and the background, which is silent once for all worlds that must be silent
        int[] open = [.. choice.Where(c => c >= 0)];
        Answer[] opens = [.. answers.Where(a => a.Open)];
        bool surely = answers.Any(a => !a.Open && !a.Muted);
        network.Add(open, at =>
        {
            double weight = surely || at.Any(s => s == 1) ? 1 - background : 1;
            for (int i = 0; i < opens.Length; i++)
            {
                weight *= at[i] == 1 ? opens[i].Silent : opens[i].Ignored;
            }

            return weight;
        });
    }

    private static void EnterGroup(Circuit circuit, GateGroup group, Answer[] answers, int[] choice, string? instrument)
    {
        Cause?[] causes = [.. answers.Select(a => Cause.Of(circuit, group, a.World, instrument))];
        int[] live = [.. Enumerable.Range(0, answers.Length).Where(i => causes[i] is not null)];
        if (live.Length == 0)
        {
            return;
        }

        int[] scope = [.. live.SelectMany(i => new[] { causes[i]!.Variable, choice[i], answers[i].Acting }).Where(v => v >= 0).Distinct()];
        Answer first = answers[live[0]];
        bool alone = live.Length == 1 || (live.Length == 2 && causes[live[0]]!.Variable == causes[live[1]]!.Variable && first.Acting < 0 && !answers[live[1]].Open && !answers[live[1]].Muted);
        if (!alone || scope.Length > 2)
        {
            circuit.Network.AddFactor(scope, Table(circuit.Network, scope, answers, choice, causes, live));
            return;
        }

        // the common case, one answer (perhaps with "gone" in the stretch to come, on the same variable), has the same table in every network
        int pattern = (live.Length * 8) + (first.Open ? 1 : 0) + (first.Muted ? 2 : 0) + (first.Acting >= 0 ? 4 : 0);
        Cause cause = causes[live[0]]!;
        var key = new TableCache.Key(group, cause.Copy, cause.P.Length, cause.FirstLevel, 0, pattern);
        circuit.Network.AddFactor(scope, circuit.Tables.For(key, () => Table(circuit.Network, scope, answers, choice, causes, live)));
    }

    private static double[] Table(Network network, int[] scope, Answer[] answers, int[] choice, Cause?[] causes, int[] live)
    {
        int[] variableAt = [.. live.Select(i => Array.IndexOf(scope, causes[i]!.Variable))];
        int[] choiceAt = [.. live.Select(i => Array.IndexOf(scope, choice[i]))];
        int[] actingAt = [.. live.Select(i => Array.IndexOf(scope, answers[i].Acting))];
        var loudest = new Dictionary<(int, int), double>();
        return Tables.Fill([.. scope.Select(v => network.States[v])], at =>
        {
            loudest.Clear();
            for (int k = 0; k < live.Length; k++)
            {
                bool mustBeSilent = choiceAt[k] >= 0 ? at[choiceAt[k]] == 1 : !answers[live[k]].Muted;
                bool acting = actingAt[k] < 0 || at[actingAt[k]] == 1;
                if (mustBeSilent && acting)
                {
                    (double p, (int, int) threshold) = causes[live[k]]!.At(at[variableAt[k]]);
                    loudest[threshold] = Math.Max(p, loudest.GetValueOrDefault(threshold));
                }
            }

            return loudest.Values.Aggregate(1.0, (silent, p) => silent * (1 - p));
        });
    }

    /// <summary>A group of arrows as seen in one world: its variable, and per state the probability and whose threshold it is.</summary>
    private sealed record Cause(int Variable, PartCopy? Copy, int FirstLevel, double[] P, (int, int)[] Threshold)
    {
        public (double, (int, int)) At(int state) => (P[state], Threshold[state]);

        public static Cause? Of(Circuit circuit, GateGroup group, int world, string? instrument)
        {
            if (!group.IsPart)
            {
                Node node = circuit.Condition(world, group.Condition);
                int min = circuit.Index.Conditions[group.Condition].Min;
                return node.Constant ? null : new(node.Variable, null, node.Levels[0], [.. node.Levels.Select(l => group.P[l - min])], [.. node.Levels.Select(_ => (-1, 0))]);
            }

            PartCopy? copy = circuit.Part(world, group.Part, instrument);
            return copy is null ? null : new(
                circuit.Variable(copy),
                copy,
                0,
                [0, .. copy.Bad.Select(b => group.P[b.Mode])],
                [(-1, -1), .. copy.Bad]);
        }
    }
}
