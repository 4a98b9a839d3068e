using System.Numerics;

namespace FuelHistory.Core.Inference;

/// <summary>One run over a junction tree: total weight and marginals for one set of numbers. The tree is not changed.</summary>
public sealed class Propagation : IDisposable
{
    /// <summary>Signed terms that cancel to less than this share of their sizes are an exact zero seen through rounding.</summary>
    private const double Cancelled = 1e-14;

    private readonly JunctionTree _tree;

    /// <summary>Clique tables, and messages; borrowed, so not cleared and perhaps longer.</summary>
    private readonly double[] _tables;
    private readonly double[] _messages;

    internal Propagation(JunctionTree tree, IReadOnlyList<Factor> factors, bool both)
    {
        _tree = tree;
        _tables = Borrowed.Rent((int)tree.Entries);
        _messages = Borrowed.Rent((int)tree.Separators);
        LogWeight = Collect(factors);
        if (both && !double.IsNegativeInfinity(LogWeight))
        {
            Distribute();
        }
    }

    /// <summary>Natural logarithm of the total weight, the probability of what was entered; minus infinity: it is impossible.</summary>
    public double LogWeight { get; }

    public bool Impossible => double.IsNegativeInfinity(LogWeight);

    /// <summary>The distribution of one variable given everything entered; sums to 1.</summary>
    /// <exception cref="InvalidOperationException">What was entered is impossible.</exception>
    public double[] Marginal(int variable)
    {
        if (Impossible)
        {
            throw new InvalidOperationException("No marginal: what was entered is impossible.");
        }

        Clique home = _tree.Cliques[_tree.Home[variable]];
        var sums = new double[_tree.States[variable]];
        int stride = _tree.HomeStride[variable], at = home.Offset, end = home.Offset + home.Size;
        while (at < end)
        {
            for (int s = 0; s < sums.Length; s++)
            {
                double sum = 0;
                for (int stop = at + stride; at < stop; at++)
                {
                    sum += _tables[at];
                }

                sums[s] += sum;
            }
        }

        double total = sums.Sum();
        for (int s = 0; s < sums.Length; s++)
        {
            sums[s] = Math.Max(0, sums[s] / total);      // signed terms may leave -1e-17 where 0 is meant
        }

        return sums;
    }

    /// <summary>The joint distribution of the variables that the tree was compiled to have in one clique (the last one running fastest).</summary>
    /// <exception cref="InvalidOperationException">It was compiled without such a wish.</exception>
    public double[] Joint()
    {
        (int holder, EntryMap map, int entries) = _tree.Together ?? throw new InvalidOperationException("No variables were wanted in one clique.");
        var joint = new double[entries];
        map.AddUp(_tables.AsSpan(_tree.Cliques[holder].Offset, _tree.Cliques[holder].Size), joint);
        double total = joint.Sum();
        for (int i = 0; i < joint.Length; i++)
        {
            joint[i] /= total;
        }

        return joint;
    }

    /// <summary>E[product of terms] given everything entered; see <see cref="Term"/>.</summary>
    public double[] Expect(IReadOnlyList<Term> terms, int powers = 1) =>
        Expectation.Of(_tree, _tables.AsSpan(0, (int)_tree.Entries), terms, powers);

    public void Dispose()
    {
        Borrowed.Return(_tables);
        Borrowed.Return(_messages);
    }

    private double Collect(IReadOnlyList<Factor> factors)
    {
        double log = 0;
        Clique[] cliques = _tree.Cliques;
        Array.Fill(_tables, 1.0, 0, (int)_tree.Entries);
        for (int c = 0; c < cliques.Length; c++)
        {
            // 1. multiply in this clique's own factors; the children's messages are there already
            Clique clique = cliques[c];
            Span<double> table = _tables.AsSpan(clique.Offset, clique.Size);
            for (int f = clique.Factors.First; f < clique.Factors.End; f++)
            {
                _tree.Factors[f].Map.Multiply(table, factors[_tree.Factors[f].Factor].Table);
            }

            // 2. sum out what the parent does not know, scaled so that long chains of small numbers do not underflow
            Span<double> message = Message(clique);
            double scale = SumOut(table, clique, message);
            if (scale == 0)
            {
                return double.NegativeInfinity;
            }

            log += Math.Log(scale);
            for (int i = 0; i < message.Length; i++)
            {
                message[i] /= scale;
            }

            // 3. hand it on; a root's message is its total
            if (clique.ParentMap is EntryMap map)
            {
                map.Multiply(_tables.AsSpan(cliques[clique.Parent].Offset, cliques[clique.Parent].Size), message);
            }
            else if (message[0] <= 0)
            {
                return double.NegativeInfinity;
            }
        }

        return log;
    }

    private void Distribute()
    {
        Clique[] cliques = _tree.Cliques;
        double[] borrowed = Borrowed.Rent(_tree.MostSeparator);
        for (int c = cliques.Length - 1; c >= 0; c--)
        {
            Clique clique = cliques[c];
            if (clique.ParentMap is not EntryMap map)
            {
                continue;
            }

            // the parent's belief over the separator, with what came from this side taken out again
            Span<double> belief = borrowed.AsSpan(0, clique.SeparatorSize);
            belief.Clear();
            map.AddUp(_tables.AsSpan(cliques[clique.Parent].Offset, cliques[clique.Parent].Size), belief);

            ReadOnlySpan<double> message = Message(clique);
            int at = clique.Offset, run = clique.Run;
            for (int s = 0; s < belief.Length; s++)
            {
                double ratio = message[s] == 0 ? 0 : belief[s] / message[s];
                EntryMap.Scale(_tables.AsSpan(at, run), ratio);
                at += run;
            }
        }

        Borrowed.Return(borrowed);
    }

    private Span<double> Message(Clique clique) => _messages.AsSpan(clique.MessageOffset, clique.SeparatorSize);

    /// <returns>The largest size in the message.</returns>
    private static double SumOut(ReadOnlySpan<double> table, Clique clique, Span<double> message)
    {
        int run = clique.Run;
        double largest = 0;
        for (int s = 0; s < message.Length; s++)
        {
            (double sum, double size) = Sum(table.Slice(s * run, run));
            message[s] = Math.Abs(sum) < Cancelled * size ? 0 : sum;
            largest = Math.Max(largest, Math.Abs(message[s]));
        }

        return largest;
    }

    /// <summary>Sum of the entries, and of their sizes.</summary>
    private static (double Sum, double Size) Sum(ReadOnlySpan<double> run)
    {
        double sum = 0, size = 0;
        int i = 0;
        if (run.Length >= 2 * Vector<double>.Count)
        {
            Vector<double> sums = Vector<double>.Zero, sizes = Vector<double>.Zero;
            for (; i <= run.Length - Vector<double>.Count; i += Vector<double>.Count)
            {
                var next = new Vector<double>(run[i..]);
                sums += next;
                sizes += Vector.Abs(next);
            }

            (sum, size) = (Vector.Sum(sums), Vector.Sum(sizes));
        }

        for (; i < run.Length; i++)
        {
            sum += run[i];
            size += Math.Abs(run[i]);
        }

        return (sum, size);
    }
}
