using System.Collections.Concurrent;

namespace FuelHistory.Core;

/// <summary>What was computed once, by what it was computed from; full, it starts anew.</summary>
internal sealed class Memo<TKey, TValue>(int most)
    where TKey : notnull
{
    private readonly ConcurrentDictionary<TKey, TValue> _known = [];

    public TValue Of(TKey key, Func<TValue> make)
    {
        if (!_known.TryGetValue(key, out TValue? value))
        {
            value = make();
            if (_known.Count >= most)
            {
                _known.Clear();
            }

            _known[key] = value;
        }

        return value;
    }
}
