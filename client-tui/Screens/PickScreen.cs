using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Picks from a long list; what is typed narrows it.</summary>
internal sealed class PickScreen(Desk desk, PickField pick) : Screen(desk)
{
    private string _filter = "";

    public override string Title => pick.Label;

    public override int Rows => Fitting.Count;

    public override Typing? Typing => new(0, PickLines.FilterColumn, 40, _filter, Narrow);

    private IReadOnlyList<NamedThing> Fitting => [.. pick.Items.Where(item => item.Title.Contains(_filter, StringComparison.OrdinalIgnoreCase) || item.Id.Contains(_filter, StringComparison.OrdinalIgnoreCase))];

    public override IReadOnlyList<Bound> Keys =>
    [
        .. pick.Many ? [new Bound(Client.Keys.Mark, Turn, () => Rows == 0 ? "nothing fits what was typed" : null)] : Array.Empty<Bound>(),
        new(Client.Keys.Take, Take, () => Rows == 0 ? "nothing fits what was typed" : null),
        new(Client.Keys.Down, () => Row = Math.Min(Row + 1, Rows - 1)), new(Client.Keys.Up, () => Row = Math.Max(Row - 1, 0)),
        new(Client.Keys.PageDown, () => Row = Math.Min(Row + 10, Rows - 1)), new(Client.Keys.PageUp, () => Row = Math.Max(Row - 10, 0)),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) => PickLines.Of(pick, Fitting, Row, width, Signs);

    private void Narrow(string text)
    {
        _filter = text.Trim();
        Row = 0;
    }

    private void Turn() => pick.Turn(Fitting[Row].Id);

    private void Take()
    {
        if (!pick.Many) pick.Only(Fitting[Row].Id);
        Desk.Back();
    }
}
