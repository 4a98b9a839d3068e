using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>Answers to one symptom question in several worlds: P(all causes silent) is a product of one factor per cause; a present answer
/// is 1 - that, a signed sum over a two-state variable (MODEL.md 4 and 7; negative findings need no variable: Heckerman, UAI 1989).
/// A cause's arrow has one threshold in all worlds: it is silent in all of them with 1 - max p.</summary>
internal static class NoisyOr
{
    /// <param name="background">Probability that the outcome shows though every cause is silent; one draw for all worlds.</param>
    public static void Enter(Circuit circuit, GateGroup[] groups, double background, Answer[] answers)
    {
        Network network = circuit.Network;
        int[] choice = [.. answers.Select(a => a.Open ? network.AddVariable(2) : -1)];
        int common = SharesCauses(answers) ? network.AddVariable(2) : -1;
        foreach (GateGroup group in groups)
        {
            EnterGroup(circuit, group, answers, choice, common);
        }

        Answer[] opens = [.. answers.Where(a => a.Open)];
        bool surely = answers.Any(a => a.Closed);
        int[] open = [.. choice.Where(c => c >= 0)];
        network.Add(common < 0 ? open : [common, .. open], at => common < 0
            ? Sign(opens, at) * (surely || at.Contains(1) ? 1 - background : 1)
            : WithCommon(opens, at[0] == 1, at.AsSpan(1), background));
    }

    /// <summary>Several open answers and none that must be silent anyway: what is common to all of them can be told apart from what is not.</summary>
    private static bool SharesCauses(Answer[] answers) => answers.Count(a => a.Open) > 1 && answers.All(a => a.Open && a.Acting < 0);

    private static double Sign(Answer[] opens, ReadOnlySpan<int> at)
    {
        double weight = 1;
        for (int i = 0; i < opens.Length; i++)
        {
            weight *= at[i] == 1 ? opens[i].Silent : opens[i].Ignored;
        }

        return weight;
    }

    /// <summary>If a common cause is loud every answer takes its ignored term; if all are silent, the sum over the own causes stands instead of
    /// it: ones + P(common silent) x (sum over choices - ones).</summary>
    private static double WithCommon(Answer[] opens, bool silent, ReadOnlySpan<int> at, double background)
    {
        bool any = at.Contains(1);
        return silent ? any ? (1 - background) * Sign(opens, at) : 0 : any ? 0 : Sign(opens, at);
    }

    private static void EnterGroup(Circuit circuit, GateGroup group, Answer[] answers, int[] choice, int common)
    {
        Cause?[] causes = [.. answers.Select(a => Cause.Of(circuit, group, a.World))];
        int[] live = [.. Enumerable.Range(0, answers.Length).Where(i => causes[i] is not null)];
        if (live.Length == 0)
        {
            return;
        }

        Cause cause = causes[live[0]]!;
        Answer first = answers[live[0]];
        if (live.Length == answers.Length && Array.TrueForAll(causes, c => c!.Variable == cause.Variable))
        {
            // one and the same cause everywhere: silent if it must be anywhere, whatever the other answers
            if (Array.Exists(answers, a => a.Closed && a.Acting < 0))
            {
                AddKnown(circuit, group, cause, [cause.Variable], 1, () => cause.Silent);
                return;
            }

            if (common >= 0)
            {
                AddKnown(circuit, group, cause, [common, cause.Variable], 2, () => [.. Enumerable.Repeat(1.0, cause.P.Length), .. cause.Silent]);
                return;
            }
        }

        int[] scope = [.. live.SelectMany(i => new[] { causes[i]!.Variable, choice[i], answers[i].Acting }).Where(v => v >= 0).Distinct()];
        if (live.Length == 1 && scope.Length <= 2)
        {
            int pattern = 8 + (first.Open ? 1 : 0) + (first.Muted ? 2 : 0) + (first.Acting >= 0 ? 4 : 0);
            AddKnown(circuit, group, cause, scope, pattern, () => Table(circuit.Network, scope, answers, choice, causes, live));
            return;
        }

        circuit.Network.AddFactor(scope, Table(circuit.Network, scope, answers, choice, causes, live));
    }

    /// <summary>A factor whose table is the same in every network of the model.</summary>
    private static void AddKnown(Circuit circuit, GateGroup group, Cause cause, int[] scope, int pattern, Func<double[]> make) =>
        circuit.Network.AddFactor(scope, circuit.Tables.For(new TableCache.Key(group, cause.P.Length, cause.FirstLevel, 0, pattern), cause.Copy, make));

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

        public double[] Silent => [.. P.Select(p => 1 - p)];

        public static Cause? Of(Circuit circuit, GateGroup group, int world)
        {
            if (!group.IsPart)
            {
                Node node = circuit.Condition(world, group.Condition);
                int min = circuit.Index.Conditions[group.Condition].Min;
                return node.Constant ? null : new(node.Variable, null, node.Levels[0], [.. node.Levels.Select(l => group.P[l - min])], [.. node.Levels.Select(_ => (-1, 0))]);
            }

            PartCopy? copy = circuit.Part(world, group.Part, null);
            return copy is null ? null : new(
                circuit.Variable(copy),
                copy,
                0,
                [0, .. copy.Bad.Select(b => group.P[b.Mode])],
                [(-1, -1), .. copy.Bad]);
        }
    }
}
