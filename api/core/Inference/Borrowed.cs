using System.Buffers;

namespace FuelHistory.Core.Inference;

/// <summary>Tables on loan, not cleared. The shared pool rounds sizes up to powers of two and keeps some of each per thread, which is much for
/// tables of millions of entries; of large ones a few are kept here, as long as they were asked for.</summary>
internal static class Borrowed
{
    /// <summary>Entries from which on a table is large, and entries of large tables that are kept.</summary>
    private const int Large = 1 << 16, Kept = 1_600_000;

    private static readonly List<double[]> Free = [];
    private static int _kept;

    /// <summary>A table of at least so many entries.</summary>
    public static double[] Rent(int entries)
    {
        if (entries <= Large)
        {
            return ArrayPool<double>.Shared.Rent(entries);
        }

        lock (Free)
        {
            double[]? best = null;
            foreach (double[] table in Free)
            {
                best = table.Length >= entries && table.Length / 4 <= entries && (best is null || table.Length < best.Length) ? table : best;
            }

            if (best is not null)
            {
                Free.Remove(best);
                _kept -= best.Length;
                return best;
            }

            Forget(entries);                                 // what does not fit makes room for what is wanted now
        }

        return GC.AllocateUninitializedArray<double>(entries);
    }

    public static void Return(double[] table)
    {
        if (table.Length <= Large)
        {
            ArrayPool<double>.Shared.Return(table);
            return;
        }

        lock (Free)
        {
            Forget(table.Length);
            if (table.Length <= Kept)
            {
                Free.Add(table);
                _kept += table.Length;
            }
        }
    }

    /// <summary>Lets the oldest go until so many more would be within what is kept: sizes wanted now are like those wanted just before.</summary>
    private static void Forget(int entries)
    {
        while (Free.Count > 0 && _kept + entries > Kept)
        {
            _kept -= Free[0].Length;
            Free.RemoveAt(0);
        }
    }
}
