using FuelHistory.Client.Api;
using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>A screen that only waits for another: every key is meant for that one.</summary>
internal interface IWaiting;

/// <summary>Stands in the place of what is still loading and keeps the keys that are meant for it; they are pressed again there.</summary>
/// <param name="open">Opens what was waited for.</param>
/// <param name="preview">The form as far as it is known already, made anew for each look; null: nothing is known of it.</param>
internal sealed class WaitScreen<T>(Desk desk, string title, Func<CancellationToken, Task<Answer<T>>> load, Action<T> open, Func<Form>? preview = null)
    : Screen(desk), IWaiting
{
    private Got<T>? _ready;
    private string _refusal = "";
    private bool _leaving;

    public override string Title => title;

    public override bool Loaded => false;

    public override bool Holds => _refusal.Length == 0;

    public override IReadOnlyList<Bound> Keys =>
    [
        new(Client.Keys.Back, () => Leave(Desk.Back)),
        new(Client.Keys.Leave, () => Leave(Desk.End)),
        new(Client.Keys.HelpAnywhere, () => Desk.Open(new HelpScreen(Desk, this))),
        new(Client.Keys.HelpTyping, () => Desk.Open(new HelpScreen(Desk, this))),
        new(Client.Keys.Again, Load, () => Pending > 0 ? "it is being asked for" : null),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height)
    {
        if (_refusal.Length > 0) return [Line.Blank, .. Cells.Wrap(Clean.Of(_refusal, Signs), width - 4).Select(text => Line.Of("  " + text, Role.Warning))];
        List<Line> state = [.. Trouble.Length > 0 ? WaitLines.Of(Trouble, width) : [Line.Blank, Line.Of("  Its lists are loading; what is typed is kept.", Role.Faint)]];
        if (preview is null) return [.. state, .. Kept(Desk.Ahead.Keys.Count, width)];
        var known = Preview.Of(preview(), Desk.Ahead.Keys);
        return [.. FormLines.Of(known.Form, known.Field, [], width, Signs), .. state, .. Kept(known.Later, width)];
    }

    public override void Load()
    {
        if (_ready is null) Fetch(load, Arrived, Refused);
    }

    public override void Shown()
    {
        if (_ready is { } got) Arrived(got.Value);
    }

    private static IEnumerable<Line> Kept(int keys, int width) =>
        keys == 0 ? [] : [Line.Of(Cells.Cut($"  {keys} more {(keys == 1 ? "key" : "keys")} kept", width, Signs.Plain), Role.Faint)];

    /// <summary>Help may lie on top: then the place is kept until it is closed.</summary>
    private void Arrived(T value)
    {
        _ready = new Got<T>(value);
        if (Desk.Top == this) Desk.Replace(this, () => open(value));
    }

    private void Refused(Problem problem)
    {
        Desk.Ahead.Drop();
        _refusal = $"{problem.Title}: {problem.Detail}";
    }

    private void Leave(Action leave)
    {
        if (Desk.Ahead.Keys.Count > 0 && !_leaving)
        {
            _leaving = true;
            Desk.Message = $"What was typed is kept until it is loaded. {Client.Keys.Back.Shown} again leaves without it.";
            return;
        }
        Desk.Ahead.Drop();
        leave();
    }
}
