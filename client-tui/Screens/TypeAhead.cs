using Terminal.Gui.Input;

namespace FuelHistory.Client.Screens;

/// <summary>Keys pressed while what they are meant for is still loading. They are kept in their order and pressed again once it is there.</summary>
internal sealed class TypeAhead
{
    private readonly Queue<Key> _keys = new();

    public IReadOnlyCollection<Key> Keys => _keys;

    public void Keep(Key key) => _keys.Enqueue(key);

    public void Keep(string text)
    {
        foreach (var rune in text.EnumerateRunes())
            if (rune.Value >= ' ') _keys.Enqueue(new Key(rune.Value));
    }

    public Key? Next() => _keys.TryDequeue(out var key) ? key : null;

    public void Drop() => _keys.Clear();
}
