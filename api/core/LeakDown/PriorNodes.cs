namespace FuelHistory.Core.LeakDown;

/// <summary>What was believed before the first look, as evenly spread points of like weight.</summary>
internal static class PriorNodes
{
    private const int Count = 1024;

    public static LeakNode[] Of(LeakLimit limit, LeakPrior prior)
    {
        (int Level, bool Lost, LeakLaw Law, double Weight)[] kinds = [.. prior.Beliefs().SelectMany(b => LeakLaws.All.Select(law => (b.Level, b.Lost, law, b.Weight * LeakLaws.Weight(law, b.Lost))))];
        double whole = kinds.Sum(k => k.Weight), sum = kinds[0].Weight;
        var nodes = new LeakNode[Count];
        for (int i = 0, k = 0; i < Count; i++)
        {
            double at = (i + 0.5) / Count * whole;
            while (sum < at && k < kinds.Length - 1)
            {
                sum += kinds[++k].Weight;
            }

            nodes[i] = Of(limit, kinds[k].Level, kinds[k].Lost, kinds[k].Law, i) with
            {
                Drop = limit.Drop > 0 ? (int)(LeakLaws.Drops.Length * Spread.At(i, 8)) : -1,
            };
        }

        return nodes;
    }

    private static LeakNode Of(LeakLimit limit, int level, bool lost, LeakLaw law, int i)
    {
        (double shortest, double longest) = limit.TauRange(level, lost);
        double tau = shortest * Math.Pow(longest / shortest, Spread.At(i, 3));
        int h = LeakLaws.SoakAt(Spread.At(i, 4));
        return law switch
        {
            LeakLaw.Seep => new LeakNode(LeakForm.Seep, h, tau, 0, 0, 1.0 / Count),
            LeakLaw.Orifice => new LeakNode(LeakForm.Orifice, h, tau, 0, 0, 1.0 / Count),
            LeakLaw.Collapse => new LeakNode(LeakForm.EmptyAtBar, h, tau, Between(LeakLaws.EmptyFrom, LeakLaws.EmptyTo, Spread.At(i, 5)), 0, 1.0 / Count),
            _ => new LeakNode(LeakForm.Settle, h, tau, Between(limit.Settles.From, limit.Settles.To, Spread.At(i, 5)), Between(LeakLaws.KeptFrom, LeakLaws.KeptTo, Spread.At(i, 6)), 1.0 / Count),
        };
    }

    private static double Between(double from, double to, double share) => from + ((to - from) * share);
}

/// <summary>Even spread in several dimensions instead of chance: multiples of the powers of the number that solves x^8 = x + 1.</summary>
internal static class Spread
{
    private const double Root = 1.0969815577985598;

    public static double At(int i, int dimension)
    {
        double at = 0.5 + ((i + 1) / Math.Pow(Root, dimension + 1));
        return Math.Clamp(at - Math.Floor(at), 1e-6, 1 - 1e-6);
    }
}
