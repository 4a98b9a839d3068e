using FuelHistory.Core.Inference;

namespace FuelHistory.Core.Assessment;

/// <summary>A check with outcomes in order of severity: per cause a distribution over outcomes, combined by noisy-MAX:
/// P(outcome at most k) = L(k) x product of C_i(k | state) (Diez, UAI 1993). Yes/no is the case of two outcomes.</summary>
internal sealed record OutcomeGate(int Outcomes, double[] Leak, IReadOnlyList<(int Part, int Condition, double[][] Cumulative)> Groups)
{
    /// <summary>The outcome that means that nothing is wrong.</summary>
    private const int Right = 0;

    /// <summary>Conditions that the outcome hangs on, in one world.</summary>
    public IEnumerable<(int, int)> Conditions(ModelIndex index, int world) =>
        Groups.Where(g => g.Part < 0 && !index.Conditions[g.Condition].OfInstrument).Select(g => (world, g.Condition));

    /// <summary>Enters an observed outcome.</summary>
    /// <param name="acting">Variable that says whether an intermittent fault was acting; -1: it was, or the part itself is seen.</param>
    /// <param name="right">World in which it is to be right, by the same draws, and was not right in the first one; -1: none.</param>
    public void Enter(Circuit circuit, int world, int outcome, bool sure, int acting, string? instrument, bool counts, int right)
    {
        (double Weight, int AtMost)[] terms = [.. Terms(outcome, sure, counts, right >= 0).Select(t => (t.Weight * Least(t.AtMost, right), t.AtMost))];
        int choice = circuit.Network.AddVariable(terms.Length);
        circuit.Network.AddFactor([choice], [.. terms.Select(t => t.Weight)]);
        int[] atMost = [.. terms.Select(t => t.AtMost)];
        foreach ((int part, int condition, double[][] cumulative) in Groups)
        {
            Cause then = part >= 0 ? Cause.OfPart(circuit, world, part, cumulative, instrument, Outcomes) : Cause.OfLevel(circuit, world, condition, cumulative);
            Cause next = right < 0 ? Cause.None
                : part >= 0 ? Cause.OfPart(circuit, right, part, cumulative, instrument, Outcomes)
                : Cause.OfLevel(circuit, right, condition, cumulative);
            EnterCause(circuit, choice, atMost, acting, then, next);
        }
    }

    /// <summary>P(outcome = k) = P(at most k) - P(at most k - 1): a signed sum over k, k - 1 and, if unsure, "anything". Where it is to have been
    /// wrong, what was right is taken off again.</summary>
    private IEnumerable<(double Weight, int AtMost)> Terms(int outcome, bool sure, bool counts, bool wrong)
    {
        double anything = counts ? sure ? 0 : 0.5 / Outcomes : 1, share = counts ? sure ? 1 : 0.5 : 0;
        bool right = outcome <= Right;
        yield return (share, outcome);
        if (outcome > 0)
        {
            yield return (-share, outcome - 1);
        }

        if (!sure)
        {
            yield return (anything, Outcomes - 1);
        }
        else if (!counts)
        {
            yield return (1, Outcomes - 1);
        }

        if (wrong)
        {
            yield return (-anything - (right ? share : 0), Right);
        }
    }

    /// <summary>The background is one draw: at most k then, and right in the other world.</summary>
    private double Least(int atMost, int right) => right < 0 ? Leak[atMost] : Math.Min(Leak[atMost], Leak[Right]);

    private static void EnterCause(Circuit circuit, int choice, int[] atMost, int acting, Cause then, Cause next)
    {
        if (then.Idle && next.Idle)
        {
            return;
        }

        int[] variables = [choice, then.Variable, acting, next.Variable];
        int[] scope = [.. variables.Where(v => v >= 0).Distinct()];
        int[] place = [.. variables.Select(v => v < 0 ? -1 : Array.IndexOf(scope, v))];
        circuit.Network.Add(scope, at =>
        {
            bool acts = place[2] < 0 || at[place[2]] == 1;
            (double p, (int, int) threshold) = acts ? then.At(place[1] < 0 ? 0 : at[place[1]], atMost[at[0]]) : Cause.Silent;
            (double q, (int, int) other) = next.At(place[3] < 0 ? 0 : at[place[3]], Right);
            return threshold == other ? Math.Min(p, q) : p * q;
        });
    }

    /// <summary>A cause in one world: per state P(its own outcome is at most k), and whose draw that is.</summary>
    private readonly record struct Cause(int Variable, double[][] Rows, PartCopy? Copy)
    {
        public static readonly Cause None = new(-1, [], null);

        /// <summary>No outcome of its own, and nobody's draw.</summary>
        public static readonly (double, (int, int)) Silent = (1, (-1, -1));

        /// <summary>Says nothing in any state.</summary>
        public bool Idle => Variable < 0 && (Rows.Length == 0 || Array.TrueForAll(Rows[0], p => p == 1));

        public (double, (int, int)) At(int state, int atMost)
        {
            if (Rows.Length == 0 || (Copy is not null && state == 0))
            {
                return Silent;
            }

            return (Rows[state][atMost], Copy is null ? (-2, 0) : Copy.Bad[state - 1]);
        }

        public static Cause OfPart(Circuit circuit, int world, int part, double[][] cumulative, string? instrument, int outcomes)
        {
            PartCopy? copy = circuit.Part(world, part, instrument);
            double[] silent = [.. Enumerable.Repeat(1.0, outcomes)];
            return copy is null ? None : new Cause(circuit.Variable(copy), [silent, .. copy.Bad.Select(b => cumulative[b.Mode])], copy);
        }

        public static Cause OfLevel(Circuit circuit, int world, int condition, double[][] cumulative)
        {
            Node node = circuit.Index.Conditions[condition].OfInstrument ? Node.Zero : circuit.Condition(world, condition);
            int min = circuit.Index.Conditions[condition].Min;
            return new Cause(node.Variable, [.. node.Levels.Select(l => cumulative[l - min])], null);
        }
    }
}
