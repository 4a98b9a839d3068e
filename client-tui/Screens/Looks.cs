using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Looks at a gauge as this client keeps them: each has an id of its own from the start, so that it can be sent again until
/// the server has it, and counts once.</summary>
internal sealed class Looks(string unit)
{
    private readonly List<One> _all = [];

    private sealed record One(string Id, double Minutes, double Pressure, bool Confirmed, bool Sent);

    /// <summary>Looks that count, in the order of time.</summary>
    public IReadOnlyList<(double Minutes, double Pressure)> Standing => [.. _all.OrderBy(each => each.Minutes).Select(each => (each.Minutes, each.Pressure))];

    public int Waiting => _all.Count(each => !each.Sent);

    public string? LastId => _all.Count == 0 ? null : _all[^1].Id;

    public bool LastSent => _all.Count > 0 && _all[^1].Sent;

    public void Add(double minutes, double pressure) => _all.Add(new(Guid.NewGuid().ToString("N"), minutes, pressure, false, false));

    public void Remove(string id) => _all.RemoveAll(each => each.Id == id);

    /// <summary>The last look is right though it looks implausible.</summary>
    public void ConfirmLast() => _all[^1] = _all[^1] with { Confirmed = true };

    public NewLeakReadings Unsent() =>
        new([.. _all.Where(each => !each.Sent).Select(each => new NewLeakReading(new Measured(each.Pressure, unit), each.Minutes, null, each.Id, each.Confirmed))]);

    /// <summary>What the server has now; looks of this client that it does not know yet stay.</summary>
    public void Take(LeakDownView view)
    {
        var known = view.Readings.ToDictionary(each => each.Id);
        var own = _all.Select(each => each.Id).ToHashSet();
        for (var i = _all.Count - 1; i >= 0; i--)
        {
            if (!known.TryGetValue(_all[i].Id, out var reading)) continue;
            if (reading.TakenBack is not null) _all.RemoveAt(i);
            else _all[i] = _all[i] with { Sent = true };
        }
        _all.AddRange(view.Readings.Where(each => !own.Contains(each.Id) && each.TakenBack is null).Select(each => new One(each.Id, each.Minutes, each.Pressure.Value, false, true)));
    }
}
