using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>What is said of one event in several worlds: P(all causes silent) is a product of one factor per cause; a present answer
/// is 1 - that, a signed sum over a two-state variable (MODEL.md 4 and 7; negative findings need no variable: Heckerman, UAI 1989).
/// A cause's arrow has one threshold in all worlds and all cells: it is silent in all of them with 1 - max p.</summary>
internal static class NoisyOr
{
    /// <param name="hidden">Arrows that only this investigation has (MODEL.md 4).</param>
    public static void Enter(Circuit circuit, EventIndex source, IReadOnlyList<EventGroup> hidden, Answer[] answers)
    {
        Network network = circuit.Network;
        int[] choice = Array.ConvertAll(answers, a => a.Gate >= 0 ? a.Gate : a.Open ? network.AddVariable(2) : -1);
        int common = SharesCauses(answers) ? network.AddVariable(2) : -1;
        foreach (EventGroup group in source.Groups)
        {
            EnterGroup(circuit, group, answers, choice, common);
        }

        foreach (EventGroup group in hidden)
        {
            EnterGroup(circuit, group, answers, choice, common);
        }

        int[] open = [.. choice.Where(c => c >= 0).Distinct()];
        int[] place = Array.ConvertAll(choice, c => c < 0 ? -1 : Array.IndexOf(open, c) + (common < 0 ? 0 : 1));
        network.Add(common < 0 ? open : [common, .. open], at =>
        {
            double quiet = 1 - Loudest(source, answers, place, at);
            double sign = Sign(answers, place, at);
            return common < 0 ? sign * quiet : WithCommon(at[0] == 1, quiet, sign, at.AsSpan(1).Contains(1));
        });
    }

    /// <summary>Several open answers and none that must be silent anyway: what is common to all of them can be told apart from what is not.</summary>
    private static bool SharesCauses(Answer[] answers) => answers.Length > 1 && answers.All(a => a.Open && a.Acting < 0 && a.Gate < 0);

    /// <summary>The background is one draw for all worlds and cells: that of the cells that must be silent.</summary>
    private static double Loudest(EventIndex source, Answer[] answers, int[] place, int[] at)
    {
        double loudest = 0;
        for (int i = 0; i < answers.Length; i++)
        {
            if (MustBeSilent(answers[i], place[i] < 0 ? -1 : at[place[i]]))
            {
                loudest = Math.Max(loudest, source.Background(answers[i].Cells));
            }
        }

        return loudest;
    }

    private static bool MustBeSilent(Answer answer, int state) => state < 0 ? !answer.Muted : state >= answer.GateFrom;

    /// <summary>Weights of the terms; a variable of somebody else's brings its own.</summary>
    private static double Sign(Answer[] answers, int[] place, int[] at)
    {
        double weight = 1;
        for (int i = 0; i < answers.Length; i++)
        {
            if (place[i] >= 0 && answers[i].Gate < 0)
            {
                weight *= at[place[i]] == 1 ? answers[i].Silent : answers[i].Ignored;
            }
        }

        return weight;
    }

    /// <summary>If a common cause is loud every answer takes its ignored term; if all are silent, the sum over the own causes stands instead of
    /// it: ones + P(common silent) x (sum over choices - ones).</summary>
    private static double WithCommon(bool silent, double quiet, double sign, bool any)
    {
        if (silent)
        {
            return any ? quiet * sign : 0;
        }

        return any ? 0 : sign;
    }

    private static void EnterGroup(Circuit circuit, EventGroup group, Answer[] answers, int[] choice, int common)
    {
        var causes = new Cause[answers.Length];
        int live = 0, first = -1;
        bool same = true, closed = false;
        for (int i = 0; i < answers.Length; i++)
        {
            causes[i] = Cause.Of(circuit, group.For(answers[i].Cells), answers[i].World);
            if (causes[i].None)
            {
                continue;
            }

            live++;
            first = first < 0 ? i : first;
            same &= causes[i].Variable == causes[first].Variable && ReferenceEquals(causes[i].Group, causes[first].Group);
            closed |= answers[i].Closed && answers[i].Acting < 0;
        }

        if (live == 0)
        {
            return;
        }

        // one and the same cause everywhere: silent if it must be anywhere, whatever the other answers
        Cause cause = causes[first];
        if (same && closed)
        {
            circuit.Network.AddKnown([cause.Variable], Known(circuit, cause, 1) ?? Keep(circuit, cause, 1, cause.Silent()));
        }
        else if (same && common >= 0 && live == answers.Length)
        {
            circuit.Network.AddKnown([common, cause.Variable],
                Known(circuit, cause, 2) ?? Keep(circuit, cause, 2, [.. Enumerable.Repeat(1.0, cause.States), .. cause.Silent()]));
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
        if (answer.Gate >= 0)
        {
            circuit.Network.AddFactor(scope, Table(circuit.Network, scope, answers, choice, causes));
            return;
        }

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
            plain &= !causes[i].None && causes[i].Copy is null && answers[i].Acting < 0 && answers[i].Gate < 0;
        }

        // two conditions: what a repair makes of a present symptom; met in one network after the other
        int[] all = [.. scope];
        if (plain && causes[0].Variable != causes[1].Variable && ReferenceEquals(causes[0].Group, causes[1].Group))
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
        var thresholds = new (int, int)[live.Length];
        var loudest = new double[live.Length];
        return Tables.Fill([.. scope.Select(v => network.States[v])], at =>
        {
            int met = 0;
            for (int k = 0; k < live.Length; k++)
            {
                bool acting = actingAt[k] < 0 || at[actingAt[k]] == 1;
                if (!acting || !MustBeSilent(answers[live[k]], choiceAt[k] < 0 ? -1 : at[choiceAt[k]]))
                {
                    continue;
                }

                (double p, (int, int) threshold) = causes[live[k]].At(at[variableAt[k]]);
                int same = Array.IndexOf(thresholds, threshold, 0, met);
                if (same < 0)
                {
                    (thresholds[met], loudest[met++]) = (threshold, p);
                }
                else
                {
                    loudest[same] = Math.Max(loudest[same], p);
                }
            }

            double silent = 1;
            for (int k = 0; k < met; k++)
            {
                silent *= 1 - loudest[k];
            }

            return silent;
        });
    }

    /// <summary>A group of arrows as seen in one world: its variable (-1: it adds nothing there), and per state the probability and whose threshold it is.</summary>
    private readonly record struct Cause(GateGroup Group, int Variable, PartCopy? Copy, int[] Levels, int Min)
    {
        private static readonly GateGroup Never = new(-1, -1, []);

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

        public static Cause Of(Circuit circuit, GateGroup? group, int world)
        {
            if (group is null)
            {
                return new Cause(Never, -1, null, [], 0);
            }

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
