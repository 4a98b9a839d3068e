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
        int[] choice = Array.ConvertAll(answers, a => a.Open ? network.AddVariable(2) : -1);
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
        var causes = new Cause[answers.Length];
        int live = 0, first = -1;
        bool same = true, closed = false;
        for (int i = 0; i < answers.Length; i++)
        {
            causes[i] = Cause.Of(circuit, group, answers[i].World);
            live += causes[i].None ? 0 : 1;
            first = first < 0 && !causes[i].None ? i : first;
            same &= causes[i].Variable == causes[0].Variable;
            closed |= answers[i].Closed && answers[i].Acting < 0;
        }

        if (live == 0)
        {
            return;
        }

        // one and the same cause everywhere: silent if it must be anywhere, whatever the other answers
        if (same && closed)
        {
            circuit.Network.AddKnown([causes[0].Variable], Known(circuit, causes[0], 1) ?? Keep(circuit, causes[0], 1, causes[0].Silent()));
        }
        else if (same && common >= 0)
        {
            circuit.Network.AddKnown([common, causes[0].Variable],
                Known(circuit, causes[0], 2) ?? Keep(circuit, causes[0], 2, [.. Enumerable.Repeat(1.0, causes[0].States), .. causes[0].Silent()]));
        }
        else if (live == 1)
        {
            EnterOne(circuit, causes, answers, choice, first);
        }
        else
        {
            EnterSeveral(circuit, causes, answers, choice);
        }
    }

    private static void EnterOne(Circuit circuit, Cause[] causes, Answer[] answers, int[] choice, int i)
    {
        Answer answer = answers[i];
        int[] scope = [causes[i].Variable, .. choice[i] < 0 ? [] : new[] { choice[i] }, .. answer.Acting < 0 ? [] : new[] { answer.Acting }];
        int pattern = 8 + (answer.Open ? 1 : 0) + (answer.Muted ? 2 : 0) + (answer.Acting >= 0 ? 4 : 0);
        circuit.Network.AddKnown(scope, Known(circuit, causes[i], pattern) ?? Keep(circuit, causes[i], pattern, Table(circuit.Network, scope, answers, choice, causes)));
    }

    private static void EnterSeveral(Circuit circuit, Cause[] causes, Answer[] answers, int[] choice)
    {
        var scope = new List<int>(3 * answers.Length);
        bool plain = answers.Length == 2;
        for (int i = 0; i < answers.Length; i++)
        {
            Add(causes[i].Variable, !causes[i].None);
            Add(choice[i], !causes[i].None);
            Add(answers[i].Acting, !causes[i].None);
            plain &= !causes[i].None && causes[i].Copy is null && answers[i].Acting < 0;
        }

        // two conditions: what a repair makes of a present symptom; met in one network after the other
        int[] all = [.. scope];
        if (plain && causes[0].Variable != causes[1].Variable)
        {
            TableCache.Key key = causes[0].Key(causes[1], (4 * ((4 * 16) + Pattern(answers[0]))) + Pattern(answers[1]));
            circuit.Network.AddKnown(all, circuit.Tables.Known(key, null) ?? circuit.Tables.Keep(key, null, Table(circuit.Network, all, answers, choice, causes)));
            return;
        }

        circuit.Network.AddFactor(all, Table(circuit.Network, all, answers, choice, causes));

        void Add(int variable, bool there)
        {
            if (there && variable >= 0 && !scope.Contains(variable))
            {
                scope.Add(variable);
            }
        }
    }

    private static int Pattern(Answer answer) => (answer.Open ? 1 : 0) + (answer.Muted ? 2 : 0);

    /// <summary>A table that is the same in every network of the model.</summary>
    private static double[]? Known(Circuit circuit, in Cause cause, int pattern) => circuit.Tables.Known(cause.Key(pattern), cause.Copy);

    private static double[] Keep(Circuit circuit, in Cause cause, int pattern, double[] table) => circuit.Tables.Keep(cause.Key(pattern), cause.Copy, table);

    private static double[] Table(Network network, int[] scope, Answer[] answers, int[] choice, Cause[] causes)
    {
        int[] live = [.. Enumerable.Range(0, answers.Length).Where(i => !causes[i].None)];
        int[] variableAt = [.. live.Select(i => Array.IndexOf(scope, causes[i].Variable))];
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
                    (double p, (int, int) threshold) = causes[live[k]].At(at[variableAt[k]]);
                    loudest[threshold] = Math.Max(p, loudest.GetValueOrDefault(threshold));
                }
            }

            return loudest.Values.Aggregate(1.0, (silent, p) => silent * (1 - p));
        });
    }

    /// <summary>A group of arrows as seen in one world: its variable (-1: it adds nothing there), and per state the probability and whose threshold it is.</summary>
    private readonly record struct Cause(GateGroup Group, int Variable, PartCopy? Copy, int[] Levels, int Min)
    {
        public bool None => Variable < 0;

        public int States => Copy?.States ?? Levels.Length;

        private int FirstLevel => Copy is null ? Levels[0] : 0;

        public TableCache.Key Key(int pattern) => new(Group, States, FirstLevel, 0, pattern);

        public TableCache.Key Key(in Cause other, int pattern) => new(Group, States + (64 * other.States), FirstLevel, other.FirstLevel, pattern);

        public (double, (int, int)) At(int state) => Copy is null ? (Group.P[Levels[state] - Min], (-1, 0))
            : state == 0 ? (0, (-1, -1))
            : (Group.P[Copy.Bad[state - 1].Mode], Copy.Bad[state - 1]);

        public double[] Silent()
        {
            var silent = new double[States];
            for (int s = 0; s < silent.Length; s++)
            {
                silent[s] = 1 - At(s).Item1;
            }

            return silent;
        }

        public static Cause Of(Circuit circuit, GateGroup group, int world)
        {
            if (!group.IsPart)
            {
                Node node = circuit.Condition(world, group.Condition);
                return new Cause(group, node.Variable, null, node.Levels, circuit.Index.Conditions[group.Condition].Min);
            }

            PartCopy? copy = circuit.Part(world, group.Part, null);
            return new Cause(group, copy is null ? -1 : circuit.Variable(copy), copy, [], 0);
        }
    }
}
