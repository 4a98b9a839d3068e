using System.Collections.Concurrent;
using System.Globalization;
using FuelHistory.Core.LeakDown;

namespace FuelHistory.Core.Assessment;

/// <summary>Leak-downs already integrated, by what they are computed from: the integral is the dearest table of all, and the same run
/// comes back with every request.</summary>
internal sealed class LeakTables
{
    private const int Kept = 500;

    private readonly ConcurrentDictionary<string, LeakTable> _tables = [];

    /// <param name="biases">Shift of the reading per state of the gauge, bar.</param>
    public LeakTable For(IReadOnlyList<WatchedPressure> runs, LeakLimit limit, double[] biases)
    {
        string key = string.Join('|', runs.Select(r => $"{Words(r.Minutes)};{Words(r.Bar)};{r.Error}").Append(limit.ToString()).Append(Words(biases)));
        if (!_tables.TryGetValue(key, out LeakTable? table))
        {
            table = new LeakTable(biases.Length, (bias, level, lost) => runs.Count == 0 ? 1 : SeepLaw.Likelihood(runs, biases[bias], limit, level, lost));
            if (_tables.Count >= Kept)
            {
                _tables.Clear();
            }

            _tables[key] = table;
        }

        return table;
    }

    private static string Words(double[] values) => string.Join(',', values.Select(v => v.ToString("R", CultureInfo.InvariantCulture)));
}
