using FuelHistory.Client.Forms;
using FuelHistory.Client.Lines;
using FuelHistory.Client.Words;
using FuelHistory.Contracts;

namespace FuelHistory.Client.Screens;

/// <summary>Picks from a long list; what is typed narrows it.</summary>
internal sealed class PickScreen(Desk desk, PickField pick, Action taken) : Screen(desk)
{
    private string _filter = "";

    public override string Title => pick.Label;

    public override int Rows => Fitting.Count;

    public override Typing? Typing => new(0, PickLines.FilterColumn, 40, _filter, Narrow);

    private IReadOnlyList<NamedThing> Fitting => [.. pick.Items.Where(item => Names.Fits(item, _filter))];

    public override IReadOnlyList<Bound> Keys =>
    [
        .. pick.Many
            ? [new Bound(Client.Keys.Mark, Turn, WhyNothing), new Bound(Client.Keys.Done, Finish)]
            : new Bound[] { new(Client.Keys.Take, Take, WhyNothing) },
        new(Client.Keys.Down, () => Go(1)), new(Client.Keys.Up, () => Go(-1)),
        new(Client.Keys.PageDown, () => Go(10)), new(Client.Keys.PageUp, () => Go(-10)),
    ];

    public override IReadOnlyList<Line> Lines(int width, int height) => PickLines.Of(pick, Fitting, Row, width, Signs);

    private void Narrow(string text)
    {
        _filter = text.Trim();
        Row = 0;
    }

    private string? WhyNothing() => Rows == 0 ? "nothing fits what was typed" : null;

    private void Go(int by) => Row = Math.Clamp(Row + by, 0, Math.Max(0, Rows - 1));

    private void Turn() => pick.Turn(Fitting[Row].Id);

    private void Take()
    {
        pick.Only(Fitting[Row].Id);
        Finish();
    }

    private void Finish()
    {
        Desk.Back();
        taken();
    }
}
