namespace FuelHistory.Core.Assessment;

/// <summary>Puts checks and trials in order, and looks one step further for the best short ones: what the best second check after each
/// outcome would still save (MODEL.md 8). Two outcomes are taken as independent under each suspect, and under none of them.</summary>
internal static class LookAhead
{
    private const int Best = 5, Seconds = 8;

    private const double ShortMinutes = 10;

    public static IReadOnlyList<CheckAdvice> Ordered(CheckAdvice[] priced, Suspects suspects, Costs costs, NextOrder order)
    {
        bool saving = order is NextOrder.Saving or NextOrder.AheadSaving;
        Dictionary<string, (double Saving, double Minutes)> value = priced.ToDictionary(c => c.Check, c => (c.Saving, c.Minutes));
        if (order is NextOrder.Ahead or NextOrder.AheadSaving)
        {
            CheckAdvice[] seconds = [.. priced.Where(c => c.ToolsAtHand && c.Saving > 0).OrderByDescending(c => c.Saving).Take(Seconds)];
            foreach (CheckAdvice first in priced.Where(c => c.Pays && c.Minutes <= ShortMinutes).OrderByDescending(c => c.Saving).Take(Best))
            {
                value[first.Check] = Ahead(first, [.. seconds.Where(s => s != first)], suspects, costs);
            }
        }

        return [.. priced.OrderByDescending(c => c.Pays).ThenByDescending(c => value[c.Check].Saving / (saving ? 1 : Math.Max(1, value[c.Check].Minutes)))
            .Select(c => c with { Prospect = null })];
    }

    /// <summary>Expected saving and minutes of the first, with the best second one where that saves more than the repairs begun at once.</summary>
    private static (double Saving, double Minutes) Ahead(CheckAdvice first, CheckAdvice[] seconds, Suspects suspects, Costs costs)
    {
        Prospect seen = first.Prospect!;
        double cost = first.Cost, minutes = first.Minutes;
        for (int a = 0; a < seen.Plain.Length; a++)
        {
            double p = seen.Plain[a];
            if (p < Suspects.Never)
            {
                continue;
            }

            (double cost, double minutes) best = (suspects.CostAfter(seen, a), 0);
            foreach (CheckAdvice second in seconds)
            {
                Prospect both = Joint(suspects, seen, a, second.Prospect!);
                double then = second.Cost + Enumerable.Range(0, both.Plain.Length).Where(b => both.Plain[b] >= Suspects.Never)
                    .Sum(b => both.Plain[b] / p * suspects.CostAfter(both, b));
                best = then < best.cost ? (then, second.Minutes) : best;
            }

            (cost, minutes) = (cost + (p * best.cost), minutes + (p * best.minutes));
        }

        return (suspects.Now.Cost - cost, minutes);
    }

    /// <summary>Cells of the second check together with one outcome of the first; they sum to that outcome's probability.</summary>
    private static Prospect Joint(Suspects suspects, Prospect first, int a, Prospect second)
    {
        double[] weights = suspects.Weights();
        double rest = Math.Max(0, 1 - weights.Sum()), of = Left(weights, rest, first, a);
        double[] plain = [.. Enumerable.Range(0, second.Plain.Length).Select(b =>
            (rest * of * Left(weights, rest, second, b)) + weights.Select((w, s) => w * first.Under[s][a] * second.Under[s][b]).Sum())];
        double scale = first.Plain[a] / Math.Max(Suspects.Never, plain.Sum());
        return new Prospect(
            [.. plain.Select(p => p * scale)],
            [.. second.Under.Select((under, s) => under.Select(u => u * first.Under[s][a]).ToArray())]);
    }

    /// <summary>P(outcome) where no suspect is to blame.</summary>
    private static double Left(double[] weights, double rest, Prospect seen, int cell) =>
        rest < Suspects.Never ? seen.Plain[cell] : Math.Max(0, seen.Plain[cell] - weights.Select((w, s) => w * seen.Under[s][cell]).Sum()) / rest;
}
