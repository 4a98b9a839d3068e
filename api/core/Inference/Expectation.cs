using System.Numerics;

namespace FuelHistory.Core.Inference;

/// <summary>A function of one variable: per state a truncated polynomial (one coefficient: a plain number). The product of two
/// saturates: powers at or above the last one are added into it, as leak levels are.</summary>
public readonly record struct Term(int Variable, double[][] ByState);

/// <summary>E[product of terms] under a calibrated tree, by one partial upward pass over the cliques that lie between the terms'
/// variables: what a check would show, without compiling a network with the check in it.</summary>
internal ref struct Expectation
{
    private readonly JunctionTree _tree;
    private readonly ReadOnlySpan<double> _beliefs;
    private readonly int _powers;
    private readonly double[]?[] _values;
    private readonly double[] _result;

    private Expectation(JunctionTree tree, ReadOnlySpan<double> beliefs, int powers)
    {
        _tree = tree;
        _beliefs = beliefs;
        _powers = powers;
        _values = new double[]?[tree.Cliques.Length];
        _result = new double[powers];
        _result[0] = 1;
    }

    /// <param name="powers">Coefficients of every polynomial; the result has as many.</param>
    public static double[] Of(JunctionTree tree, ReadOnlySpan<double> beliefs, IReadOnlyList<Term> terms, int powers)
    {
        var pass = new Expectation(tree, beliefs, powers);
        foreach (Term term in terms)
        {
            pass.Enter(term);
        }

        pass.Climb();
        return pass._result;
    }

    /// <summary>Multiplies a term into the value table of the smallest clique that holds its variable.</summary>
    private void Enter(Term term)
    {
        int home = _tree.Home[term.Variable], stride = _tree.HomeStride[term.Variable], states = _tree.States[term.Variable];
        double[] values = Values(home);
        int size = _tree.Cliques[home].Size, at = 0;
        while (at < size)
        {
            for (int s = 0; s < states; s++)
            {
                double[] by = term.ByState[s];
                if (_powers == 1)
                {
                    EntryMap.Scale(values.AsSpan(at, stride), by[0]);
                    at += stride;
                    continue;
                }

                for (int stop = at + stride; at < stop; at++)
                {
                    Multiply(values.AsSpan(at * _powers, _powers), by);
                }
            }
        }
    }

    private void Climb()
    {
        Clique[] cliques = _tree.Cliques;
        int open = _values.Count(v => v is not null);
        for (int c = 0; c < cliques.Length && open > 0; c++)
        {
            if (_values[c] is not double[] values)
            {
                continue;
            }

            open--;
            if (open == 0 || cliques[c].Parent < 0)
            {
                Multiply(_result, Mean(c, values));
            }
            else
            {
                int p = cliques[c].Parent;
                open += _values[p] is null ? 1 : 0;
                HandUp(c, values, p);
            }

            Borrowed.Return(values);
            _values[c] = null;
        }
    }

    /// <summary>Belief-weighted mean of the values over a whole clique.</summary>
    private readonly double[] Mean(int c, double[] values)
    {
        ReadOnlySpan<double> belief = _beliefs.Slice(_tree.Cliques[c].Offset, _tree.Cliques[c].Size);
        if (_powers == 1)
        {
            return [Mean(belief, values.AsSpan(0, belief.Length))];
        }

        var mean = new double[_powers];
        double total = 0;
        for (int i = 0; i < belief.Length; i++)
        {
            total += belief[i];
            for (int k = 0; k < _powers; k++)
            {
                mean[k] += belief[i] * values[(i * _powers) + k];
            }
        }

        for (int k = 0; k < _powers; k++)
        {
            mean[k] /= total;
        }

        return mean;
    }

    /// <summary>Conditional means given the separator, multiplied into the parent's values.</summary>
    private void HandUp(int c, double[] values, int parent)
    {
        Clique clique = _tree.Cliques[c];
        double[] message = Message(clique, values);
        double[] above = Values(parent);
        EntryMap map = clique.ParentMap!;
        if (_powers == 1)
        {
            map.Multiply(above.AsSpan(0, map.Entries), message);
            return;
        }

        for (int i = 0; i < map.Entries; i++)
        {
            Multiply(above.AsSpan(i * _powers, _powers), message.AsSpan(map[i] * _powers, _powers));
        }
    }

    private readonly double[] Message(Clique clique, double[] values)
    {
        ReadOnlySpan<double> belief = _beliefs.Slice(clique.Offset, clique.Size);
        var message = new double[clique.SeparatorSize * _powers];
        int at = 0;
        for (int s = 0; s < clique.SeparatorSize; s++)
        {
            if (_powers == 1)
            {
                message[s] = Mean(belief.Slice(at, clique.Run), values.AsSpan(at, clique.Run));
                at += clique.Run;
                continue;
            }

            double total = 0;
            for (int stop = at + clique.Run; at < stop; at++)
            {
                total += belief[at];
                for (int k = 0; k < _powers; k++)
                {
                    message[(s * _powers) + k] += belief[at] * values[(at * _powers) + k];
                }
            }

            for (int k = 0; k < _powers; k++)
            {
                message[(s * _powers) + k] = total == 0 ? 0 : message[(s * _powers) + k] / total;
            }
        }

        return message;
    }

    /// <summary>Mean of some values, weighted; 0 where nothing weighs.</summary>
    private static double Mean(ReadOnlySpan<double> weights, ReadOnlySpan<double> values)
    {
        double total = 0, sum = 0;
        int i = 0;
        if (weights.Length >= 2 * Vector<double>.Count)
        {
            Vector<double> totals = Vector<double>.Zero, sums = Vector<double>.Zero;
            for (; i <= weights.Length - Vector<double>.Count; i += Vector<double>.Count)
            {
                var weight = new Vector<double>(weights[i..]);
                totals += weight;
                sums += weight * new Vector<double>(values[i..]);
            }

            (total, sum) = (Vector.Sum(totals), Vector.Sum(sums));
        }

        for (; i < weights.Length; i++)
        {
            total += weights[i];
            sum += weights[i] * values[i];
        }

        return total == 0 ? 0 : sum / total;
    }

    private double[] Values(int clique)
    {
        if (_values[clique] is double[] known)
        {
            return known;
        }

        int size = _tree.Cliques[clique].Size * _powers;
        double[] values = Borrowed.Rent(size);
        values.AsSpan(0, size).Clear();
        for (int i = 0; i < size; i += _powers)
        {
            values[i] = 1;
        }

        return _values[clique] = values;
    }

    private static void Multiply(Span<double> target, ReadOnlySpan<double> by)
    {
        Span<double> product = stackalloc double[target.Length];
        product.Clear();
        for (int i = 0; i < target.Length; i++)
        {
            for (int j = 0; target[i] != 0 && j < by.Length; j++)
            {
                product[Math.Min(i + j, target.Length - 1)] += target[i] * by[j];
            }
        }

        product.CopyTo(target);
    }
}
